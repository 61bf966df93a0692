using System.Data.Common;
using System.Globalization;
using Inspect.Station.Storage;

namespace Inspect.Station.CommandLine;

/// <summary>The verb <c>check</c>: reads every entry of a station's store, running or stopped, and compares it with its hashes, its
/// indexes, its kept checkpoints and its witness. Nothing is written.</summary>
public static class CheckVerb
{
    private const int Damaged = 1;
    private const int Unusable = 3;

    /// <summary>Checks the store of a folder.</summary>
    /// <returns>0 when it is sound, 1 with what is damaged named, 3 when there is no store.</returns>
    public static int Run(
        IReadOnlyList<string> args, TextWriter output, TextWriter error, TextWriter? terminal = null, CancellationToken stop = default)
    {
        if (!StationOptions.TryParse(args, _ => null, out var options, out var fault))
        {
            error.WriteLine(fault);
            return Unusable;
        }

        var file = Path.Combine(options.DataFolder, "inspect.db");
        if (!File.Exists(file))
        {
            error.WriteLine($"There is no store in \"{options.DataFolder}\"; name a station's folder with --data.");
            return Unusable;
        }

        try
        {
            using var database = new Database(file);

            // Read before the store: what it knows was in the store by then.
            var witness = StoreWitness.Read(options.DataFolder);
            var isNow = Migrator.IsUpToDate(database);
            var check = new StoreCheck(database, isNow ? ReindexVerb.Indexes() : [], witness is null ? [] : [witness.Size]);
            foreach (var (done, of) in check.Turns())
            {
                stop.ThrowIfCancellationRequested();
                terminal?.Write(string.Create(CultureInfo.InvariantCulture, $"\r{done} of {of} entries"));
            }

            terminal?.Write("\r");
            List<string> faults = [.. check.Faults, .. FaultOf(witness, check)];
            faults.ForEach(output.WriteLine);
            if (!isNow)
            {
                output.WriteLine("The store is of another version of this program, so its indexes were not compared.");
            }

            if (faults.Count == 0)
            {
                output.WriteLine(string.Create(CultureInfo.InvariantCulture,
                    $"The {check.Head.Size} entries of the register are sound"
                    + $"{(witness is null ? "; there is no witness beside the store" : "")}."));
            }

            return faults.Count == 0 ? 0 : Damaged;
        }
        catch (DbException unreadable)
        {
            output.WriteLine($"The store cannot be read ({unreadable.Message}): restore it from a backup.");
            return Damaged;
        }
    }

    private static IEnumerable<string> FaultOf(WitnessStatement? witness, StoreCheck check)
    {
        if (witness is not null && (!check.Roots.TryGetValue(witness.Size, out var root) || root != witness.Root))
        {
            yield return witness.Size > check.Head.Size
                ? FormattableString.Invariant($"The witness knows {witness.Size} entries, and the register has {check.Head.Size}.")
                : FormattableString.Invariant($"The first {witness.Size} entries of the register are not those that its witness knows.");
        }
    }
}
