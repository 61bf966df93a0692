using Inspect.Station.Access;

namespace Inspect.Station.Web;

/// <summary>One way on: what it is called, where it leads, what one does there, and who needs it.</summary>
public sealed record NavigationLink(string Label, string Href, string Sentence, Func<Role?, bool> IsFor);

/// <summary>The ways on, in the order of the work: the head of each page and the first page read them from here.</summary>
public static class Navigation
{
    private static readonly NavigationLink[] All =
    [
        new("Events", "/events", "The events of this station, their squads and who is entered.", role => role is not null),
        new("Desk", "/desk", "Find any ball, bowler, slip or inspection; charts, papers, proofs; judge an event again.", role => role == Role.Director),
        new("Instruments", "/instruments", "The scales and gauges: which are in use, their checks and studies.", role => role is not null),
        new("Before drilling", "/before-drilling", "What planned holes would do to a ball, before anyone drills.", _ => true),
        new("People", "/people", "Who may sign in here: add somebody, give a new passcode, disable.", role => role == Role.Director),
        new("Rules", "/rulesets", "Every edition of the ball rules, by body and day of play, with its sources.", _ => true),
    ];

    /// <summary>The ways on for someone who is signed in as this, or for anyone.</summary>
    public static IEnumerable<NavigationLink> For(Role? role) => All.Where(link => link.IsFor(role));
}
