using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.Unicode;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Inspect.Station.Web;

/// <summary>Answers whose JSON is written by its own writer and not from a type.</summary>
public static class JsonAnswer
{
    private static readonly JsonSerializerOptions Options = new() { Encoder = JavaScriptEncoder.Create(UnicodeRanges.All) };

    public static ContentHttpResult Ok(JsonNode value) => TypedResults.Content(Text(value), "application/json; charset=utf-8");

    /// <summary>The same bytes again that were answered before.</summary>
    public static ContentHttpResult Of(ReadOnlySpan<byte> utf8, int status) =>
        TypedResults.Content(Encoding.UTF8.GetString(utf8), "application/json; charset=utf-8", statusCode: status);

    /// <summary>One line of JSON; letters stay as they are.</summary>
    public static string Text(JsonNode value) => value.ToJsonString(Options);
}
