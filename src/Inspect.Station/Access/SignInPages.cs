using Inspect.Station.Web;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authentication.Cookies;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Inspect.Station.Access;

/// <summary>The pages to sign in, to sign out and to make the first director.</summary>
public static class SignInPages
{
    public static void MapSignInPages(this IEndpointRouteBuilder app)
    {
        var pages = app.MapGroup("").ExcludeFromDescription();
        pages.MapGet("/sign-in", Show).WithName("SignInPage").WithSummary("The form to sign in");
        pages.MapPost("/sign-in", SignIn).WithName("SignIn").WithSummary("Signs in and returns to the page that was asked for")
            .RequireRateLimiting(RateLimits.SignIn);
        pages.MapPost("/sign-out", SignOut).WithName("SignOut").WithSummary("Signs out");
        pages.MapGet("/set-up", ShowSetUp).WithName("SetUpPage").WithSummary("The form that makes the first director");
        pages.MapPost("/set-up", MakeFirst).WithName("SetUp").WithSummary("Makes the first director")
            .RequireRateLimiting(RateLimits.SignIn);
    }

    private static RazorComponentResult<SignInPage> Show(HttpRequest request) =>
        new(new { Return = Local(request.Query["return"]) });

    private static async Task<Results<RedirectHttpResult, RazorComponentResult<SignInPage>>> SignIn(
        IFormCollection form, HttpContext http, FrontDoor door)
    {
        var name = form["name"].ToString();
        var passcode = form["passcode"].ToString();
        var back = Local(form["return"]);
        var faults = new Faults();
        if (string.IsNullOrWhiteSpace(name))
        {
            faults.Add("name", "Give the name to sign in with.");
        }

        if (passcode.Length == 0)
        {
            faults.Add("passcode", "Give the passcode.");
        }

        if (faults.AreNone)
        {
            var (signedIn, wait) = door.Knock(name, passcode, RateLimits.ClientAddress(http));
            if (signedIn is not null)
            {
                await SessionApi.SignIn(http, signedIn);
                return TypedResults.LocalRedirect(back);
            }

            faults.Add("passcode", wait > TimeSpan.Zero ? FrontDoor.WaitSentence(wait) : FrontDoor.WrongSentence);
        }

        return new RazorComponentResult<SignInPage>(new { Name = name, Return = back, Faults = faults }) { StatusCode = 422 };
    }

    private static async Task<RedirectHttpResult> SignOut(IFormCollection form, HttpContext http)
    {
        await http.SignOutAsync(CookieAuthenticationDefaults.AuthenticationScheme);
        return TypedResults.LocalRedirect("/");
    }

    private static Results<RazorComponentResult<SetUpPage>, RazorComponentResult<ErrorPage>> ShowSetUp(SetUp setUp) =>
        setUp.IsOpen() ? new RazorComponentResult<SetUpPage>() : ErrorAnswers.Page(StatusCodes.Status404NotFound);

    private static async Task<Results<RedirectHttpResult, RazorComponentResult<SetUpPage>, RazorComponentResult<ErrorPage>>> MakeFirst(
        IFormCollection form, HttpContext http, SetUp setUp, SignIns signIns)
    {
        if (!setUp.IsOpen())
        {
            return ErrorAnswers.Page(StatusCodes.Status404NotFound);
        }

        var answers = TypedSetUp.From(form);
        var faults = answers.Check();
        if (!setUp.IsCode(answers.Code))
        {
            faults.Add("code", "This is not the code that the station printed when it last started: copy it from there.");
        }

        if (!faults.AreNone)
        {
            return new RazorComponentResult<SetUpPage>(new { Typed = answers, Faults = faults }) { StatusCode = 422 };
        }

        if (await signIns.AddFirst(answers.Person, answers.Name, answers.Passcode) is not { } director)
        {
            return ErrorAnswers.Page(StatusCodes.Status404NotFound);
        }

        await SessionApi.SignIn(http, director);
        return TypedResults.LocalRedirect("/");
    }

    // Only a path of this station: no scheme, and no second slash or backslash, which a browser would read as a host. A header has only
    // ASCII in it, so other letters are escaped.
    private static string Local(string? path) =>
        path is ['/', ..] && (path.Length == 1 || path[1] is not ('/' or '\\')) && !path.Any(char.IsControl)
            ? string.Concat(path.EnumerateRunes().Select(letter => $"{letter}").Select(
                letter => char.IsAscii(letter[0]) ? letter : Uri.EscapeDataString(letter)))
            : "/";
}
