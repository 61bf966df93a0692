using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using Inspect.Ledger;
using Inspect.Sheets.Json;

namespace Inspect.Station.CommandLine;

/// <summary>Shared by verbs that answer document by document: reads
/// documents from files, and writes one JSON object on each line.</summary>
internal static class JsonFiles
{
    private const string StandardInput = "-";

    private static readonly JsonSerializerOptions OneLine = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>A file to be read from its beginning to its end; <c>-</c> is standard input.</summary>
    public static Stream Open(string file, Stream input) => file == StandardInput ? input
        : new FileStream(file, new FileStreamOptions { Options = FileOptions.SequentialScan, BufferSize = 0 });

    /// <summary>How long a stream is, or null when it does not know.</summary>
    public static long? LengthOf(Stream stream) => stream.CanSeek ? stream.Length : null;

    /// <summary>Every document of a file in order, read as they are taken; what is wrong with the file is added at the end.</summary>
    /// <param name="file">A file of one document or several; <c>-</c> is standard input.</param>
    /// <param name="input">Standard input.</param>
    /// <param name="what">What a document is, for the fault.</param>
    /// <param name="faults">Where the fault is added.</param>
    public static IEnumerable<ReadOnlyMemory<byte>> Documents(string file, Stream input, string what, List<Fault> faults)
    {
        var any = false;
        using var pieces = Pieces(file, input).GetEnumerator();
        while (MoveNext(pieces, file, faults))
        {
            if (pieces.Current.IsEndless)
            {
                faults.Add(new Fault(StrictJson.Root, $"A {what} in \"{file}\" does not end within 16 MiB; nothing after it was read."));
            }

            foreach (var document in JsonSequence.Of(pieces.Current.Bytes))
            {
                any = true;
                yield return document;
            }
        }

        if (!any && faults.Count == 0)
        {
            faults.Add(new Fault(StrictJson.Root, $"There is no {what} in \"{file}\"."));
        }
    }

    /// <summary>Writes one answer as a line.</summary>
    public static void WriteLine(TextWriter output, JsonObject answer)
    {
        output.Write(answer.ToJsonString(OneLine));
        output.Write('\n');
    }

    /// <summary>The line of a document that cannot be used, with all its faults.</summary>
    public static JsonObject Error(IEnumerable<Fault> faults) => new()
    {
        ["error"] = new JsonObject
        {
            ["faults"] = new JsonArray([.. faults.Select(fault => new JsonObject { ["path"] = fault.Path, ["message"] = fault.Message })]),
        },
    };

    private static IEnumerable<WholeLines> Pieces(string file, Stream input)
    {
        using var opened = file == StandardInput ? null : Open(file, input);
        foreach (var piece in WholeLines.Of(opened ?? input, JsonSequence.AfterLast))
        {
            yield return piece;
        }
    }

    private static bool MoveNext(IEnumerator<WholeLines> pieces, string file, List<Fault> faults)
    {
        try
        {
            return pieces.MoveNext();
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
        {
            faults.Add(new Fault(StrictJson.Root, $"The file \"{file}\" cannot be read: {problem.Message}"));
            return false;
        }
    }
}
