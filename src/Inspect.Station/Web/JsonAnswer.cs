using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.Unicode;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Inspect.Station.Web;

/// <summary>Answers with JSON from a writer of its own and not from a type.</summary>
public static class JsonAnswer
{
    private static readonly JsonSerializerOptions Options = new() { Encoder = JavaScriptEncoder.Create(UnicodeRanges.All) };

    public static ContentHttpResult Ok(JsonNode value) => TypedResults.Content(Text(value), "application/json; charset=utf-8");

    /// <summary>The same bytes that were sent before.</summary>
    public static ContentHttpResult Of(ReadOnlySpan<byte> utf8, int status) =>
        TypedResults.Content(Encoding.UTF8.GetString(utf8), "application/json; charset=utf-8", statusCode: status);

    /// <summary>One line of JSON. Letters are not escaped.</summary>
    public static string Text(JsonNode value) => value.ToJsonString(Options);
}
