namespace Inspect.Station.Web;

/// <summary>Refuses a changing request that a page of another site sent, and one to the API that is not JSON.</summary>
/// <remarks>
/// A browser says where a request comes from in Sec-Fetch-Site (W3C Fetch Metadata) or at least in Origin (RFC 6454). A program that sends
/// neither is accepted with its cookie.
/// </remarks>
public static partial class SameOrigin
{
    /// <summary>Must come after routing, so that an unknown address gets 404.</summary>
    public static void UseSameOrigin(this WebApplication app) => app.Use((http, next) =>
    {
        if (!IsChanging(http.Request) || http.GetEndpoint() is not RouteEndpoint)
        {
            return next(http);
        }

        if (!ComesFromHere(http))
        {
            FromAnotherSite(RequestLog.Of(http));
            return ErrorAnswers.Answer(http, StatusCodes.Status403Forbidden, "This request came from another website. "
                + "Send it from the station's own page.");
        }

        if (http.Request.Path.StartsWithSegments("/api", StringComparison.OrdinalIgnoreCase) && !IsJson(http.Request))
        {
            return ErrorAnswers.Answer(http, StatusCodes.Status415UnsupportedMediaType);
        }

        return next(http);
    });

    [LoggerMessage(Level = LogLevel.Warning, Message = "A changing request was refused: by its headers it came from another site")]
    private static partial void FromAnotherSite(ILogger log);

    private static bool IsChanging(HttpRequest request) =>
        !(HttpMethods.IsGet(request.Method) || HttpMethods.IsHead(request.Method) || HttpMethods.IsOptions(request.Method));

    private static bool ComesFromHere(HttpContext http)
    {
        var headers = http.Request.Headers;
        if (headers["Sec-Fetch-Site"] is [{ Length: > 0 } site, ..])
        {
            return site is "same-origin" or "none";
        }

        if (headers.Origin is not [{ Length: > 0 } origin, ..])
        {
            return true;
        }

        return Uri.TryCreate(origin, UriKind.Absolute, out var from)
            && (string.Equals(from.Authority, http.Request.Host.Value, StringComparison.OrdinalIgnoreCase)
                || http.RequestServices.GetRequiredService<PublicAddress>().IsOrigin(from));
    }

    // A DELETE has no body and so no media type to check.
    private static bool IsJson(HttpRequest request) =>
        request.HasJsonContentType()
            || (HttpMethods.IsDelete(request.Method) && request.ContentType is null && request.ContentLength is null or 0);
}
