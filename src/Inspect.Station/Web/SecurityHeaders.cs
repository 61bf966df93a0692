namespace Inspect.Station.Web;

/// <summary>What every answer tells the browser not to do.</summary>
public static class SecurityHeaders
{
    // No inline script or style: what a page runs and wears is a file of this station.
    private const string PagePolicy =
        "default-src 'none'; style-src 'self'; font-src 'self'; img-src 'self' blob:; script-src 'self'; connect-src 'self'; media-src 'self' blob:; "
        + "manifest-src 'self'; worker-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'";

    // The browser's own viewer shows a slip, and its insides are none of our business.
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

            // The framework announces page patching that these pages do not do.
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
