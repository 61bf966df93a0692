using System.Security.Claims;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Inspect.Station.Access;

/// <summary>The page where directors add people who may sign in, give new passcodes and disable sign-ins.</summary>
public static class PeoplePages
{
    public static void MapPeoplePages(this IEndpointRouteBuilder app)
    {
        var pages = app.MapGroup("/people").RequireAuthorization(Policies.Director).ExcludeFromDescription();
        pages.MapGet("", Show).WithName("PeoplePage").WithSummary("Everyone who may sign in");
        pages.MapPost("", Add).WithName("AddSignIn").WithSummary("Gives a person a sign-in");
        pages.MapPost("passcode", RenewPasscode).WithName("RenewPasscode").WithSummary("Gives a sign-in a new passcode");
        pages.MapPost("disable", Disable).WithName("DisableSignIn").WithSummary("Disables a sign-in");
    }

    private static RazorComponentResult<PeoplePage> Show(HttpContext http, SignIns signIns, FreshPasscodes passcodes, string? made = null)
    {
        http.Response.Headers.CacheControl = "no-store";
        var viewer = SignedIn.From(http.User);
        return new(new { Officials = signIns.All(), Viewer = viewer, Fresh = made is null ? null : passcodes.Take(viewer.Person, made) });
    }

    private static async Task<Results<RedirectHttpResult, RazorComponentResult<PeoplePage>>> Add(
        IFormCollection form, ClaimsPrincipal user, SignIns signIns, FreshPasscodes passcodes)
    {
        var typed = TypedOfficial.From(form);
        var faults = typed.Check();
        if (faults.AreNone)
        {
            var passcode = FreshPasscodes.MakeUp();
            if (await signIns.TryAdd(typed.Person, typed.Name, passcode, Roles.Parse(typed.Role)) is { } added)
            {
                return Made(SignedIn.From(user), added, passcode, passcodes);
            }

            faults.Add("name", $"\"{typed.Name}\" is already somebody's sign-in name; give another one.");
        }

        return Refused(user, signIns, faults, typed);
    }

    private static async Task<Results<RedirectHttpResult, RazorComponentResult<PeoplePage>>> RenewPasscode(
        IFormCollection form, HttpContext http, SignIns signIns, FreshPasscodes passcodes)
    {
        var viewer = SignedIn.From(http.User);
        var name = form["name"].ToString();
        var passcode = FreshPasscodes.MakeUp();
        if (await signIns.RenewPasscode(name, passcode) is not { } renewed)
        {
            return Unknown(name, http.User, signIns);
        }

        // A new passcode ends the sessions of the old one, also the director's own, but the director still has to read it.
        if (renewed.Person == viewer.Person)
        {
            await SessionApi.SignIn(http, renewed);
        }

        return Made(viewer, renewed, passcode, passcodes);
    }

    private static async Task<Results<RedirectHttpResult, RazorComponentResult<PeoplePage>>> Disable(
        IFormCollection form, ClaimsPrincipal user, SignIns signIns)
    {
        var name = form["name"].ToString();
        if (SignInRules.Key(name) == SignInRules.Key(SignedIn.From(user).SignInName))
        {
            var faults = new Faults();
            faults.Add(Faults.Whole, $"You are signed in as \"{name}\"; another director has to disable it.");
            return Refused(user, signIns, faults);
        }

        return await signIns.Disable(name, by: SignedIn.From(user)) ? TypedResults.LocalRedirect("/people") : Unknown(name, user, signIns);
    }

    private static RedirectHttpResult Made(SignedIn viewer, SignedIn whose, string passcode, FreshPasscodes passcodes) =>
        TypedResults.LocalRedirect(
        "/people" + QueryString.Create("made", passcodes.Keep(viewer.Person, new FreshPasscode(whose.Name, whose.SignInName, passcode))));

    private static RazorComponentResult<PeoplePage> Unknown(string name, ClaimsPrincipal user, SignIns signIns)
    {
        var faults = new Faults();
        faults.Add(Faults.Whole, $"There is no sign-in \"{name}\" that can be changed; choose one from the list.");
        return Refused(user, signIns, faults);
    }

    private static RazorComponentResult<PeoplePage> Refused(
        ClaimsPrincipal user, SignIns signIns, Faults faults, TypedOfficial? typed = null) =>
        new(new { Officials = signIns.All(), Viewer = SignedIn.From(user), Typed = typed ?? TypedOfficial.None, Faults = faults })
        {
            StatusCode = StatusCodes.Status422UnprocessableEntity,
        };
}
