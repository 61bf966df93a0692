using System.Security.Claims;

namespace Inspect.Station.Web;

/// <summary>A link of the navigation: its label, its address, what is done there, and who sees it.</summary>
public sealed record NavigationLink(string Label, string Href, string Sentence, Func<ClaimsPrincipal, bool> IsFor);

/// <summary>The links of the navigation in the order of the work, for the head of each page and for the first page.</summary>
public static class Navigation
{
    private static readonly NavigationLink[] All =
    [
        new("Events", "/events", "The events of this station, their squads and who is entered.", IsSignedIn),
        new("Desk", "/desk", "Find any ball, bowler, slip or inspection; charts, papers, proofs; judge an event again.", IsDirector),
        new("Instruments", "/instruments", "The scales and gauges: which are in use, their checks and studies.", IsSignedIn),
        new("Before drilling", "/before-drilling", "What planned holes would do to a ball, before anyone drills.", _ => true),
        new("People", "/people", "Who may sign in here: add somebody, give a new passcode, disable.", IsDirector),
        new("Rules", "/rulesets", "Every edition of the ball rules, by body and day of play, with its sources.", _ => true),
    ];

    /// <summary>The links for the person who looks, signed in or not.</summary>
    public static IEnumerable<NavigationLink> For(ClaimsPrincipal viewer) => All.Where(link => link.IsFor(viewer));

    /// <summary>Whether somebody is signed in.</summary>
    internal static bool IsSignedIn(ClaimsPrincipal viewer) => viewer.Identity?.IsAuthenticated == true;

    private static bool IsDirector(ClaimsPrincipal viewer) => viewer.IsInRole("director");
}
