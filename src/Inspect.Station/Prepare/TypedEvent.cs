using System.Globalization;
using Inspect.Rules.Rulesets;
using Inspect.Station.Web;

namespace Inspect.Station.Prepare;

/// <summary>The form of a new event as typed.</summary>
/// <param name="Id">The short name.</param>
/// <param name="Name">The name in full.</param>
/// <param name="From">The first day.</param>
/// <param name="To">The last day.</param>
/// <param name="TimeZone">The venue's time zone.</param>
/// <param name="Rules">A body, or one of its editions.</param>
/// <param name="Plan">The rules ticked; empty for every rule.</param>
/// <param name="Officials">Whether one official both measures and rules.</param>
/// <param name="Squads">The squads, a line each.</param>
public sealed record TypedEvent(
    string Id, string Name, string From, string To, string TimeZone, string Rules, IReadOnlyList<string> Plan, string Officials,
    string Squads)
{
    /// <summary>The answer that one official both measures and rules.</summary>
    public const string OneOfficial = "one";

    /// <summary>The answer that the person who measures does not rule.</summary>
    public const string SeveralOfficials = "several";

    private const int LongestName = 200;

    /// <summary>The empty form.</summary>
    public static readonly TypedEvent None = new("", "", "", "", "", "", [], SeveralOfficials, "");

    /// <summary>Reads the form; missing answers are empty.</summary>
    public static TypedEvent Of(IFormCollection form) => new(
        form["event"].ToString().Trim(),
        form["name"].ToString().Trim(),
        form["from"].ToString().Trim(),
        form["to"].ToString().Trim(),
        form["timeZone"].ToString().Trim(),
        form["rules"].ToString().Trim(),
        [.. form["plan"].OfType<string>()],
        form["officials"].ToString(),
        form["squads"].ToString());

    /// <summary>The event, or null with everything that is wrong added.</summary>
    public Event? Read(EditionLibrary library, Faults faults)
    {
        if (Name.Length is 0 or > LongestName || Name.Any(char.IsControl))
        {
            faults.Add("name", $"Give the name in full as it is to appear on slips, at most {LongestName} characters.");
        }

        var id = ReadId(faults);
        var days = ReadDays(faults);
        var zone = VenueZones.Read(TimeZone, out var zoneFault);
        if (zoneFault is not null)
        {
            faults.Add("timeZone", TimeZone.Length == 0 ? "Give the time zone of the venue, such as America/Chicago." : zoneFault);
        }

        var squads = SquadLines.Read(Squads, days, faults);
        var (authority, edition) = ReadRules(days, library, faults);
        if (Officials is not (OneOfficial or SeveralOfficials))
        {
            faults.Add("officials", "Choose whether the person who measures may also rule.");
        }

        return faults.AreNone
            ? new Event(id, Name, days!.Value.From, days.Value.To, zone!, authority, edition, Plan.Count == 0 ? null : Plan,
                Officials == OneOfficial, squads)
            : null;
    }

    private string ReadId(Faults faults)
    {
        var id = Id.ToUpperInvariant();
        if (id.Length is < 2 or > 12 || !id.All(char.IsAsciiLetterOrDigit))
        {
            faults.Add("event", $"\"{Id}\" is not a short name; give 2 to 12 letters A to Z and digits, such as SPRING27.");
        }
        else if (id == "NEW")
        {
            // /events/new is the address of this form.
            faults.Add("event", "\"NEW\" cannot be a short name here; give another one, such as SPRING27.");
        }

        return id;
    }

    private (DateOnly From, DateOnly To)? ReadDays(Faults faults)
    {
        var (from, to) = (ReadDay("from", From, faults), ReadDay("to", To, faults));
        if (to < from)
        {
            faults.Add("to", $"\"{To}\" is before the first day; give the same day or a later one.");
            return null;
        }

        return from is null || to is null ? null : (from.Value, to.Value);
    }

    private static DateOnly? ReadDay(string path, string typed, Faults faults)
    {
        if (DateOnly.TryParseExact(typed, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day))
        {
            return day;
        }

        faults.Add(path, typed.Length == 0 ? $"Give the {(path == "from" ? "first" : "last")} day of play."
            : $"\"{typed}\" is not a day; write it as 2027-03-14.");
        return null;
    }

    private (string Authority, string? Edition) ReadRules((DateOnly From, DateOnly To)? days, EditionLibrary library, Faults faults)
    {
        var slash = Rules.IndexOf('/', StringComparison.Ordinal);
        var (authority, edition) = slash < 0 ? (Rules, null) : (Rules[..slash], Rules);
        if (Rules.Length == 0)
        {
            faults.Add("rules", "Choose the body whose rules apply, or one edition.");
        }
        else if (days is var (from, to))
        {
            if (EventRules.FaultOfRules(authority, edition, from, to, library) is { } fault)
            {
                faults.Add("rules", fault);
            }
            else
            {
                EventRules.FaultsOfPlan(Plan, authority, edition, from, to, library).ToList().ForEach(each => faults.Add("plan", each));
            }
        }

        return (authority, edition);
    }
}
