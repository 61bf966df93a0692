using System.Text.Encodings.Web;
using System.Text.Json;
using Inspect.Ledger;
using Inspect.Rules.Replaying;
using Inspect.Rules.Rulesets;

namespace Inspect.Station.CommandLine;

/// <summary>The verb <c>replay</c>: recorded inspections judged again under
/// another edition, supplement or decision rule; nothing is changed.</summary>
public static class ReplayVerb
{
    private const int Done = 0;
    private const int SomeUnreadable = 3;

    private static readonly JsonSerializerOptions Printed =
        new() { WriteIndented = true, Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>Judges a file again and writes the report as JSON.</summary>
    /// <param name="args">See <see cref="ReplayOptions.Use"/>; the file is <c>-</c> for standard input.</param>
    /// <param name="input">Standard input.</param>
    /// <param name="output">Takes the report and nothing else.</param>
    /// <param name="error">Takes what is wrong with the command itself, and errors inside rules.</param>
    /// <param name="progress">Says how far the file was read; absent says nothing.</param>
    /// <param name="stop">Ends it without a report.</param>
    /// <returns>0, or 3 when something could not be read or judged.</returns>
    public static int Run(
        IReadOnlyList<string> args, Stream input, TextWriter output, TextWriter error, Progress? progress = null,
        CancellationToken stop = default)
    {
        var faults = new List<string>();
        var options = ReplayOptions.Of(args, faults);
        if (options is null)
        {
            faults.ForEach(error.WriteLine);
            return SomeUnreadable;
        }

        if (RulesetsOption.Open(options.Others, error) is not var (book, _) || !Knows(book.Editions, options.Target, error))
        {
            return SomeUnreadable;
        }

        try
        {
            var report = Report(options, book.Editions, input, progress, stop);
            new RuleErrorLines(error).Add(report.RuleErrors);
            output.Write(ReplayJson.Write(report).ToJsonString(Printed) + "\n");
            output.Flush();
            if (options.Csv is { } table)
            {
                File.WriteAllText(table, ReplayCsv.Write(report));
            }

            return report.NotJudged.Count > 0 ? SomeUnreadable : Done;
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
        {
            error.WriteLine(problem.Message);
            return SomeUnreadable;
        }
    }

    /// <summary>The report. The file is read piece by piece, and pieces are judged on all processors.</summary>
    internal static ReplayReport Report(
        ReplayOptions options, EditionLibrary library, Stream input, Progress? progress = null, CancellationToken stop = default)
    {
        using var stream = JsonFiles.Open(options.File, input);
        var pieces = WholeLines.Of(stream, JsonSequence.AfterLast);
        var file = new RecordedFile(library, new Replay(library, options.Target), options.Bytes);
        var read = InOrder.Of(progress?.Over(pieces, JsonFiles.LengthOf(stream)) ?? pieces, file.Documents, stop);
        var unreadable = new List<NotReplayed>();
        var report = ReplayReport.Of(RecordedFile.Numbered(read, unreadable));
        return report with { NotJudged = [.. unreadable, .. report.NotJudged] };
    }

    private static bool Knows(EditionLibrary library, ReplayTarget target, TextWriter error)
    {
        var unknown = target switch
        {
            ReplayTarget.OneEdition one when !library.TryFind(one.Id, out _) =>
                $"\"{one.Id}\" is not an edition known here; write one such as \"{library.All.LastOrDefault()?.Id}\".",
            ReplayTarget.EditionsOf editions when library.Of(editions.Authority).Count == 0 =>
                $"\"{editions.Authority}\" is not a body known here; write {string.Join(" or ", library.Authorities)}.",
            _ => null,
        };
        if (unknown is not null)
        {
            error.WriteLine(unknown);
        }

        return unknown is null;
    }
}
