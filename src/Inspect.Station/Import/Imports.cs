using Inspect.Station.Prepare;
using Inspect.Station.Web;

namespace Inspect.Station.Import;

/// <summary>A list as the page shows it.</summary>
/// <param name="Held">The file.</param>
/// <param name="Table">Its rows.</param>
/// <param name="Matching">What its columns are taken for.</param>
/// <param name="Plan">What it would do; null while its columns are not clear.</param>
public sealed record ImportLook(HeldFile Held, ImportTable Table, Matching Matching, ImportPlan? Plan);

/// <summary>Reads the file that is held and sorts its rows, anew for each page: nothing but the file is kept.</summary>
public sealed class Imports(RememberedHeads remembered, EntryImport entries)
{
    /// <summary>The list as it is now. Adds a fault where the file or its columns cannot be used; null when it is the file.</summary>
    public ImportLook? Look(HeldFile held, Event into, Faults faults)
    {
        if (!held.File.TryRead(held.Sheet, out var table, out var fault))
        {
            faults.Add(Faults.Whole, fault);
            return null;
        }

        var matching = held.Matching ?? Matcher.Of(table, into.Squads, remembered.Of);
        var wrong = new Faults();
        matching.Check(wrong);
        foreach (var (path, message) in wrong.All)
        {
            faults.Add(path, message);
        }

        return new ImportLook(held, table, matching, wrong.AreNone ? entries.Plan(into, table, matching) : null);
    }
}
