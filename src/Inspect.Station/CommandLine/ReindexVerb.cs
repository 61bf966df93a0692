using System.Globalization;
using Dapper;
using Inspect.Station.Access;
using Inspect.Station.Decide;
using Inspect.Station.Instruments;
using Inspect.Station.Papers;
using Inspect.Station.Prepare;
using Inspect.Station.Record;
using Inspect.Station.Storage;

namespace Inspect.Station.CommandLine;

/// <summary>The verb <c>reindex</c>: throws every index of a station's register away and makes it again, in one transaction.</summary>
/// <remarks>The register itself is only read. What is found wrong in an index, or after a restored backup, is cured by this.</remarks>
public static class ReindexVerb
{
    private const int Unusable = 3;

    // Inspections first: the others speak of them.
    private static readonly (string What, Action<WriteTransaction> Rebuild)[] Indexes =
    [
        ("inspections", InspectionIndex.Rebuild),
        ("tags", Tags.Rebuild),
        ("names of balls", BallNames.Rebuild),
        ("rulings", RulingIndex.Rebuild),
        ("confirmed limits", EventTerms.RebuildConfirmations),
        ("checks of instruments", Checks.Rebuild),
        ("photographs", Photographs.Rebuild),
        ("closing reports", IssuedReports.Rebuild),
        ("words of names", NameWords.Rebuild),
    ];

    /// <summary>Makes the indexes again.</summary>
    /// <returns>0; 3 when the folder cannot be used, is in use, or the register cannot be trusted.</returns>
    public static int Run(IReadOnlyList<string> args, TextWriter output, TextWriter error)
    {
        if (!StationOptions.TryParse(args, _ => null, out var options, out var fault))
        {
            error.WriteLine(fault);
            return Unusable;
        }

        if (!File.Exists(Path.Combine(options.DataFolder, "inspect.db")))
        {
            error.WriteLine($"There is no store in \"{options.DataFolder}\"; name a station's folder with --data.");
            return Unusable;
        }

        if (!DataFolder.TryHold(options.DataFolder, out var folder, out fault))
        {
            error.WriteLine(fault);
            return Unusable;
        }

        using var held = folder;
        try
        {
            var database = new Database(folder.DatabaseFile);
            Migrator.Migrate(database);
            using var gate = new WriteGate(database);
            gate.Run(RebuildAll).GetAwaiter().GetResult();
            output.WriteLine(string.Create(CultureInfo.InvariantCulture,
                $"Made again from {gate.Head.Size} entries: {string.Join(", ", Indexes.Select(index => index.What))}."));
            return 0;
        }
        catch (CannotStartException refusal)
        {
            error.WriteLine(refusal.Message);
            return Unusable;
        }
        catch (InvalidDataException unreadable)
        {
            error.WriteLine($"{unreadable.Message} The indexes were left as they are.");
            return Unusable;
        }
    }

    private static int RebuildAll(WriteTransaction write)
    {
        // What one index says of another is right again at the end, and not before.
        write.Connection.Execute(EngineSql.ReferencesAtTheEnd, null, write.Transaction);
        foreach (var (_, rebuild) in Indexes)
        {
            rebuild(write);
        }

        return Indexes.Length;
    }
}
