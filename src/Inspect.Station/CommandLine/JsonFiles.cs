using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using Inspect.Sheets.Json;

namespace Inspect.Station.CommandLine;

/// <summary>Shared by verbs that answer document by document: reads
/// documents from files, and writes one JSON object on each line.</summary>
internal static class JsonFiles
{
    private const string StandardInput = "-";

    private static readonly JsonSerializerOptions OneLine = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>Every document of a file in order; where there is none, nothing with the fault added.</summary>
    /// <param name="file">A file of one document or several; <c>-</c> is standard input.</param>
    /// <param name="input">Standard input.</param>
    /// <param name="what">What a document is, for the fault.</param>
    /// <param name="faults">Where the fault is added.</param>
    public static IReadOnlyList<ReadOnlyMemory<byte>> Documents(string file, TextReader input, string what, List<Fault> faults)
    {
        var documents = Bytes(file, input, faults) is { } bytes ? JsonSequence.Of(bytes).ToList() : [];
        if (documents.Count == 0 && faults.Count == 0)
        {
            faults.Add(new Fault(StrictJson.Root, $"There is no {what} in \"{file}\"."));
        }

        return documents;
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

    private static byte[]? Bytes(string file, TextReader input, List<Fault> faults)
    {
        try
        {
            return file == StandardInput ? Encoding.UTF8.GetBytes(input.ReadToEnd()) : File.ReadAllBytes(file);
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
        {
            faults.Add(new Fault(StrictJson.Root, $"The file \"{file}\" cannot be read: {problem.Message}"));
            return null;
        }
    }
}
