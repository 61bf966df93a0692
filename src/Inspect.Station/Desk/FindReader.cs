using System.Globalization;
using System.Text.RegularExpressions;
using Dapper;
using Inspect.Rules.Rulesets;
using Inspect.Station.Access;
using Inspect.Station.Prepare;
using Inspect.Station.Record;
using Inspect.Station.Storage;
using Inspect.Station.Web;

namespace Inspect.Station.Desk;

/// <summary>Reads a search: each member on its own, every fault with the value and what would be right.</summary>
public sealed partial class FindReader(Database database, Events events, EditionLibrary editions)
{
    /// <summary>How many results a page has unless it says otherwise.</summary>
    public const int CommonSize = 50;

    /// <summary>How many results a page may have.</summary>
    public const int LargestSize = 200;

    private static readonly string[] DayFormats = ["yyyy-MM-dd"];

    private static readonly string[] LocalFormats = ["yyyy-MM-dd'T'HH:mm", "yyyy-MM-dd'T'HH:mm:ss"];

    private static readonly string[] InstantFormats = ["yyyy-MM-dd'T'HH:mmK", "yyyy-MM-dd'T'HH:mm:ssK", "yyyy-MM-dd'T'HH:mm:ss.FFFFFFFK"];

    /// <summary>The search, or what can be used of it with the faults added.</summary>
    public FindFilter Read(FindAsked asked, Faults faults)
    {
        var held = asked["event"] is { } id ? events.Find(id.ToUpperInvariant()) : null;
        if (asked["event"] is { } unknown && held is null)
        {
            faults.Add("event", $"There is no event \"{unknown}\" on this station.");
        }

        var (from, to) = (Day(asked, "from", faults), Day(asked, "to", faults));
        if (to < from)
        {
            faults.Add("to", $"\"{asked["to"]}\" is before \"{asked["from"]}\"; give the same day or a later one.");
        }

        var zone = held is null ? TimeZoneInfo.Utc : TimeZoneInfo.FindSystemTimeZoneById(held.TimeZone);
        var (recordedFrom, recordedBefore) = (Moment(asked, "recordedFrom", zone, isEnd: false, faults), Moment(asked, "recordedTo", zone, isEnd: true, faults));
        if (recordedBefore < recordedFrom)
        {
            faults.Add("recordedTo", $"\"{asked["recordedTo"]}\" is before \"{asked["recordedFrom"]}\"; give a later time.");
        }

        var rule = Rule(asked, faults);
        var ruleOutcome = Word(asked, "ruleOutcome", ["fail", "hold"], faults);
        if (asked["ruleOutcome"] is { } came && asked["rule"] is null)
        {
            faults.Add("ruleOutcome", $"\"{came}\" says how a rule came out; name the rule as well.");
        }

        return new FindFilter
        {
            Search = Written(asked, "q", NameFold.Words, "a name, an entry number, a serial, an inspection number or the code of a slip", faults),
            Event = held?.Id,
            Entry = Entry(asked, faults),
            Bowler = Written(asked, "bowler", NameFold.Words, "a bowler's name or part of it", faults),
            Ball = Ball(asked, faults),
            Serial = Written(asked, "serial", text => SerialLookAlikes.Fold(text), "a serial number as it stands on the ball", faults),
            Models = Models(asked, faults),
            Inspector = Inspector(asked, faults),
            Outcome = Word(asked, "outcome", ["pass", "fail", "hold"], faults),
            Standing = Word(asked, "standing", [Standing.Stands, Standing.Superseded, Standing.Withdrawn, Standing.Ruled], faults),
            Rule = rule,
            RuleOutcome = ruleOutcome,
            Instrument = Instrument(asked, faults),
            Edition = Edition(asked, faults),
            From = from,
            To = to,
            RecordedFrom = recordedFrom,
            RecordedBefore = recordedBefore,
        };
    }

