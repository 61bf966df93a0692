using Inspect.Station.Close;
using Inspect.Station.Prepare;
using Inspect.Station.Rulesets;
using Inspect.Station.Storage;

namespace Inspect.Station.CommandLine;

/// <summary>The verb <c>archive</c>: writes the archive of an event of a stopped station into a file.</summary>
public static class ArchiveVerb
{
    private const int Unusable = 3;

    /// <summary>Writes it, without names: a director takes an archive with names from the event's page, which notes who did.</summary>
    /// <returns>0; 3 when the folder, the event or an option cannot be used.</returns>
    public static int Run(IReadOnlyList<string> args, TextWriter output, TextWriter error, TimeProvider? time = null)
    {
        var given = new Dictionary<string, string>(StringComparer.Ordinal);
        for (var i = 0; i + 1 < args.Count; i += 2)
        {
            given[args[i]] = args[i + 1];
        }

        if (args.Count % 2 != 0 || given.Keys.Except(["--data", "--event", "--out", "--rulesets"]).Any()
            || !given.TryGetValue("--data", out var folder) || !given.TryGetValue("--event", out var id)
            || !given.TryGetValue("--out", out var file))
        {
            error.WriteLine("Write it as: archive --data DIR --event SHORT --out FILE [--rulesets DIR]");
            return Unusable;
        }

        if (RulesetsOption.Open(given.TryGetValue("--rulesets", out var more) ? ["--rulesets", more] : [], error) is not var (book, _))
        {
            return Unusable;
        }

        return StoppedStation.Open(folder, error, (database, gate, held) => Write((database, gate, held), book, id, file));

        int Write((Database Database, WriteGate Gate, DataFolder Folder) station, RulesetBook rules, string eventId, string path)
        {
            if (new Events(station.Database).Find(eventId) is not { } found)
            {
                error.WriteLine($"There is no event \"{eventId}\" in this store.");
                return Unusable;
            }

            var clock = time ?? TimeProvider.System;
            using var key = StationKey.Open(station.Folder.FullPath, station.Gate, clock).GetAwaiter().GetResult();
            try
            {
                using var written = new FileStream(path, FileMode.CreateNew);
                new EventArchives(station.Database, station.Gate, key, rules, clock).Write(written, found, hasNames: false)
                    .GetAwaiter().GetResult();
            }
            catch (Exception refused) when (refused is IOException or UnauthorizedAccessException)
            {
                error.WriteLine($"\"{path}\" cannot be written: {refused.Message}");
                return Unusable;
            }

            output.WriteLine($"The archive of {found.Name} is \"{path}\", signed by {key.Public.Fingerprint}");
            return 0;
        }
    }
}
