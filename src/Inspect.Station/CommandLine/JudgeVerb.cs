using System.Text.Json.Nodes;
using Inspect.Rules.Judging;
using Inspect.Rules.Rulesets;
using Inspect.Sheets;
using Inspect.Sheets.Json;

namespace Inspect.Station.CommandLine;

/// <summary>The verb <c>judge</c>: reads sheets and writes one verdict on each line.</summary>
public static class JudgeVerb
{
    private const int AllPass = 0;
    private const int SomeFail = 1;
    private const int SomeHold = 2;
    private const int SomeUnreadable = 3;

    /// <summary>Judges every sheet of every file named.</summary>
    /// <param name="args">Files, each one sheet or several; <c>-</c> is standard input.</param>
    /// <param name="input">Standard input.</param>
    /// <param name="output">Takes one line for each sheet and nothing else.</param>
    /// <param name="error">Takes what is wrong with the command itself, and errors inside rules.</param>
    /// <returns>3 when a sheet was unreadable, else 1 when one failed, else 2 when one holds, else 0.</returns>
    public static int Run(string[] args, Stream input, TextWriter output, TextWriter error)
    {
        if (RulesetsOption.Open(args, error) is not var (book, files))
        {
            return SomeUnreadable;
        }

        if (files.Count == 0)
        {
            error.WriteLine("judge needs files of sheets, or - for standard input.");
            return SomeUnreadable;
        }

        return Judge(book.Editions, files, input, output, error);
    }

    internal static int Judge(EditionLibrary library, IReadOnlyList<string> files, Stream input, TextWriter output, TextWriter error)
    {
        var (results, failed) = (new HashSet<int> { AllPass }, new RuleErrorLines(error));
        foreach (var file in files)
        {
            foreach (var (result, line) in Judged(library, file, input, failed))
            {
                results.Add(result);
                JsonFiles.WriteLine(output, line);
            }
        }

        output.Flush();
        return new[] { SomeUnreadable, SomeFail, SomeHold, AllPass }.First(results.Contains);
    }

    private static IEnumerable<(int Result, JsonObject Line)> Judged(
        EditionLibrary library, string file, Stream input, RuleErrorLines failed)
    {
        var faults = new List<Fault>();
        foreach (var sheet in JsonFiles.Documents(file, input, "sheet", faults))
        {
            yield return Judged(library, sheet, failed);
        }

        if (faults.Count > 0)
        {
            yield return (SomeUnreadable, JsonFiles.Error(faults));
        }
    }

    private static (int Result, JsonObject Line) Judged(EditionLibrary library, ReadOnlyMemory<byte> utf8, RuleErrorLines failed)
    {
        var faults = new List<Fault>();
        if (SheetReader.Read(utf8, faults) is not { } sheet || SheetJudge.Judge(library, sheet, faults) is not { } verdict)
        {
            return (SomeUnreadable, JsonFiles.Error(faults));
        }

        failed.Add(verdict.RuleErrors);
        return (ResultOf(verdict.Outcome), VerdictJson.Write(verdict));
    }

    private static int ResultOf(Outcome outcome) => outcome switch
    {
        Outcome.Pass => AllPass,
        Outcome.Fail => SomeFail,
        _ => SomeHold,
    };
}
