using System.Text;
using System.Text.Json;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Inspect.Station.Web;

/// <summary>Answers whose bytes are kept, so that the same request gets the same answer again.</summary>
public static class JsonAnswer
{
    /// <summary>The bytes of an answer.</summary>
    public static byte[] Bytes<T>(T answer) => JsonSerializer.SerializeToUtf8Bytes(answer, JsonSettings.Options);

    /// <summary>The same bytes that were sent before.</summary>
    public static ContentHttpResult Of(ReadOnlySpan<byte> utf8, int status) =>
        TypedResults.Content(Encoding.UTF8.GetString(utf8), "application/json; charset=utf-8", statusCode: status);
}
