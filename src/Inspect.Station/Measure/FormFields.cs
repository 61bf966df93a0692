using System.Globalization;
using Inspect.Advice;
using Inspect.Rules.Judging;
using Inspect.Sheets;
using Inspect.Station.Web;

namespace Inspect.Station.Measure;

/// <summary>The fields of the measuring form as lists: which are imbalances, which are seldom asked for, which are readings, which were left out.</summary>
public static class FormFields
{
    private const int MostLeft = 20;
    private const int MostFurther = 4;
    private const int MostPieces = 12;
    private const int PiecesShown = 4;

    /// <summary>The digits as they are written in a sheet.</summary>
    public static readonly IReadOnlyList<string> DigitWords = [.. MeasureForm.Digits.Select(Words.Of)];

    /// <summary>The imbalances: the path, the side that is positive, and the other.</summary>
    public static readonly IReadOnlyList<(string Path, string Positive, string Negative)> Imbalances =
        [("weights.topBottom", "top", "bottom"), ("weights.leftRight", "right", "left"), ("weights.fingerThumb", "finger", "thumb")];

    /// <summary>The row of the balance hole.</summary>
    public const string BalanceHole = "hole.balance";

    /// <summary>Rows for holes of a kind or for a digit that has its row already.</summary>
    public static readonly IReadOnlyList<string> FurtherHoles = [.. Enumerable.Range(1, MostFurther).Select(i => FormattableString.Invariant($"hole.more{i}"))];

    /// <summary>The rows of holes whose place, pitch and way of gauging matter to advice and pictures; vents and mill holes weigh next to nothing.</summary>
    public static readonly IReadOnlyList<string> PlacedRows = [.. MeasureForm.Digits.Select(RowOf), BalanceHole];

    /// <summary>The marks whose places are measured, each with what it is called.</summary>
    public static readonly IReadOnlyList<(string Path, string Label)> Marks =
        [("ball.pin", "Pin"), ("ball.massBias", "Mass-bias mark"), ("ball.gravityMark", "Centre of gravity")];

    /// <summary>Every reading whose side stands in a field behind it, with the names of its two sides.</summary>
    public static readonly IReadOnlyList<(string Path, string One, string Other)> Sided =
    [
        .. Imbalances.SelectMany(each => new[] { each, each with { Path = $"{each.Path}.turned" }, each with { Path = $"{each.Path}.again" } }),
        .. PlacedRows.Select(row => ($"{row}.pitch.south", PitchSides.Along.Positive, PitchSides.Along.Negative)),
        .. PlacedRows.Select(row => ($"{row}.pitch.east", Sideways(row).One, Sideways(row).Other)),
    ];

    /// <summary>Fields that Enter passes over until the rules ask for one of them; a last full stop stands for all that begin so, a first one for all that contain it.</summary>
    public static readonly IReadOnlyList<string> OnlyWhenAsked =
        ["play", "tag", "ball.made", "ball.oilAbsorption", "ball.highPerformanceCore", "ball.house", "ball.houseBall.", "ball.declared.", "ball.pin.", "ball.massBias.",
         "ball.gravityMark.", "grip.demonstrated", "weights.anyHalves", "weights.scaleConstant", ".turned", ".more", ".pieces[", ".position.", ".pitch.", "holes.depthTo",
         "hole.index.", "hole.little.", "hole.vent1.", "hole.vent2.", "hole.mill.", "hole.balance.", "size.diameters[2]", "size.diameters[3]", "hardness.", "marks.palmMarks", "left."];

    /// <summary>The readings by their fields, in the order in which the hands work.</summary>
    public static readonly IReadOnlyList<(string Path, string Label)> Readings =
    [
        ("weights.gross", "Gross weight"), ("weights.topBottom", "Top or bottom"), ("weights.leftRight", "Left or right"), ("weights.fingerThumb", "Finger or thumb"),
        .. MeasureForm.Digits.SelectMany(digit => new[]
        {
            ($"{RowOf(digit)}.diameter", $"{Words.Capital(Words.Of(digit))} diameter"),
            ($"{RowOf(digit)}.depth", $"{Words.Capital(Words.Of(digit))} depth"),
        }),
        ("size.diameters[0]", "Diameter"), ("size.diameters[1]", "Diameter, turned"), ("size.circumference", "Circumference"), ("hardness.readings[0]", "Hardness"),
    ];

    private static readonly Dictionary<string, string> Titles = new(Readings.ToDictionary(reading => reading.Path, reading => reading.Label), StringComparer.Ordinal)
    {
        ["ball.listed"] = "On the approved list",
        ["ball.made"] = "Made",
        ["ball.serial"] = "Serial number",
        ["ball.maker"] = "Maker",
        ["ball.model"] = "Model",
        ["ball.oilAbsorption"] = "Oil absorption",
        ["ball.highPerformanceCore"] = "High-performance core",
        ["grip.digits"] = "Digits in use",
        ["grip.demonstrated"] = "All holes usable",
        ["weights.anyHalves"] = "Any two halves",
        ["holes.second"] = "Second holes",
        ["holes.other"] = "Other holes",
        ["hardness.temperature"] = "Temperature",
        ["marks.modelReadable"] = "Maker and model readable",
        ["marks.serialReadable"] = "Serial readable",
        ["marks.palmMarks"] = "Plus marks near the palm",
        ["marks.foreignMaterial"] = "Foreign material",
        ["marks.surfacePattern"] = "Grooves or depressions",
    };

