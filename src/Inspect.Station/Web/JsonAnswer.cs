using System.Text.Json;

namespace Inspect.Station.Web;

/// <summary>An answer made before it is sent: the same request gets the same bytes again.</summary>
/// <param name="utf8">Its bytes.</param>
/// <param name="status">Its status.</param>
public sealed class JsonAnswer(byte[] utf8, int status) : IResult
{
    /// <summary>The bytes of an answer.</summary>
    public static byte[] Bytes<T>(T answer) => JsonSerializer.SerializeToUtf8Bytes(answer, JsonSettings.Options);

    /// <inheritdoc/>
    public Task ExecuteAsync(HttpContext httpContext)
    {
        var response = httpContext.Response;
        response.StatusCode = status;
        response.ContentType = "application/json; charset=utf-8";
        response.ContentLength = utf8.Length;
        return response.Body.WriteAsync(utf8).AsTask();
    }
}
