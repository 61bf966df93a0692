using System.Globalization;
using Inspect.Station.Import;
using Inspect.Station.Web;

namespace Inspect.Station.ModelLists;

/// <summary>What a person says, or the heads say, of the columns of a list of models.</summary>
/// <param name="HeadsRow">The number of the row with the heads; null where there is none.</param>
/// <param name="Columns">What each column has, from the left.</param>
/// <param name="DayFirst">Whether a day such as 03/04/2027 is the third of April; otherwise it is March the fourth.</param>
public sealed record ModelMatching(int? HeadsRow, IReadOnlyList<ModelColumn> Columns, bool DayFirst)
{
    /// <summary>The form field of the row with the heads, and that of how days are written.</summary>
    public const string HeadsField = "heads", DaysField = "days";

    private const int Searched = 20;

    /// <summary>The rows with models: all below the heads.</summary>
    public IEnumerable<TableRow> Models(ImportTable table) => table.Rows.Where(row => row.Number > (HeadsRow ?? 0));

    /// <summary>The rows that may be the heads.</summary>
    public static IEnumerable<TableRow> MayBeHeads(ImportTable table) => table.Rows.Take(Searched);

    /// <summary>What a person said of the columns in a form or an address; null when nothing was said.</summary>
    public static ModelMatching? Typed(ImportTable table, Func<string, string?> typed)
    {
        if (typed(Matching.Field(0)) is null)
        {
            return null;
        }

        var heads = int.TryParse(typed(HeadsField), NumberStyles.None, CultureInfo.InvariantCulture, out var row) ? row : (int?)null;
        return new ModelMatching(
            heads, [.. Enumerable.Range(0, table.Columns).Select(column => ModelColumn.Of(typed(Matching.Field(column))))],
            typed(DaysField) == "day");
    }

    /// <summary>What the columns have by their heads: the first row that names a model, and the most columns.</summary>
    public static ModelMatching Of(ImportTable table)
    {
        var heads = MayBeHeads(table).Select(row => (row.Number, Columns: ByHeads(row)))
            .Where(row => row.Columns.Any(column => column.Part == ModelPart.Model))
            .OrderByDescending(row => row.Columns.Count(column => column.Part != ModelPart.Ignored)).FirstOrDefault();
        IReadOnlyList<ModelColumn> columns = heads.Columns ?? [];
        var matching = new ModelMatching(heads.Columns is null ? null : heads.Number, Filled(columns, table), false);
        return matching with { DayFirst = matching.SeemsDayFirst(table) };
    }

    /// <summary>The words of its columns, for the store.</summary>
    public string Words => $"{(DayFirst ? "day" : "month")} {string.Join(' ', Columns.Select(column => column.Word))}";

    /// <summary>The columns that were remembered in words, for a table with the same heads.</summary>
    public static ModelMatching Of(ImportTable table, int headsRow, string words)
    {
        var columns = words.Split(' ').Skip(1).Select(ModelColumn.Of).ToList();
        return new ModelMatching(headsRow, Filled(columns, table), words.StartsWith("day ", StringComparison.Ordinal));
    }

    /// <summary>Adds a fault for a column that is there twice, or a name that is not there.</summary>
    public void Check(Faults faults)
    {
        foreach (var twice in Columns.Index().Where(each => each.Item.Part != ModelPart.Ignored).GroupBy(each => each.Item)
            .Where(alike => alike.Count() > 1))
        {
            var label = ModelColumn.Choices.First(each => each.Word == twice.Key.Word).Label;
            faults.Add(Matching.Field(twice.Last().Index), $"\"{label}\" is chosen for the columns "
                + $"{string.Join(" and ", twice.Select(each => Matching.Letter(each.Index)))}; choose it for one of them.");
        }

        foreach (var (part, name) in new[] { (ModelPart.Maker, "makers"), (ModelPart.Model, "models") }
            .Where(each => Columns.All(column => column.Part != each.Item1)))
        {
            faults.Add(Matching.Field(0), $"No column is chosen for the {name}; choose the one that has them.");
        }
    }

    private static List<ModelColumn> ByHeads(TableRow row)
    {
        var columns = new List<ModelColumn>();
        foreach (var head in Enumerable.Range(0, row.Cells.Count).Select(column => ModelColumn.OfHead(row[column])))
        {
            columns.Add(columns.Contains(head) ? default : head);
        }

        return columns;
    }

    private static ModelColumn[] Filled(IReadOnlyList<ModelColumn> columns, ImportTable table) =>
        [.. Enumerable.Range(0, table.Columns).Select(column => column < columns.Count ? columns[column] : default)];

    // A first part above 12 cannot be a month.
    private bool SeemsDayFirst(ImportTable table) => Columns.Index().Where(each => each.Item.Part is ModelPart.From or ModelPart.Until)
        .Any(each => Models(table).Any(row => ListedDay.FirstPart(row[each.Index]) is > 12 and <= 31));
}
