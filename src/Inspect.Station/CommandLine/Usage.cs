namespace Inspect.Station.CommandLine;

/// <summary>The help text of the command line.</summary>
public static class Usage
{
    private const string Options = """
        Without a verb the station starts. Its options:
          --urls URL         where it listens (default http://127.0.0.1:5210)
          --data DIR         the folder of a real station; without it a trial station with an invented event starts
          --demo             put the invented event and its two sign-ins into the folder of --data too
          --empty            begin the trial anew, without the inspections that show what it is for
          --accept-loss      go on with a store that is older than its witness or lost; what is missing stands in the register
          --public-url URL   the address that slips carry (default the address it listens on)
          --rulesets DIR     a folder with further rulesets
          --log text|json    how the log is written to standard error: a line of text (default) or of JSON for each thing that went wrong
        The passcode of the two demo sign-ins, inspector and director, is taken from INSPECT_DEMO_PASSCODE,
        or else made up and printed at the start.
        """;

    /// <summary>Prints verbs and options, and returns the exit code 0.</summary>
    public static int Print(TextWriter output)
    {
        output.WriteLine("Inspect: the inspection station for bowling balls at a tournament.");
        output.WriteLine();
        output.WriteLine("Verbs:");
        foreach (var verb in Verbs.Listed)
        {
            output.WriteLine($"  {verb.Name,-18} {verb.Does}");
        }

        output.WriteLine();
        output.WriteLine(Options);
        return 0;
    }
}
