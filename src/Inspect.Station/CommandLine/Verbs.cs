namespace Inspect.Station.CommandLine;

/// <summary>Every verb of the command line; without one the station starts.</summary>
public static class Verbs
{
    private static readonly Verb[] All =
    [
        new("judge", "judges sheets from files or standard input, a verdict a line",
            arguments => JudgeVerb.Run([.. arguments], Console.OpenStandardInput(), Output, Console.Error)),
        new("mass", "computes described balls: a JSON object a line in and out",
            arguments => MassVerb.Run([.. arguments], Console.OpenStandardInput(), Output, Console.Error)),
        new("editions", "lists every edition with its days, rules and hash",
            arguments => EditionsVerb.Run([.. arguments], Console.In, Output, Console.Error)),
        new("verify", "checks an exported register, a proof, or the archive of an event against its signed checkpoint",
            arguments => Stoppable(stop => VerifyVerb.Run(arguments, Output, Console.Error, Progress.OfThisProcess(), stop))),
        new("reindex", "rebuilds the indexes of a stopped station from its register",
            arguments => ReindexVerb.Run([.. arguments], Output, Console.Error)),
        new("check", "reads every entry of a station's store, running or stopped, and names what is damaged or missing",
            arguments => Stoppable(stop => CheckVerb.Run(
                arguments, Output, Console.Error, Console.IsErrorRedirected ? null : Console.Error, stop))),
        new("archive", "writes the archive of an event from a stopped station into one ZIP file",
            arguments => ArchiveVerb.Run(arguments, Output, Console.Error)),
        new("strike", "strikes the names of an event on a stopped station, once its short name was typed",
            arguments => StrikeVerb.Run(arguments, Console.In, Output, Console.Error)),
        new("replay", "judges recorded inspections again under other rules and reports what would change",
            arguments => Stoppable(stop => ReplayVerb.Run(
                arguments, Console.OpenStandardInput(), Output, Console.Error, Progress.OfThisProcess(), stop))),
        new("help", "lists the verbs and options", _ => Usage.Print(Console.Out)),
    ];

    // What a shell says of a program that was ended with Ctrl+C; common practice.
    private const int Stopped = 130;

    // UTF-8 whatever the terminal says, and never a byte order mark: what is printed is read by programs.
    private static TextWriter Output => new StreamWriter(Console.OpenStandardOutput()) { AutoFlush = true };

    /// <summary>The verbs in the order in which the help lists them.</summary>
    public static IReadOnlyList<Verb> Listed => All;

    /// <summary>
    /// Runs the verb that comes first. Returns its exit code, or null when no verb was given and the station is to start. A word that is
    /// not a verb is refused with exit code 3.
    /// </summary>
    public static int? Run(IReadOnlyList<string> arguments)
    {
        if (arguments.Count == 0)
        {
            return null;
        }

        var word = arguments[0] is "--help" or "-h" ? "help" : arguments[0];
        if (Array.Find(All, verb => verb.Name == word) is { } found)
        {
            return found.Run([.. arguments.Skip(1)]);
        }

        if (word.StartsWith('-'))
        {
            return null;
        }

        Console.Error.WriteLine($"\"{word}\" is not a verb of this program: \"help\" lists them.");
        return 3;
    }

    /// <summary>Runs work that Ctrl+C ends at the next piece, and pressed twice ends at once.</summary>
    private static int Stoppable(Func<CancellationToken, int> work)
    {
        using var stop = new CancellationTokenSource();
        ConsoleCancelEventHandler press = (_, pressed) =>
        {
            pressed.Cancel = !stop.IsCancellationRequested;
            stop.Cancel();
        };
        Console.CancelKeyPress += press;
        try
        {
            return work(stop.Token);
        }
        catch (OperationCanceledException)
        {
            Console.Error.WriteLine("Stopped before the end of the file; nothing is known of it.");
            return Stopped;
        }
        finally
        {
            Console.CancelKeyPress -= press;
        }
    }
}
