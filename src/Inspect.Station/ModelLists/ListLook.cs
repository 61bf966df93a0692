using Inspect.Station.Import;
using Inspect.Station.Web;

namespace Inspect.Station.ModelLists;

/// <summary>A file as it would become a version of a list.</summary>
/// <param name="List">The list.</param>
/// <param name="Held">The file.</param>
/// <param name="Table">Its rows.</param>
/// <param name="Matching">What its columns have.</param>
/// <param name="Models">What was read; null while its columns are not clear.</param>
/// <param name="Faults">What is wrong with its columns.</param>
public sealed record ListLook(
    ModelList List, HeldFile Held, ImportTable Table, ModelMatching Matching, ReadModels? Models, Faults Faults)
{
    /// <summary>What it changes; null while its columns are not clear.</summary>
    public ListChanges? Changes { get; init; }
}

/// <summary>How a version of a list differs from the one before it.</summary>
/// <param name="Added">The models that are new.</param>
/// <param name="Gone">The models that it has no more.</param>
/// <param name="Changed">The models of which it says something else.</param>
/// <param name="Same">How many it says the same of.</param>
public sealed record ListChanges(IReadOnlyList<string> Added, IReadOnlyList<string> Gone, IReadOnlyList<string> Changed, int Same)
{
    /// <summary>Compares two versions, model by model.</summary>
    public static ListChanges Of(IReadOnlyList<ModelRow> before, IReadOnlyList<ModelRow> now)
    {
        var (was, becomes) = (ByModel(before), ByModel(now));
        var both = becomes.Where(each => was.ContainsKey(each.Key)).ToList();
        var changed = both.Where(each => !was[each.Key].Rows.SetEquals(each.Value.Rows)).Select(each => each.Value.Name).ToList();
        return new ListChanges(
            [.. becomes.Where(each => !was.ContainsKey(each.Key)).Select(each => each.Value.Name).Order(StringComparer.Ordinal)],
            [.. was.Where(each => !becomes.ContainsKey(each.Key)).Select(each => each.Value.Name).Order(StringComparer.Ordinal)],
            [.. changed.Order(StringComparer.Ordinal)],
            both.Count - changed.Count);
    }

    private static Dictionary<(string, string), (string Name, HashSet<ModelRow> Rows)> ByModel(IReadOnlyList<ModelRow> rows) =>
        rows.GroupBy(row => (ModelRow.KeyOf(row.Maker), ModelRow.KeyOf(row.Model)))
            .ToDictionary(group => group.Key, group => ($"{group.First().Model} of {group.First().Maker}", group.ToHashSet()));
}
