using System.Globalization;
using Inspect.Rules.Rulesets;
using Inspect.Sheets.Json;
using Inspect.Station.Web;

namespace Inspect.Station.Prepare;

/// <summary>The form of an event as typed, for a new event and for one that is changed.</summary>
/// <param name="Id">The short name.</param>
/// <param name="Name">The name in full.</param>
/// <param name="From">The first day.</param>
/// <param name="To">The last day.</param>
/// <param name="TimeZone">The venue's time zone.</param>
/// <param name="Rules">A body, or one of its editions.</param>
/// <param name="Plan">The rules ticked; empty for every rule.</param>
/// <param name="Officials">Whether one official both measures and rules.</param>
/// <param name="Squads">The squads, a row each.</param>
public sealed record TypedEvent(
    string Id, string Name, string From, string To, string TimeZone, string Rules, IReadOnlyList<string> Plan, string Officials,
    IReadOnlyList<TypedSquad> Squads)
{
    /// <summary>The answer that one official both measures and rules.</summary>
    public const string OneOfficial = "one";

    /// <summary>The answer that the person who measures does not rule.</summary>
    public const string SeveralOfficials = "several";

    /// <summary>The first answer in words.</summary>
    public const string OneOfficialWords = "One person does both";

    /// <summary>The second answer in words.</summary>
    public const string SeveralOfficialsWords = "Inspectors measure, the director rules";

    private const int LongestName = 200;

    /// <summary>For how many days after the last day names are kept; empty for no time.</summary>
    public string NamesKeptDays { get; init; } = "";

    /// <summary>The empty form.</summary>
    public static readonly TypedEvent None = new("", "", "", "", "", "", [], SeveralOfficials, [TypedSquad.None]);

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
        TypedSquad.Of(form) is { Count: > 0 } rows ? rows : [TypedSquad.None])
    {
        NamesKeptDays = form["namesKeptDays"].ToString().Trim(),
    };

    /// <summary>The form of an event as it is.</summary>
    public static TypedEvent Of(Event held) => new(
        held.Id, held.Name, Day(held.From), Day(held.To), held.TimeZone, RulesOf(held), held.Plan ?? [],
        held.HasSingleOfficial ? OneOfficial : SeveralOfficials, [.. held.Squads.Select(TypedSquad.Of)])
    {
        NamesKeptDays = held.NamesKeptDays == 0 ? "" : held.NamesKeptDays.ToString(CultureInfo.InvariantCulture),
    };

    /// <summary>The form of a new event that is filled from another: its days and squads are moved so that it begins on a day.</summary>
    public static TypedEvent Copied(Event other, DateOnly from)
    {
        var days = from.DayNumber - other.From.DayNumber;
        return Of(other with
        {
            Id = "",
            Name = other.Name.Replace(Year(other.From), Year(from), StringComparison.Ordinal),
            From = from,
            To = other.To.AddDays(days),
            Squads = [.. other.Squads.Select(squad => squad with { Starts = squad.Starts.AddDays(days) })],
        }).AsNew();
    }

    /// <summary>The same with one more empty row for a squad.</summary>
    public TypedEvent WithARow() => this with { Squads = [.. Squads, TypedSquad.None] };

    /// <summary>The value that the form has for an event's rules.</summary>
    public static string RulesOf(Event held) => held.Edition ?? held.Authority;

    /// <summary>What is to become of the squads, once the whole form could be read.</summary>
    public IReadOnlyList<ChangedSquad> ReadSquads(Event read) => TypedSquad.Read(Squads, (read.From, read.To), new Faults());

    /// <summary>The event, or null with everything that is wrong added.</summary>
    /// <param name="library">All editions.</param>
    /// <param name="taken">The short names of the other events, for the one that is made from the name when none is given.</param>
    /// <param name="faults">Where faults are added.</param>
    /// <param name="now">The event that is changed, whose rules are not checked again while they stay; null for a new one.</param>
    public Event? Read(EditionLibrary library, IReadOnlyCollection<string> taken, Faults faults, Event? now = null)
    {
        if (Name.Length is 0 or > LongestName || !PlainText.IsLine(Name))
        {
            faults.Add("name", $"Give the name in full as it is to appear on slips, at most {LongestName} characters.");
        }

        var days = ReadDays(faults);
        var id = ReadId(days?.From, taken, faults);
        var zone = VenueZones.Read(TimeZone, out var zoneFault);
        if (zoneFault is not null)
        {
            faults.Add("timeZone", TimeZone.Length == 0 ? "Give the time zone of the venue: a city such as Chicago, or America/Chicago."
                : zoneFault);
        }

        var squads = TypedSquad.Read(Squads, days, faults).Select(squad => squad.Now).OfType<Squad>().OrderBy(squad => squad.Starts);
        var (authority, edition) = ReadRules(days, library, faults, now);
        if (Officials is not (OneOfficial or SeveralOfficials))
        {
            faults.Add("officials", "Choose whether the person who measures may also rule.");
        }

        var kept = 0;
        if (NamesKeptDays.Length > 0
            && !(int.TryParse(NamesKeptDays, NumberStyles.None, CultureInfo.InvariantCulture, out kept) && kept <= NamesKept.Longest))
        {
            faults.Add("namesKeptDays", FormattableString.Invariant(
                $"\"{NamesKeptDays}\" is not a number of days; write a whole number up to {NamesKept.Longest}, or leave it empty."));
        }

        return faults.AreNone
            ? new Event(id, Name, days!.Value.From, days.Value.To, zone!, authority, edition,
                Plan.Count == 0 ? null : now?.Plan is { } plan && plan.ToHashSet().SetEquals(Plan) ? plan : Plan,
                Officials == OneOfficial, [.. squads])
            {
                NamesKeptDays = kept,
            }
            : null;
    }

    private TypedEvent AsNew() =>
        this with { Squads = Squads.Count == 0 ? [TypedSquad.None] : [.. Squads.Select(squad => squad with { Was = "" })] };

    private string ReadId(DateOnly? from, IReadOnlyCollection<string> taken, Faults faults)
    {
        var id = Id.Length == 0 ? ShortName.Suggested(Name, from, taken) : Id.ToUpperInvariant();
        if (id.Length == 0 && Name.Length == 0)
        {
            // The name that is asked for makes the short name.
            return id;
        }

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
        var from = ReadDay("from", From, faults);
        var to = To.Length == 0 ? from : ReadDay("to", To, faults);
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

        faults.Add(path, typed.Length == 0 ? "Give the first day of play." : $"\"{typed}\" is not a day; write it as 2027-03-14.");
        return null;
    }

    private static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    private static string Year(DateOnly day) => day.ToString("yyyy", CultureInfo.InvariantCulture);

    private (string Authority, string? Edition) ReadRules(
        (DateOnly From, DateOnly To)? days, EditionLibrary library, Faults faults, Event? now)
    {
        var slash = Rules.IndexOf('/', StringComparison.Ordinal);
        var (authority, edition) = slash < 0 ? (Rules, null) : (Rules[..slash], Rules);
        if (Rules.Length == 0)
        {
            faults.Add("rules", "Choose the body whose rules apply, or one edition.");
        }
        else if (days is var (from, to) && (now is null || RulesOf(now) != Rules || (now.From, now.To) != days
            || !Plan.SequenceEqual(now.Plan ?? [])))
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
