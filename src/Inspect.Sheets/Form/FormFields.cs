using System.Globalization;
using Inspect.Sheets.Json;
using Inspect.Sheets.Readings;

namespace Inspect.Sheets.Form;

/// <summary>Lists of the measuring form's fields: imbalances, fields that are seldom needed, readings, and readings left out.</summary>
public static class FormFields
{
    private const int MostLeft = 20;
    private const int MostFurther = 4;
    private const int PiecesShown = 4;

    /// <summary>The digits as they are written in a sheet.</summary>
    public static readonly IReadOnlyList<string> DigitWords = [.. MeasureForm.Digits.Select(Words.Of)];

    /// <summary>The row of the balance hole.</summary>
    public const string BalanceHole = "hole.balance";

    /// <summary>The field of the one answer for everything that is looked at: "in order" or not.</summary>
    public const string InOrder = "marks.inOrder";

    /// <summary>What is looked at on every ball, each with the answer that means "in order".</summary>
    public static readonly IReadOnlyList<(string Field, string Good)> LookedAt =
    [
        .. Catalogue.Seen.Where(member => member.Good is not null).Select(member => (member.Path, member.Good!)),
        ("holes.second", "none"), ("holes.other", "none"),
    ];

    /// <summary>Rows for further holes, when the row of their kind or digit is in use.</summary>
    public static readonly IReadOnlyList<string> FurtherHoles =
        [.. Enumerable.Range(1, MostFurther).Select(i => FormattableString.Invariant($"hole.more{i}"))];

    /// <summary>The rows of holes whose place, pitch and way of gauging matter to advice and pictures. Vents
    /// and mill holes weigh next to nothing.</summary>
    public static readonly IReadOnlyList<string> PlacedRows = [.. MeasureForm.Digits.Select(RowOf), BalanceHole];

    /// <summary>How the names of the sheet's fields begin.</summary>
    internal static readonly IReadOnlyList<string> Groups =
    [
        .. Catalogue.All.Where(member => member.IsTyped && member.Path.Contains('.', StringComparison.Ordinal))
            .Select(member => $"{member.Path.Split('.', '[')[0]}.").Distinct(),
        "hole.", "left.", "sure.", "use.",
    ];

    /// <summary>How the names of fields begin that are read or seen at the table. Identity and grip
    /// may be known before the ball is there.</summary>
    public static readonly IReadOnlyList<string> SeenAtTheTable = [.. Groups.Except(["ball.", "grip.", "left.", "sure.", "use."])];

    /// <summary>How the names of fields begin that take numbers measured at the table.</summary>
    public static readonly IReadOnlyList<string> Measured =
    [
        "hole.",
        .. Groups.Where(group => Catalogue.All.Any(
            member => member.IsMeasured && member.Path.StartsWith(group, StringComparison.Ordinal))),
    ];

    /// <summary>The fields in which a hyphen separates pounds from ounces.</summary>
    public static readonly IReadOnlyList<string> PoundsAndOunces =
        [.. Catalogue.All.Where(member => member.Unit == Unit.PoundOunce).Select(member => member.Path)];

    /// <summary>Every reading whose side is chosen in a field after it.</summary>
    public static readonly IReadOnlyList<(string Path, Sides Sides)> Sided =
    [
        .. Catalogue.Imbalances.SelectMany(each => new[] { "", ".turned", ".again" }.Select(look => (each.Path + look, each.Sides!))),
        .. PlacedRows.Select(row => ($"{row}.pitch.south", PitchSides.Along)),
        .. PlacedRows.Select(row => ($"{row}.pitch.east", Sideways(row))),
    ];

    /// <summary>Fields that Enter skips until the rules need one of them. A full stop at the end means every name that begins so,
    /// one at the beginning every name that contains it.</summary>
    public static readonly IReadOnlyList<string> OnlyWhenAsked =
    [
        "tag", "ball.house", ".turned", ".more", ".pieces[", ".position.", ".pitch.", "holes.depthTo", "left.",
        "hole.index.", "hole.little.", "hole.vent1.", "hole.vent2.", "hole.mill.", "hole.balance.",
        .. Catalogue.All.Where(member => !member.IsOfHole).SelectMany(member => member.FieldNames.Skip(member.Stops)),
    ];

    /// <summary>The readings by their fields, in the order in which an inspector works.</summary>
    public static readonly IReadOnlyList<(string Path, string Label)> Readings =
        [.. Catalogue.All.Where(member => member.MayBeLeftOut > 0).SelectMany(member => !member.IsOfHole
            ? member.FieldNames.Take(member.MayBeLeftOut).Select((field, i) => (field, member.LabelOf(i)))
            : member == Catalogue.Of(RuleQuantity.HoleDiameter) ? MeasureForm.Digits.SelectMany(Gauged) : [])];

    private static readonly Dictionary<string, string> Titles = new(
        Catalogue.All.Where(member => !member.IsOfHole)
            .SelectMany(member => member.FieldNames.Select((field, i) => (field, member.LabelOf(i))).Prepend((member.Path, member.Label)))
            .DistinctBy(each => each.Item1).ToDictionary(each => each.Item1, each => each.Item2),
        StringComparer.Ordinal)
    {
        ["holes.second"] = "Extra hole inside a hole",
        ["holes.other"] = "Other holes",
    };

