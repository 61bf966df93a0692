using System.Globalization;
using System.Text.RegularExpressions;
using Inspect.Sheets.Json;
using Inspect.Sheets.Readings;
using Inspect.Station.Access;
using Inspect.Station.Import;

namespace Inspect.Station.ModelLists;

/// <summary>The models that were read from a file, and the rows that could not be.</summary>
/// <param name="Rows">What was read: one row for each model, and where figures differ by weight, for each weight.</param>
/// <param name="Refused">Why rows could not be read, a sentence for each reason, with its rows.</param>
/// <param name="RefusedRows">How many rows those are.</param>
public sealed record ReadModels(IReadOnlyList<ModelRow> Rows, IReadOnlyList<string> Refused, int RefusedRows)
{
    /// <summary>How many models there are.</summary>
    public int Models { get; } = Rows.DistinctBy(row => (ModelRow.KeyOf(row.Maker), ModelRow.KeyOf(row.Model))).Count();
}

/// <summary>Reads the rows of a file as models. A row that cannot be read stops no other.</summary>
public sealed partial class ModelListReading(ImportTable table, ModelMatching matching)
{
    /// <summary>The most models of a list.</summary>
    public const int Most = 20_000;

    private const int LongestName = 80;
    private const int LongestWord = 40;

    private static readonly HashSet<string> On =
        ["approved", "listed", "yes", "y", "active", "current", "allowed", "ok", "legal", "x", "1", "true", "ja", "oui", "si"];

    private static readonly HashSet<string> Off =
    [
        "revoked", "withdrawn", "removed", "banned", "barred", "not approved", "not listed", "no", "n", "illegal", "suspended", "expired",
        "rejected", "not allowed", "0", "false", "nein", "non",
    ];

    private static readonly HashSet<string> Nothing = ["", "-", "–", "n/a", "na", "none", "?"];

    private readonly List<ModelRow> _read = [];
    private readonly Dictionary<(string, string, int?), ModelRow> _figures = [];
    private readonly SortedDictionary<string, List<(int Row, string Value)>> _refused = new(StringComparer.Ordinal);

    /// <summary>The models.</summary>
    public ReadModels Read()
    {
        foreach (var row in matching.Models(table))
        {
            if (OfRow(row) is { } models)
            {
                _read.AddRange(models);
            }
        }

        return new ReadModels(
            [.. _read.Distinct()],
            [.. _refused.Select(reason => reason.Value[0].Value.Length == 0
                ? $"{reason.Key}: {RowWords.Rows([.. reason.Value.Select(each => each.Row)])}."
                : $"{reason.Key}: {RowWords.Values(reason.Value)}.")],
            _refused.Values.SelectMany(rows => rows).Select(each => each.Row).Distinct().Count());
    }

    private List<ModelRow>? OfRow(TableRow row)
    {
        var (maker, model, status) = (Cell(row, ModelPart.Maker), Cell(row, ModelPart.Model), Cell(row, ModelPart.Status));
        var isNamed = Named(row, "A row has no maker", maker) & Named(row, "A row has no model", model);
        var (listed, from) = (Listed(row, status), Day(row, ModelPart.From, isLast: false));
        var (until, hardness) = (Day(row, ModelPart.Until, isLast: true), Cell(row, ModelPart.Hardness));
        if (hardness.Length > LongestWord || !PlainText.IsLine(hardness))
        {
            Refuse(row, "A hardness is no short text", hardness);
        }

        if (from > until)
        {
            Refuse(row, "The last day comes before the first", Cell(row, ModelPart.Until));
        }

        var pounds = Weight(row);
        var figures = Figures(row, pounds);
        if (!isNamed || _refused.Values.Any(rows => rows.Count > 0 && rows[^1].Row == row.Number))
        {
            return null;
        }

        var whole = new ModelRow(
            maker, model, Nothing.Contains(status) ? null : status, listed, from, until,
            Nothing.Contains(hardness) ? null : hardness, pounds);
        return figures.Count == 0 ? [whole] : [.. figures.Select(each => whole with
        {
            Pounds = each.Key,
            Rg = each.Value.GetValueOrDefault(ModelPart.Rg),
            Differential = each.Value.GetValueOrDefault(ModelPart.Differential),
            Intermediate = each.Value.GetValueOrDefault(ModelPart.Intermediate),
        }).Where(each => IsNew(row, each))];
    }

    // Two rows with other figures for the same ball: nobody could say which is right.
    private bool IsNew(TableRow row, ModelRow read)
    {
        var place = (ModelRow.KeyOf(read.Maker), ModelRow.KeyOf(read.Model), read.Pounds);
        if (_figures.TryAdd(place, read) || (_figures[place] is var first
            && (first.Rg, first.Differential, first.Intermediate) == (read.Rg, read.Differential, read.Intermediate)))
        {
            return true;
        }

        Refuse(row, "A row has other figures than an earlier one for the same model and weight", read.Model);
        return false;
    }

