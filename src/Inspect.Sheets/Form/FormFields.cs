using System.Globalization;
using Inspect.Sheets.Json;
using Inspect.Sheets.Readings;

namespace Inspect.Sheets.Form;

/// <summary>The fields of the measuring form as lists: which are imbalances, which are seldom asked for, which are readings, which were left out.</summary>
public static class FormFields
{
    private const int MostLeft = 20;
    private const int MostFurther = 4;
    private const int PiecesShown = 4;

    /// <summary>The digits as they are written in a sheet.</summary>
    public static readonly IReadOnlyList<string> DigitWords = [.. MeasureForm.Digits.Select(Words.Of)];

    /// <summary>The row of the balance hole.</summary>
    public const string BalanceHole = "hole.balance";

    /// <summary>Rows for holes of a kind or for a digit that has its row already.</summary>
    public static readonly IReadOnlyList<string> FurtherHoles = [.. Enumerable.Range(1, MostFurther).Select(i => FormattableString.Invariant($"hole.more{i}"))];

    /// <summary>The rows of holes whose place, pitch and way of gauging matter to advice and pictures; vents and mill holes weigh next to nothing.</summary>
    public static readonly IReadOnlyList<string> PlacedRows = [.. MeasureForm.Digits.Select(RowOf), BalanceHole];

    /// <summary>The beginnings of the names of all fields that belong to the sheet.</summary>
    internal static readonly IReadOnlyList<string> Groups =
    [
        .. Catalogue.All.Where(member => member.IsTyped && member.Path.Contains('.', StringComparison.Ordinal)).Select(member => $"{member.Path.Split('.', '[')[0]}.").Distinct(),
        "hole.", "left.", "use.",
    ];

    /// <summary>The beginnings of the names of fields that are read or seen at the table; identity and grip may be known before the ball is there.</summary>
    public static readonly IReadOnlyList<string> SeenAtTheTable = [.. Groups.Except(["ball.", "grip.", "left.", "use."])];

    /// <summary>The beginnings of the names of fields that numbers are typed into at the table.</summary>
    public static readonly IReadOnlyList<string> Measured = ["hole.", .. Groups.Where(group => Catalogue.All.Any(member => member.IsMeasured && member.Path.StartsWith(group, StringComparison.Ordinal)))];

    /// <summary>The fields in which a hyphen parts pounds from ounces.</summary>
    public static readonly IReadOnlyList<string> PoundsAndOunces = [.. Catalogue.All.Where(member => member.Unit == Unit.PoundOunce).Select(member => member.Path)];

    /// <summary>Every reading whose side stands in a field behind it.</summary>
    public static readonly IReadOnlyList<(string Path, Sides Sides)> Sided =
    [
        .. Catalogue.Imbalances.SelectMany(each => new[] { "", ".turned", ".again" }.Select(look => (each.Path + look, each.Sides!))),
        .. PlacedRows.Select(row => ($"{row}.pitch.south", PitchSides.Along)),
        .. PlacedRows.Select(row => ($"{row}.pitch.east", Sideways(row))),
    ];

    /// <summary>Fields that Enter passes over until the rules ask for one of them; a last full stop stands for all that begin so, a first one for all that contain it.</summary>
    public static readonly IReadOnlyList<string> OnlyWhenAsked =
    [
        "tag", "ball.house", ".turned", ".more", ".pieces[", ".position.", ".pitch.", "holes.depthTo", "left.",
        "hole.index.", "hole.little.", "hole.vent1.", "hole.vent2.", "hole.mill.", "hole.balance.",
        .. Catalogue.All.Where(member => !member.IsOfHole).SelectMany(member => member.FieldNames.Skip(member.Stops)),
    ];

    /// <summary>The readings by their fields, in the order in which the hands work.</summary>
    public static readonly IReadOnlyList<(string Path, string Label)> Readings =
        [.. Catalogue.All.Where(member => member.MayBeLeftOut > 0).SelectMany(member => !member.IsOfHole
            ? member.FieldNames.Take(member.MayBeLeftOut).Select((field, i) => (field, member.LabelOf(i)))
            : member == Catalogue.Of(RuleQuantity.HoleDiameter) ? MeasureForm.Digits.SelectMany(Gauged) : [])];

