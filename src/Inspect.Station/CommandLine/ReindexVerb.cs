using System.Globalization;
using Inspect.Station.Access;
using Inspect.Station.Decide;
using Inspect.Station.Instruments;
using Inspect.Station.Papers;
using Inspect.Station.Prepare;
using Inspect.Station.Record;
using Inspect.Station.Storage;

namespace Inspect.Station.CommandLine;

/// <summary>The verb <c>reindex</c>: discards every index of a station's register and rebuilds it, in one transaction.</summary>
/// <remarks>The register itself is only read. Use it when an index is found wrong, or after a backup was restored.</remarks>
public static class ReindexVerb
{
    private const int Unusable = 3;

    /// <summary>Rebuilds the indexes.</summary>
    /// <returns>0; 3 when the folder cannot be used, is in use, or the register cannot be trusted.</returns>
    public static int Run(IReadOnlyList<string> args, TextWriter output, TextWriter error)
    {
        if (!StationOptions.TryParse(args, _ => null, out var options, out var fault))
        {
            error.WriteLine(fault);
            return Unusable;
        }

        return StoppedStation.Open(options.DataFolder, error, (_, gate, _) =>
        {
            var indexes = Indexes();
            try
            {
                gate.Run(write =>
                {
                    RegisterIndex.Rebuild(write, indexes);
                    NameWords.Rebuild(write);
                    return 0;
                }).GetAwaiter().GetResult();
            }
            catch (InvalidDataException unreadable)
            {
                error.WriteLine($"{unreadable.Message} The indexes were left as they are.");
                return Unusable;
            }

            output.WriteLine(string.Create(CultureInfo.InvariantCulture,
                $"Rebuilt from {gate.Head.Size} entries: {string.Join(", ", indexes.Select(index => index.Name))}, words of names."));
            return 0;
        }, MendLeaves);
    }

    // A leaf hash in its index may differ from the one beside the entry. An entry whose own hash differs is damage, and is left as it is.
    private static void MendLeaves(Database database)
    {
        using var connection = database.OpenForWriting();
        Database.MendLeaves(connection);
    }

    /// <summary>Every index that the station has.</summary>
    internal static IReadOnlyList<RegisterIndex> Indexes()
    {
        var steps = new ServiceCollection();
        steps.AddRecord();
        steps.AddDecide();
        steps.AddPrepare();
        steps.AddInstruments();
        steps.AddPapers();
        steps.AddSingleton(RegisterLoss.Index);
        return [.. steps.Select(step => step.ImplementationInstance).OfType<RegisterIndex>()];
    }
}