    private SortedDictionary<int, Dictionary<ModelPart, string>> FiguresByWeight(TableRow row, int? pounds)
    {
        var found = new SortedDictionary<int, Dictionary<ModelPart, string>>();
        foreach (var (index, column) in matching.Columns.Index())
        {
            if (column.Part is ModelPart.Rg or ModelPart.Differential or ModelPart.Intermediate
                && Figure(row, column.Part, row[index]) is { } figure)
            {
                var weight = column.Pounds ?? pounds ?? 0;
                (found.TryGetValue(weight, out var there) ? there : found[weight] = [])[column.Part] = figure;
            }
        }

        return found;
    }

    private List<KeyValuePair<int?, Dictionary<ModelPart, string>>> Figures(TableRow row, int? pounds) =>
        [.. FiguresByWeight(row, pounds).Select(each => KeyValuePair.Create(each.Key == 0 ? null : (int?)each.Key, each.Value))];

    private string? Figure(TableRow row, ModelPart part, string cell)
    {
        if (Nothing.Contains(cell.ToLowerInvariant()))
        {
            return null;
        }

        // A decimal comma, where nothing else can be meant.
        var plain = cell.Count(sign => sign == ',') == 1 && !cell.Contains('.', StringComparison.Ordinal) ? cell.Replace(',', '.') : cell;
        var (least, most) = part switch
        {
            ModelPart.Rg => (2m, 3.5m),
            ModelPart.Differential => (0m, .2m),
            _ => (0m, .15m),
        };
        var inches = ReadingParser.Parse(plain, Quantity.SignedLength, Unit.Inch).Reading?.Value / Units.MillimetresPerInch;
        if (!(inches >= least && inches <= most))
        {
            var label = ModelColumn.Parts.First(each => each.Part == part).Label;
            Refuse(row, string.Create(CultureInfo.InvariantCulture, $"{label} is no length from {least} in to {most} in"), cell);
            return null;
        }

        return plain.Any(char.IsAsciiLetter) ? plain : $"{plain} in";
    }

    private int? Weight(TableRow row)
    {
        var cell = Cell(row, ModelPart.Weight);
        if (Nothing.Contains(cell.ToLowerInvariant()) || Several().IsMatch(cell))
        {
            return null;
        }

        if (Pound().Match(cell) is { Success: true } match
            && int.Parse(match.Groups[1].Value, CultureInfo.InvariantCulture) is var pounds && ModelColumn.IsWeight(pounds))
        {
            return pounds;
        }

        Refuse(row, $"A weight is no whole number of pounds from {ModelRow.Lightest} to {ModelRow.Heaviest}", cell);
        return null;
    }

    private bool Listed(TableRow row, string status)
    {
        var word = string.Join(' ', NameFold.Words(status));
        if (word.Length == 0 || On.Contains(word) || Off.Contains(word))
        {
            return !Off.Contains(word);
        }

        Refuse(row, "A status is none of the words that are known here, such as approved, revoked, yes or no", status);
        return false;
    }

    private DateOnly? Day(TableRow row, ModelPart part, bool isLast)
    {
        var cell = Cell(row, part);
        if (Nothing.Contains(cell.ToLowerInvariant()))
        {
            return null;
        }

        var day = ListedDay.Read(cell, isLast, matching.DayFirst);
        if (day is null)
        {
            Refuse(row, "A cell is no day, as 2027-03-14", cell);
        }

        return day;
    }

    private bool Named(TableRow row, string none, string name)
    {
        if (name.Length == 0)
        {
            Refuse(row, none, "");
        }
        else if (name.Length > LongestName || !PlainText.IsLine(name) || ModelRow.KeyOf(name).Length == 0)
        {
            Refuse(row, "A name is no plain text of 1 to 80 characters with a letter or digit", name);
        }
        else
        {
            return true;
        }

        return false;
    }

    private string Cell(TableRow row, ModelPart part) =>
        matching.Columns.Index().FirstOrDefault(each => each.Item == new ModelColumn(part), (Index: -1, default)).Index is >= 0 and var at
            ? row[at] : "";

    private void Refuse(TableRow row, string reason, string value) =>
        (_refused.TryGetValue(reason, out var rows) ? rows : _refused[reason] = []).Add((row.Number, value));

    [GeneratedRegex(@"^(\d{1,2})(?:\s*(?:lbs?\.?|#|pounds?))?$", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex Pound();

    [GeneratedRegex(
        @"^\d{1,2}\s*(?:-|–|to)\s*\d{1,2}(?:\s*(?:lbs?\.?|#|pounds?))?$|^all$", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex Several();
}