    private static readonly Dictionary<string, string> Titles = new(
        Catalogue.All.Where(member => !member.IsOfHole).SelectMany(member => member.FieldNames.Select((field, i) => (field, member.LabelOf(i))).Prepend((member.Path, member.Label)))
            .DistinctBy(each => each.Item1).ToDictionary(each => each.Item1, each => each.Item2),
        StringComparer.Ordinal)
    {
        ["holes.second"] = "Second holes",
        ["holes.other"] = "Other holes",
    };

    /// <summary>The readings that can be taken a second time; diameters and hardness have several fields of their own.</summary>
    public static readonly IReadOnlyList<(string Path, string Label)> Repeatable = [.. Readings.Where(reading => MemberOf(reading.Path)!.CanBeReadTwice)];

    /// <summary>Whether a field's reading can be taken a second time.</summary>
    public static bool CanRepeat(string field) => Repeatable.Any(reading => reading.Path == field);

    /// <summary>Whether a field is read or seen at the table.</summary>
    public static bool IsSeenAtTheTable(string field) =>
        SeenAtTheTable.Any(group => field.StartsWith(group, StringComparison.Ordinal));

    /// <summary>What a field is called in a list of what is missing.</summary>
    public static string TitleOf(string field) => Titles.TryGetValue(field, out var title) ? title
        : field.StartsWith("hole.", StringComparison.Ordinal) ? HoleTitle(field.Split('.'))
        : field.StartsWith("ball.house", StringComparison.Ordinal) ? "House ball" : field;

    /// <summary>The member of a sheet that a field becomes, or null for a field that is no member by itself.</summary>
    public static SheetMember? MemberOf(string field) => field.StartsWith("hole.", StringComparison.Ordinal)
        ? Catalogue.At($"holes[]{field[Math.Max(field.IndexOf('.', "hole.".Length), 0)..]}")
        : Catalogue.At(field);

    private static IEnumerable<(string Path, string Label)> Gauged(Digit digit) =>
        new[] { "diameter", "depth" }.Select(name => ($"{RowOf(digit)}.{name}", $"{Words.Capital(Words.Of(digit))} {name}"));

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
    public static Sides Sideways(string row) => row == BalanceHole ? PitchSides.Around : PitchSides.LeftGrows;

    /// <summary>The interchangeable pieces of a hole's row.</summary>
    public static IEnumerable<string> Pieces(string row) => Enumerable.Range(0, Catalogue.MostPieces).Select(i => FormattableString.Invariant($"{row}.pieces[{i}]"));

    /// <summary>The pieces to show: as many as an inspector meets, and always one more than stand there.</summary>
    public static IEnumerable<string> PiecesToShow(TypedFields fields, string row) =>
        Pieces(row).Take(Math.Max(PiecesShown, Pieces(row).Index().LastOrDefault(piece => fields.AnyIn(piece.Item)).Index + 2));

    /// <summary>The field in a row of readings left out.</summary>
    public static string Left(int row, string member) => FormattableString.Invariant($"left.{row}.{member}");

    /// <summary>How many rows to show for readings left out: those filled, and one more.</summary>
    public static int LeftRows(TypedFields fields) =>
        Enumerable.Range(0, MostLeft).Count(row => fields.One(Left(row, "path")).Length + fields.One(Left(row, "reason")).Length > 0) + 1;

    /// <summary>The readings left out on purpose, each field with its reason; what is wrong with a row is a fault of its field.</summary>
    public static IReadOnlyList<(string Field, string Reason)> LeftOut(TypedFields fields, List<Fault> faults)
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
                faults.Add(new Fault(Left(row, "path"), "Choose the reading that was not taken."));
            }
            else if (reason.Length == 0)
            {
                faults.Add(new Fault(Left(row, "reason"), $"Say why {label} was not taken, as in \"no scale at this table\"."));
            }
            else if (reason.Length > 300)
            {
                faults.Add(new Fault(Left(row, "reason"), $"This reason has {reason.Length} letters; say it in 300."));
            }
            else if (fields.One(field) is { Length: > 0 } typed)
            {
                faults.Add(new Fault(Left(row, "path"), $"\"{typed}\" stands in {label}, which is said not to be taken; take one of the two away."));
            }
            else
            {
                left.Add((field, reason));
            }
        }

        return left;
    }
}
