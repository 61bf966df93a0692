using System.Data.Common;
using Inspect.Station.Storage;

namespace Inspect.Station.CommandLine;

/// <summary>The store of a station that does not run, opened for a verb.</summary>
internal static class StoppedStation
{
    private const int Unusable = 3;

    /// <summary>Holds the folder, brings its store up to date and does something with it. Returns what that returns; 3 when the folder
    /// cannot be used, is in use, or its register cannot be trusted.</summary>
    /// <param name="path">The folder.</param>
    /// <param name="error">Takes what is wrong.</param>
    /// <param name="work">What is done with it.</param>
    /// <param name="mend">Done to the store before its register is read.</param>
    public static int Open(
        string path, TextWriter error, Func<Database, WriteGate, DataFolder, int> work, Action<Database>? mend = null)
    {
        if (!File.Exists(Path.Combine(path, "inspect.db")))
        {
            error.WriteLine($"There is no store in \"{path}\"; name a station's folder with --data.");
            return Unusable;
        }

        if (!DataFolder.TryHold(path, out var folder, out var fault))
        {
            error.WriteLine(fault);
            return Unusable;
        }

        using var held = folder;
        try
        {
            using var database = new Database(folder.DatabaseFile);
            Migrator.Migrate(database);
            mend?.Invoke(database);
            using var witness = StoreWitness.Open(folder.FullPath, acceptsLoss: false, TimeProvider.System);
            using var gate = new WriteGate(database, ReindexVerb.Indexes(), null, witness);
            return work(database, gate, folder);
        }
        catch (Exception broken) when ((Database.SentenceOf(broken) ?? (broken is DbException ? broken.Message : null)) is { } sentence)
        {
            error.WriteLine(sentence);
            return Unusable;
        }
    }
}
