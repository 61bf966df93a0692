namespace Inspect.Station.Web;

/// <summary>The headers of every answer that limit what a browser may do with it.</summary>
public static class SecurityHeaders
{
    // No inline script or style: pages use only files of this station.
    private const string PagePolicy =
        "default-src 'none'; style-src 'self'; font-src 'self'; img-src 'self' blob:; script-src 'self'; connect-src 'self'; "
        + "media-src 'self' blob:; "
        + "manifest-src 'self'; worker-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'";

    // A slip is shown by the browser's own PDF viewer, which a stricter policy could break.
    private const string OtherPolicy = "frame-ancestors 'none'";

    /// <summary>Adds the headers when the answer starts, so that error answers carry them too.</summary>
    public static void UseSecurityHeaders(this WebApplication app) => app.Use((http, next) =>
    {
        http.Response.OnStarting(() =>
        {
            var headers = http.Response.Headers;
            var isPage = http.Response.ContentType?.StartsWith("text/html", StringComparison.OrdinalIgnoreCase) == true;
            headers.ContentSecurityPolicy = isPage ? PagePolicy : OtherPolicy;
            headers.XContentTypeOptions = "nosniff";
            headers.XFrameOptions = "DENY";
            headers["Referrer-Policy"] = "same-origin";
            headers["Cross-Origin-Opener-Policy"] = "same-origin";
            headers["Cross-Origin-Resource-Policy"] = "same-origin";
            headers["Permissions-Policy"] = "camera=(self), microphone=(), geolocation=(), payment=()";

            // The framework announces page patching, which these pages do not use.
            headers.Remove("blazor-enhanced-nav");
            if (headers.CacheControl.Count == 0)
            {
                headers.CacheControl = "no-cache";
            }

            return Task.CompletedTask;
        });
        return next(http);
    });
}
