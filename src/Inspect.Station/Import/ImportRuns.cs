using System.Globalization;
using Inspect.Station.Storage;

namespace Inspect.Station.Import;

/// <summary>Enters lists, one for each event at a time, whether anyone looks or not. Whole or nothing: what was entered counts with the
/// last turn at the gate, and is taken back when it does not come to that.</summary>
public sealed partial class ImportRuns(EntryImport entries, HeldFiles files, WriteGate gate, TimeProvider time, ILogger<ImportRuns> log)
{
    private const string Meanwhile =
        "Somebody changed the event or its entries meanwhile, and nothing of the list was done. This is what it would do now.";

    private const string Failed =
        "The list could not be written, and nothing of it was done. Try again; if it fails again, look at the log.";

    private const string Stopped = "Stopped: nothing of the list was done.";

    private readonly Lock _lock = new();
    private readonly Dictionary<string, ImportRun> _running = [];

    /// <summary>The list that is entered into an event now; null when none is.</summary>
    public ImportRun? Of(string eventId)
    {
        lock (_lock)
        {
            return _running.GetValueOrDefault(eventId);
        }
    }

    /// <summary>Begins to enter a list. Returns false when another one is being entered into its event.</summary>
    public bool TryStart(ImportRun run)
    {
        lock (_lock)
        {
            if (!_running.TryAdd(run.Into.Id, run))
            {
                return false;
            }
        }

        run.Ended = Task.Run(() => Carry(run));
        return true;
    }

    private async Task Carry(ImportRun run)
    {
        var said = run.Held with { Done = null, NotDone = Failed };
        try
        {
            said = await Enter(run) is { } why ? said with { NotDone = why } : said with { Done = Sentence(run.Chosen), NotDone = null };
        }
        catch (ObjectDisposedException)
        {
            // The station ends: what was entered is taken back when it starts again.
        }
        catch (Exception error)
        {
            CouldNotEnter(log, run.Into.Id, error);
        }
        finally
        {
            files.Keep(said);
            lock (_lock)
            {
                _running.Remove(run.Into.Id);
            }
        }
    }

    // Why nothing was done; null when it was.
    private async Task<string?> Enter(ImportRun run)
    {
        var many = run.Chosen.Entries;
        long? import = many.Count == 0 ? null : await gate.Run(write => EntryImport.Begin(write, time.GetUtcNow()));
        var isDone = false;
        try
        {
            while (run.Written < many.Count && !run.IsToStop
                && await gate.Run(write => EntryImport.EnterSome(write, run.Into, import!.Value, many, run.Written)) is { } some)
            {
                run.Written += some;
            }

            isDone = run.Written == many.Count && !run.IsToStop
                && await gate.Run(write => EntryImport.TryFinish(write, run.Into, import, run.Chosen, run.By));
        }
        finally
        {
            if (!isDone && import is { } left)
            {
                await entries.Clear(left);
            }
        }

        return isDone ? null : run.IsToStop ? Stopped : Meanwhile;
    }

    private static string Sentence(ImportChoices chosen)
    {
        var (added, changed) = (chosen.Entries.Count, chosen.Changes.Count);
        var was = string.Create(CultureInfo.InvariantCulture, $"{RowWords.Count(added, "entry was", "entries were")} added");
        return changed == 0 ? $"{was}." : $"{was} and {RowWords.Count(changed, "was", "were")} changed.";
    }

    // Neither a name nor a number is logged.
    [LoggerMessage(Level = LogLevel.Error, Message = "A list of entries for {Event} could not be written")]
    private static partial void CouldNotEnter(ILogger log, string @event, Exception error);
}
