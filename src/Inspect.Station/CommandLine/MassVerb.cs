using System.Text.Json.Nodes;
using Inspect.Sheets.Described;
using Inspect.Sheets.Json;

namespace Inspect.Station.CommandLine;

/// <summary>The verb <c>mass</c>: reads described balls and writes the mass properties of each on a line.</summary>
public static class MassVerb
{
    private const int AllComputed = 0;
    private const int SomeUnreadable = 3;

    /// <summary>Computes every ball of every file named.</summary>
    /// <param name="args">Files, each one described ball or several; <c>-</c> is standard input.</param>
    /// <param name="input">Standard input.</param>
    /// <param name="output">Takes one line for each ball and nothing else.</param>
    /// <param name="error">Takes what is wrong with the command itself.</param>
    /// <returns>3 when a ball was unreadable, else 0.</returns>
    public static int Run(string[] args, Stream input, TextWriter output, TextWriter error)
    {
        if (Array.Find(args, argument => argument.StartsWith('-') && argument != "-") is { } unknown)
        {
            error.WriteLine($"\"{unknown}\" is not an option here; mass takes files only.");
            return SomeUnreadable;
        }

        if (args.Length == 0)
        {
            error.WriteLine("mass needs files of described balls, or - for standard input.");
            return SomeUnreadable;
        }

        var result = AllComputed;
        foreach (var line in args.SelectMany(file => Answers(file, input)))
        {
            JsonFiles.WriteLine(output, line.Answer);
            result = line.IsError ? SomeUnreadable : result;
        }

        output.Flush();
        return result;
    }

    private static IEnumerable<(bool IsError, JsonObject Answer)> Answers(string file, Stream input)
    {
        var faults = new List<Fault>();
        foreach (var document in JsonFiles.Documents(file, input, "described ball", faults))
        {
            yield return Answer(document);
        }

        if (faults.Count > 0)
        {
            yield return (true, JsonFiles.Error(faults));
        }
    }

    private static (bool IsError, JsonObject Answer) Answer(ReadOnlyMemory<byte> document)
    {
        var faults = new List<Fault>();
        return DescribedBallReader.Read(document, faults) is { } ball ? (false, MassAnswer.Of(ball)) : (true, JsonFiles.Error(faults));
    }
}