    /// <summary>How many results the page is to have.</summary>
    public static int PageSize(FindAsked asked, Faults faults)
    {
        if (asked[FindAsked.Size] is not { } typed)
        {
            return CommonSize;
        }

        if (int.TryParse(typed, NumberStyles.None, CultureInfo.InvariantCulture, out var size) && size is >= 1 and <= LargestSize)
        {
            return size;
        }

        faults.Add(FindAsked.Size, $"\"{typed}\" is no size of a page; give a whole number from 1 to {LargestSize}.");
        return CommonSize;
    }

    /// <summary>Where the page begins, or null for the newest.</summary>
    public static FindCursor? PageCursor(FindAsked asked, Faults faults)
    {
        if (asked[FindAsked.Cursor] is not { } typed)
        {
            return null;
        }

        if (FindCursor.Parse(typed) is { } cursor)
        {
            return cursor;
        }

        faults.Add(FindAsked.Cursor, $"\"{typed}\" is no place in the results; take what an earlier answer gave as next or previous, or leave it out.");
        return null;
    }

    private static string? Written<T>(FindAsked asked, string name, Func<string, IEnumerable<T>> parts, string wanted, Faults faults)
    {
        if (asked[name] is { } typed && !parts(typed).Any())
        {
            faults.Add(name, $"\"{typed}\" has no letter and no digit; write {wanted}.");
            return null;
        }

        return asked[name];
    }

    private static string? Entry(FindAsked asked, Faults faults)
    {
        if (asked["entry"] is { Length: > 12 } typed)
        {
            faults.Add("entry", $"\"{typed}\" is no entry number; it has 12 characters at most, such as 101.");
            return null;
        }

        return asked["entry"];
    }

    private static string? Ball(FindAsked asked, Faults faults)
    {
        if (asked["ball"] is { } typed && (typed.Length != 16 || !typed.All(char.IsAsciiLetterOrDigit)))
        {
            faults.Add("ball", $"\"{typed}\" is no ball's id; it is the 16 characters that an inspection's answer gives as ball.");
            return null;
        }

        return asked["ball"];
    }

    private IReadOnlyList<string>? Models(FindAsked asked, Faults faults)
    {
        if (Written(asked, "model", NameFold.Words, "a maker or a model, or both", faults) is not { } typed)
        {
            return null;
        }

        using var connection = database.OpenForReading();
        var names = FindModels.Like(connection, typed);
        if (names.Count > FindModels.Most)
        {
            faults.Add("model", $"\"{typed}\" fits more than {FindModels.Most} makers and models; write more of it.");
        }

        return names;
    }

    private static string? Word(FindAsked asked, string name, string[] words, Faults faults)
    {
        if (asked[name] is { } typed && !words.Contains(typed, StringComparer.Ordinal))
        {
            faults.Add(name, $"\"{typed}\" is not known here; choose {string.Join(", ", words[..^1])} or {words[^1]}.");
            return null;
        }

        return asked[name];
    }

    private PersonId? Inspector(FindAsked asked, Faults faults)
    {
        if (asked["inspector"] is not { } typed)
        {
            return null;
        }

        const string Sql = """
            SELECT person FROM sign_in WHERE name_key = @key
            UNION ALL
            SELECT @typed WHERE EXISTS (SELECT 1 FROM inspection_index WHERE by_person = @typed)
            """;
        using var connection = database.OpenForReading();
        if (connection.QueryFirstOrDefault<string>(Sql, new { key = SignInRules.Key(typed), typed }) is { } person)
        {
            return PersonId.From(person);
        }

        faults.Add("inspector", $"Nobody signs in here as \"{typed}\", and nobody recorded under that id; give a sign-in name.");
        return null;
    }

