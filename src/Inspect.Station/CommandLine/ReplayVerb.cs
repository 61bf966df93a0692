using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using Inspect.Rules.Replaying;
using Inspect.Rules.Rulesets;

namespace Inspect.Station.CommandLine;

/// <summary>The verb <c>replay</c>: recorded inspections judged again under
/// another edition, supplement or decision rule; nothing is changed.</summary>
public static class ReplayVerb
{
    private const int Done = 0;
    private const int SomeUnreadable = 3;
    private const string StandardInput = "-";

    private static readonly JsonSerializerOptions Printed =
        new() { WriteIndented = true, Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>Judges a file again and writes the report as JSON.</summary>
    /// <param name="args">See <see cref="ReplayOptions.Use"/>; the file is <c>-</c> for standard input.</param>
    /// <param name="input">Standard input.</param>
    /// <param name="output">Takes the report and nothing else.</param>
    /// <param name="error">Takes what is wrong with the command itself.</param>
    /// <returns>0, or 3 when something could not be read or judged.</returns>
    public static int Run(IReadOnlyList<string> args, TextReader input, TextWriter output, TextWriter error)
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
            var unreadable = new List<NotReplayed>();
            var inspections = RecordedFile.Inspections(Bytes(options.File, input), book.Editions, unreadable).ToList();
            var compared = options.Bytes ? inspections : inspections.Select(one => one with { Version = null });
            var replayed = Replay.Of(compared, book.Editions, options.Target);
            var report = replayed with { NotJudged = [.. unreadable, .. replayed.NotJudged] };
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

    private static byte[] Bytes(string file, TextReader input) =>
        file == StandardInput ? Encoding.UTF8.GetBytes(input.ReadToEnd()) : File.ReadAllBytes(file);
}