    /// <summary>The readings that can be taken a second time. Diameters and hardness have several fields instead.</summary>
    public static readonly IReadOnlyList<(string Path, string Label)> Repeatable =
        [.. Readings.Where(reading => MemberOf(reading.Path)!.CanBeReadTwice)];

    /// <summary>The one answer for everything that is looked at: "yes" when all is answered "in order", "no" when something is not,
    /// empty while anything is open.</summary>
    public static string InOrderOf(TypedFields fields) =>
        LookedAt.Any(each => fields.One(each.Field) is { Length: > 0 } answer && answer != each.Good) ? "no"
        : LookedAt.All(each => fields.One(each.Field).Length > 0) ? "yes" : "";

    /// <summary>Whether a field's reading can be taken a second time.</summary>
    public static bool CanRepeat(string field) => Repeatable.Any(reading => reading.Path == field);

    /// <summary>The field of the first reading, for that of a second one.</summary>
    public static string FirstOf(string field) =>
        new[] { ".again", ".turned" }.Where(look => field.EndsWith(look, StringComparison.Ordinal)).Select(look => field[..^look.Length])
            .FirstOrDefault(field);

    /// <summary>Whether a field is read or seen at the table.</summary>
    public static bool IsSeenAtTheTable(string field) =>
        SeenAtTheTable.Any(group => field.StartsWith(group, StringComparison.Ordinal));

    /// <summary>The name of a field in a list of what is missing.</summary>
    public static string TitleOf(string field) => Titles.TryGetValue(field, out var title) ? title
        : field.StartsWith("hole.", StringComparison.Ordinal) ? HoleTitle(field.Split('.'))
        : field.StartsWith("ball.house", StringComparison.Ordinal) ? "House ball" : field;

    /// <summary>The member of a sheet that a field becomes, or null when it does not become a member on its own.</summary>
    public static SheetMember? MemberOf(string field) => field.StartsWith("hole.", StringComparison.Ordinal)
        ? Catalogue.At($"holes[]{field[Math.Max(field.IndexOf('.', "hole.".Length), 0)..]}")
        : Catalogue.At(field);

    private static IEnumerable<(string Path, string Label)> Gauged(Digit digit) =>
        new[] { "diameter", "depth" }.Select(name => ($"{RowOf(digit)}.{name}", $"{Words.Capital(Words.Of(digit))} {name}"));

    /// <summary>The name of a row of holes, of a piece or of a reading: "Thumb depth", "Thumb, piece 2", "Second vent diameter".</summary>
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

    /// <summary>What an inspector calls a path of a sheet.</summary>
    public static string LabelOf(string path, Sheet sheet) => path == "holes" ? "A hole" : TitleOf(FieldOf(path, sheet));

    /// <summary>The form's field for a path of a sheet.</summary>
    public static string FieldOf(string path, Sheet sheet)
    {
        var hole = (sheet.Holes ?? []).Index().FirstOrDefault(
            each => path.StartsWith(FormattableString.Invariant($"holes[{each.Index}]."), StringComparison.Ordinal));
        return hole.Item?.Digit is { } digit ? $"hole.{Words.Of(digit)}{path[path.IndexOf('.', StringComparison.Ordinal)..]}" : path;
    }

    /// <summary>A digit's row of holes.</summary>
    public static string RowOf(Digit digit) => $"hole.{Words.Of(digit)}";

    /// <summary>The two ways in which a hole may lean sideways, as its row offers them.</summary>
    public static Sides Sideways(string row) => row == BalanceHole ? PitchSides.Around : PitchSides.LeftGrows;

    /// <summary>The fields for the interchangeable pieces of a hole's row.</summary>
    public static IEnumerable<string> Pieces(string row) =>
        Enumerable.Range(0, Catalogue.MostPieces).Select(i => FormattableString.Invariant($"{row}.pieces[{i}]"));

    /// <summary>The pieces to show: the usual number, and always one more than are filled in.</summary>
    public static IEnumerable<string> PiecesToShow(TypedFields fields, string row) =>
        Pieces(row).Take(Math.Max(PiecesShown, Pieces(row).Index().LastOrDefault(piece => fields.AnyIn(piece.Item)).Index + 2));

    /// <summary>The field of a row of readings left out.</summary>
    public static string Left(int row, string member) => FormattableString.Invariant($"left.{row}.{member}");

    /// <summary>How many rows of readings left out to show: those filled in, and one more.</summary>
    public static int LeftRows(TypedFields fields) =>
        Enumerable.Range(0, MostLeft).Count(row => fields.One(Left(row, "path")).Length + fields.One(Left(row, "reason")).Length > 0) + 1;

    /// <summary>The readings left out on purpose, each with its reason. A fault in a row is added at its field.</summary>
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
                faults.Add(new Fault(Left(row, "reason"), $"This reason has {reason.Length} characters; use at most 300."));
            }
            else if (fields.One(field) is { Length: > 0 } typed)
            {
                faults.Add(new Fault(
                    Left(row, "path"), $"\"{typed}\" is entered in {label}, which is marked as not taken; remove one of the two."));
            }
            else
            {
                left.Add((field, reason));
            }
        }

        return left;
    }
}