    private string? Rule(FindAsked asked, Faults faults)
    {
        if (asked["rule"] is not { } typed || editions.RuleIds.Contains(typed))
        {
            return asked["rule"];
        }

        using var connection = database.OpenForReading();
        if (connection.ExecuteScalar<long>("SELECT EXISTS (SELECT 1 FROM inspection_rule WHERE rule = @typed)", new { typed }) == 1)
        {
            return typed;
        }

        faults.Add("rule", $"\"{typed}\" is no rule of an edition here, and no inspection left such a rule open; give a rule's id, such as left-right.");
        return null;
    }

    private string? Instrument(FindAsked asked, Faults faults)
    {
        if (asked["instrument"] is not { } typed)
        {
            return null;
        }

        using var connection = database.OpenForReading();
        if (connection.ExecuteScalar<long>("SELECT EXISTS (SELECT 1 FROM inspection_instrument WHERE instrument = @typed)", new { typed }) == 1)
        {
            return typed;
        }

        faults.Add("instrument", $"No inspection here was read with \"{typed}\"; give an instrument's name as it stands in the readings.");
        return null;
    }

    private string? Edition(FindAsked asked, Faults faults)
    {
        if (asked["edition"] is not { } typed || editions.TryFind(typed, out _))
        {
            return asked["edition"];
        }

        using var connection = database.OpenForReading();
        if (connection.ExecuteScalar<long>("SELECT EXISTS (SELECT 1 FROM inspection_index WHERE edition = @typed)", new { typed }) == 1)
        {
            return typed;
        }

        faults.Add("edition", $"There is no edition \"{typed}\" here; give its id, such as us-national/2020-08-01.");
        return null;
    }

    private static DateOnly? Day(FindAsked asked, string name, Faults faults)
    {
        if (asked[name] is not { } typed)
        {
            return null;
        }

        if (DateOnly.TryParseExact(typed, DayFormats, CultureInfo.InvariantCulture, DateTimeStyles.None, out var day))
        {
            return day;
        }

        faults.Add(name, $"\"{typed}\" is no day; write it as 2027-03-14.");
        return null;
    }

    /// <summary>An instant, a local time at the venue, or a day there: as an end, each is meant to its last moment (an instant has a millisecond).</summary>
    private static DateTimeOffset? Moment(FindAsked asked, string name, TimeZoneInfo zone, bool isEnd, Faults faults)
    {
        if (asked[name] is not { } typed)
        {
            return null;
        }

        if (DateTime.TryParseExact(typed, DayFormats, CultureInfo.InvariantCulture, DateTimeStyles.None, out var day))
        {
            return day.Year < 9999 ? At(isEnd ? day.AddDays(1) : day, zone) : Refused();
        }

        if (DateTime.TryParseExact(typed, LocalFormats, CultureInfo.InvariantCulture, DateTimeStyles.None, out var local))
        {
            return local.Year < 9999 ? At(isEnd ? local.Add(typed.Length > 16 ? TimeSpan.FromSeconds(1) : TimeSpan.FromMinutes(1)) : local, zone) : Refused();
        }

        return WithOffset().IsMatch(typed) && DateTimeOffset.TryParseExact(typed, InstantFormats, CultureInfo.InvariantCulture, DateTimeStyles.None, out var instant)
            && instant.UtcDateTime.Year < 9999
            ? instant.AddMilliseconds(isEnd ? 1 : 0)
            : Refused();

        DateTimeOffset? Refused()
        {
            faults.Add(name, $"\"{typed}\" is no time; write a day as 2027-03-14, a time at the venue as 2027-03-14T09:26, or an instant with its offset.");
            return null;
        }
    }

    // A time that the clocks skip in spring is taken by the offset before.
    private static DateTimeOffset At(DateTime local, TimeZoneInfo zone) => local.Year < 2
        ? DateTimeOffset.MinValue
        : new DateTimeOffset(local, zone.GetUtcOffset(local)).ToUniversalTime();

    [GeneratedRegex(@"(Z|[+-]\d\d:\d\d)$", RegexOptions.CultureInvariant)]
    private static partial Regex WithOffset();
}