    /// <summary>The readings that can be taken a second time; diameters and hardness have several fields of their own.</summary>
    public static readonly IReadOnlyList<(string Path, string Label)> Repeatable =
        [.. Readings.Where(reading => !reading.Path.EndsWith(']'))];

    /// <summary>Whether a field's reading can be taken a second time.</summary>
    public static bool CanRepeat(string field) => Repeatable.Any(reading => reading.Path == field);

    /// <summary>Whether a field is read or seen at the table; identity and grip may be known before the ball is there.</summary>
    public static bool IsSeenAtTheTable(string field) =>
        new[] { "weights.", "hole.", "holes.", "size.", "hardness.", "marks." }.Any(group => field.StartsWith(group, StringComparison.Ordinal));

    /// <summary>What a field is called in a list of what is missing.</summary>
    public static string TitleOf(string field) => Titles.TryGetValue(field, out var title) ? title
        : field.StartsWith("hole.", StringComparison.Ordinal) ? HoleTitle(field.Split('.'))
        : field.StartsWith("ball.house", StringComparison.Ordinal) ? "House ball"
        : field.StartsWith("circumstances.", StringComparison.Ordinal) ? "The bowler's squad" : field;

    /// <summary>A row of holes, a piece of one or a reading of either: "Thumb depth", "Thumb, piece 2", "Second vent diameter".</summary>
    private static string HoleTitle(string[] steps)
    {
        var (row, members) = (steps[1], steps.Skip(2).ToList());
        var title = row switch
        {
            "vent1" => "Vent",
            "vent2" => "Second vent",
            "mill" or "balance" => $"{Words.Capital(row)} hole",
            _ => FurtherHoles.Contains($"hole.{row}") ? "Further hole" : Words.Capital(row),
        };
        if (members is [{ } piece, ..] && piece.StartsWith("pieces[", StringComparison.Ordinal))
        {
            title = Words.Piece(title, int.Parse(piece.AsSpan("pieces[".Length..^1), CultureInfo.InvariantCulture));
            members.RemoveAt(0);
        }

        return string.Join(' ', members.Prepend(title));
    }

    /// <summary>What a path of a sheet is called at the table.</summary>
    public static string LabelOf(string path, Sheet sheet) => path == "holes" ? "A hole" : TitleOf(FieldOf(path, sheet));

    /// <summary>The field that a path of a sheet is typed into.</summary>
    public static string FieldOf(string path, Sheet sheet)
    {
        var hole = (sheet.Holes ?? []).Index().FirstOrDefault(each => path.StartsWith(FormattableString.Invariant($"holes[{each.Index}]."), StringComparison.Ordinal));
        return hole.Item?.Digit is { } digit ? $"hole.{Words.Of(digit)}{path[path.IndexOf('.', StringComparison.Ordinal)..]}" : path;
    }

    /// <summary>A digit's row of holes.</summary>
    public static string RowOf(Digit digit) => $"hole.{Words.Of(digit)}";

    /// <summary>The two ways in which a hole may lean sideways, as they are chosen in its row.</summary>
    public static (string One, string Other) Sideways(string row) => row == BalanceHole ? PitchSides.Around : ("left", "right");

    /// <summary>The interchangeable pieces of a hole's row.</summary>
    public static IEnumerable<string> Pieces(string row) => Enumerable.Range(0, MostPieces).Select(i => FormattableString.Invariant($"{row}.pieces[{i}]"));

    /// <summary>The pieces to show: as many as an inspector meets, and always one more than stand there.</summary>
    public static IEnumerable<string> PiecesToShow(TypedFields fields, string row) =>
        Pieces(row).Take(Math.Max(PiecesShown, Pieces(row).Index().LastOrDefault(piece => fields.AnyIn(piece.Item)).Index + 2));

    /// <summary>The field in a row of readings left out.</summary>
    public static string Left(int row, string member) => FormattableString.Invariant($"left.{row}.{member}");

    /// <summary>How many rows to show for readings left out: those filled, and one more.</summary>
    public static int LeftRows(TypedFields fields) =>
        Enumerable.Range(0, MostLeft).Count(row => fields.One(Left(row, "path")).Length + fields.One(Left(row, "reason")).Length > 0) + 1;

    /// <summary>The readings left out on purpose, each field with its reason; what is wrong with a row is a fault of its field.</summary>
    public static IReadOnlyList<(string Field, string Reason)> LeftOut(TypedFields fields, Faults faults)
    {
        var left = new List<(string, string)>();
        for (var row = 0; row < MostLeft; row++)
        {
            var (field, reason) = (fields.One(Left(row, "path")), fields.One(Left(row, "reason")));
            var label = Readings.FirstOrDefault(reading => reading.Path == field).Label;
            if (field.Length + reason.Length == 0)
            {
                continue;
            }

            if (label is null)
            {
                faults.Add(Left(row, "path"), "Choose the reading that was not taken.");
            }
            else if (reason.Length == 0)
            {
                faults.Add(Left(row, "reason"), $"Say why {label} was not taken, as in \"no scale at this table\".");
            }
            else if (reason.Length > 300)
            {
                faults.Add(Left(row, "reason"), $"This reason has {reason.Length} letters; say it in 300.");
            }
            else if (fields.One(field) is { Length: > 0 } typed)
            {
                faults.Add(Left(row, "path"), $"\"{typed}\" stands in {label}, which is said not to be taken; take one of the two away.");
            }
            else
            {
                left.Add((field, reason));
            }
        }

        return left;
    }
}
