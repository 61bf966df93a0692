using System.Buffers;

namespace Inspect.Station.Web;

/// <summary>A request's body as bytes, for routes that read JSON member by member and hash what was sent.</summary>
public static class RequestBody
{
    /// <summary>The most bytes of one request, about a hundred times a sheet with every member.</summary>
    public const int MostBytes = 256 * 1024;

    /// <summary>The whole body.</summary>
    /// <exception cref="BadHttpRequestException">The body is longer than <see cref="MostBytes"/>.</exception>
    public static async Task<byte[]> Read(HttpRequest request)
    {
        var read = await request.BodyReader.ReadAtLeastAsync(MostBytes + 1, request.HttpContext.RequestAborted);
        var body = read.Buffer.Length <= MostBytes ? read.Buffer.ToArray() : null;
        request.BodyReader.AdvanceTo(read.Buffer.End);
        return body ?? throw new BadHttpRequestException("The body is too long for one sheet.", StatusCodes.Status413PayloadTooLarge);
    }
}
