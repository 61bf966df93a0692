using System.Globalization;
using System.Security.Claims;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authentication.Cookies;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Inspect.Station.Access;

/// <summary>What a program sends to sign in.</summary>
public sealed record SessionRequest(string Name, string Passcode);

/// <summary>Who is signed in now.</summary>
/// <param name="Name">The sign-in name.</param>
/// <param name="Role"><c>inspector</c> or <c>director</c>.</param>
public sealed record SessionAnswer(string Name, string Role);

/// <summary>Signs programs in and out: a name and a passcode give a cookie.</summary>
public static class SessionApi
{
    public static void MapSessionApi(this IEndpointRouteBuilder app)
    {
        app.MapPost("/api/session", Begin).WithName("BeginSession").WithSummary("Sign in: a name and a passcode give a cookie")
            .WithTags("Session").MayRefuse(400, 401, 403, 415, 429).RequireRateLimiting(RateLimits.SignIn);
        app.MapDelete("/api/session", (Delegate)End).WithName("EndSession").WithSummary("Sign out: the cookie is cleared")
            .WithTags("Session").MayRefuse(403);
    }

    private static async Task<Results<Ok<SessionAnswer>, ValidationProblem, ProblemHttpResult>> Begin(
        SessionRequest request, HttpContext http, FrontDoor door)
    {
        var faults = new Faults();
        if (string.IsNullOrWhiteSpace(request.Name))
        {
            faults.Add("name", "Give the name to sign in with.");
        }

        if (string.IsNullOrEmpty(request.Passcode))
        {
            faults.Add("passcode", "Give the passcode.");
        }

        if (!faults.AreNone)
        {
            return Problems.Unusable(faults);
        }

        var (signedIn, wait) = door.Knock(request.Name!, request.Passcode!, RateLimits.ClientAddress(http));
        if (wait > TimeSpan.Zero)
        {
            http.Response.Headers.RetryAfter = Math.Ceiling(wait.TotalSeconds).ToString(CultureInfo.InvariantCulture);
            return Problems.Refused(StatusCodes.Status429TooManyRequests, FrontDoor.WaitSentence(wait));
        }

        if (signedIn is null)
        {
            return Problems.Refused(StatusCodes.Status401Unauthorized, FrontDoor.WrongSentence);
        }

        await SignIn(http, signedIn);
        return TypedResults.Ok(new SessionAnswer(signedIn.SignInName, signedIn.Role.Word()));
    }

    private static async Task<NoContent> End(HttpContext http)
    {
        await http.SignOutAsync(CookieAuthenticationDefaults.AuthenticationScheme);
        return TypedResults.NoContent();
    }

    /// <summary>Sets the cookie.</summary>
    public static Task SignIn(HttpContext http, SignedIn signedIn)
    {
        ClaimsPrincipal principal = signedIn.ToPrincipal(CookieAuthenticationDefaults.AuthenticationScheme);
        return http.SignInAsync(CookieAuthenticationDefaults.AuthenticationScheme, principal);
    }
}
