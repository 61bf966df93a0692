using System.Globalization;
using Inspect.Station.Access;
using Inspect.Station.Close;
using Inspect.Station.Prepare;

namespace Inspect.Station.CommandLine;

/// <summary>The verb <c>strike</c>: strikes the names of an event on a stopped station, once its short name was typed.</summary>
public static class StrikeVerb
{
    private const int NotStruck = 1;
    private const int Unusable = 3;

    /// <summary>Says what would go, asks for the short name, strikes and writes the store anew.</summary>
    /// <param name="args">The options.</param>
    /// <param name="input">Where the short name is typed.</param>
    /// <param name="output">Takes what goes.</param>
    /// <param name="error">Takes what is wrong.</param>
    /// <param name="time">The clock.</param>
    /// <returns>0; 1 when nothing was struck; 3 when the folder, the event or an option cannot be used.</returns>
    public static int Run(IReadOnlyList<string> args, TextReader input, TextWriter output, TextWriter error, TimeProvider? time = null)
    {
        if (!TryArguments(args, out var given, out var before))
        {
            error.WriteLine("Write it as: strike --data DIR --event SHORT --by SIGN-IN [--before DAY], where SIGN-IN is that of the");
            error.WriteLine("director whose decision it is, and DAY, such as 2027-03-14, lets it go on only where the event ended before.");
            return Unusable;
        }

        return StoppedStation.Open(given["--data"], error, (database, gate, _) =>
        {
            if (new Events(database).Find(given["--event"]) is not { } held)
            {
                error.WriteLine($"There is no event \"{given["--event"]}\" in this store.");
                return Unusable;
            }

            if (new SignIns(database, gate).DirectorOf(given["--by"]) is not { } by)
            {
                error.WriteLine($"\"{given["--by"]}\" is not the sign-in of a director here.");
                return Unusable;
            }

            var clock = time ?? TimeProvider.System;
            var striking = new Striking(database, gate, clock);
            var plan = striking.Plan(held);
            var refusal = plan.Refusal ?? (held.To < before ? null
                : $"{held.Name} ended on {EventWords.Day(held.To)}, which is not before {EventWords.Day(before)}.");
            if (refusal is not null)
            {
                error.WriteLine(refusal);
                return NotStruck;
            }

            output.WriteLine(plan.Sentence);
            foreach (var stays in plan.Stays)
            {
                output.WriteLine($"Entry {stays.Number} keeps its name. {stays.Why}");
            }

            output.WriteLine($"It cannot be undone. Write {held.Id} to go on:");
            if (input.ReadLine()?.Trim() != held.Id)
            {
                error.WriteLine("Nothing was struck.");
                return NotStruck;
            }

            striking.Strike(held, null, plan.People.Count, new ChangedBy(by, clock.GetUtcNow())).GetAwaiter().GetResult();
            striking.Rewrite().GetAwaiter().GetResult();
            output.WriteLine(plan.People.Count == 0 ? "The store was written anew." : "Struck, and the store was written anew.");
            return 0;
        });
    }

    private static bool TryArguments(IReadOnlyList<string> args, out Dictionary<string, string> given, out DateOnly before)
    {
        given = new Dictionary<string, string>(StringComparer.Ordinal);
        before = DateOnly.MaxValue;
        for (var i = 0; i + 1 < args.Count; i += 2)
        {
            if (args[i] is not ("--data" or "--event" or "--by" or "--before") || !given.TryAdd(args[i], args[i + 1]))
            {
                return false;
            }
        }

        return args.Count % 2 == 0 && given.ContainsKey("--data") && given.ContainsKey("--event") && given.ContainsKey("--by")
            && (!given.TryGetValue("--before", out var day)
                || DateOnly.TryParseExact(day, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out before));
    }
}
