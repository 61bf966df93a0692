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

/// <summary>Reads a search filter by filter. Every fault names the value and what would be valid.</summary>
internal sealed partial class FindReader(Database database, Events events, EditionLibrary editions)
{
    private const string DayFormat = "yyyy-MM-dd";

    private static readonly string[] LocalFormats = ["yyyy-MM-dd'T'HH:mm", "yyyy-MM-dd'T'HH:mm:ss"];

    private static readonly string[] InstantFormats = ["yyyy-MM-dd'T'HH:mmK", "yyyy-MM-dd'T'HH:mm:ssK", "yyyy-MM-dd'T'HH:mm:ss.FFFFFFFK"];

    /// <summary>The filters that are set and valid. Faults of the others are added to the list.</summary>
    public IReadOnlyList<FindTerm> Read(FindAsked asked, Faults faults)
    {
        var terms = new List<FindTerm>();
        foreach (var (filter, typed) in asked.Filters)
        {
            var (value, fault) = filter.Read(this, asked, typed);
            if (value is not null)
            {
                terms.Add(new FindTerm(filter, value));
            }
            else
            {
                faults.Add(filter.Name, fault!);
            }
        }

        return terms;
    }

    public FindValue Event(string typed) => events.Find(typed.ToUpperInvariant()) is { } held
        ? FindValue.Of(held.Id)
        : FindValue.No($"There is no event \"{typed}\" on this station.");

    public static FindValue Words(string typed, string wanted) => NameFold.Words(typed).Any()
        ? FindValue.Of(typed)
        : FindValue.No($"\"{typed}\" has no letter and no digit; type {wanted}.");

    public static FindValue Entry(string typed) => typed.Length <= 12
        ? FindValue.Of(typed)
        : FindValue.No($"\"{typed}\" is not an entry number; it has at most 12 characters, such as 101.");

    public static FindValue Ball(string typed) => typed.Length == 16 && typed.All(char.IsAsciiLetterOrDigit)
        ? FindValue.Of(typed)
        : FindValue.No($"\"{typed}\" is not a ball's id; give the 16 characters that an inspection's answer has as ball.");

    public static FindValue Serial(string typed) => SerialLookAlikes.Fold(typed) is { Length: > 0 } folded
        ? FindValue.Of(folded)
        : FindValue.No($"\"{typed}\" has no letter and no digit; type the serial number as it is on the ball.");

    public FindValue Models(string typed)
    {
        if (Words(typed, "a maker or a model, or both") is { Fault: not null } refused)
        {
            return refused;
        }

        using var connection = database.OpenForReading();
        var names = FindSearch.Models(connection, typed);
        return names.Count <= FindSearch.MostModels
            ? FindValue.Of(EngineSql.List(names))
            : FindValue.No($"\"{typed}\" fits more than {FindSearch.MostModels} makers and models; type more of it.");
    }

    public static FindValue OneOf(FindChoice[] choices, string typed) => Array.Exists(choices, choice => choice.Value == typed)
        ? FindValue.Of(typed)
        : FindValue.No(
            $"\"{typed}\" is not known here; choose {string.Join(", ", choices[..^1].Select(choice => choice.Value))} or "
            + $"{choices[^1].Value}.");

    public FindValue Inspector(string typed)
    {
        const string Sql = """
            SELECT person FROM sign_in WHERE name_key = @key
            UNION ALL
            SELECT @typed WHERE EXISTS (SELECT 1 FROM inspection_index WHERE by_person = @typed)
            """;
        using var connection = database.OpenForReading();
        return connection.QueryFirstOrDefault<string>(Sql, new { key = SignInRules.Key(typed), typed }) is { } person
            ? FindValue.Of(person)
            : FindValue.No($"Nobody signs in here as \"{typed}\", and nobody recorded with that id; give a sign-in name.");
    }

    public FindValue Rule(string typed) => editions.RuleIds.Contains(typed) || IsRecorded("inspection_rule", "rule", typed)
        ? FindValue.Of(typed)
        : FindValue.No(
            $"\"{typed}\" is not a rule of an edition here, and no inspection left such a rule open; give a rule's id, "
                + "such as left-right.");

    public FindValue Instrument(string typed) => IsRecorded("inspection_instrument", "instrument", typed)
        ? FindValue.Of(typed)
        : FindValue.No($"No reading here was taken with \"{typed}\"; give an instrument's name as it is in the readings.");

    public FindValue Edition(string typed) => editions.TryFind(typed, out _) || IsRecorded("inspection_index", "edition", typed)
        ? FindValue.Of(typed)
        : FindValue.No($"There is no edition \"{typed}\" here; give its id, such as us-national/2020-08-01.");

    public static FindValue DayOf(string typed) => Day(typed) is not null
        ? FindValue.Of(typed)
        : FindValue.No($"\"{typed}\" is not a day; type it as 2027-03-14.");

    public static FindValue LastDay(FindAsked asked, string typed) => Day(typed) < Day(asked[FindFilters.From])
        ? FindValue.No($"\"{typed}\" is before \"{asked[FindFilters.From]}\"; give the same day or a later one.")
        : DayOf(typed);

    public FindValue RecordedFrom(FindAsked asked, string typed) => Instant(typed, Moment(asked, typed, isEnd: false));

    public FindValue RecordedTo(FindAsked asked, string typed)
    {
        var before = Moment(asked, typed, isEnd: true);
        return before < Moment(asked, asked[FindFilters.RecordedFrom], isEnd: false)
            ? FindValue.No($"\"{typed}\" is before \"{asked[FindFilters.RecordedFrom]}\"; give a later time.")
            : Instant(typed, before);
    }

    private bool IsRecorded(string table, string column, string typed)
    {
        using var connection = database.OpenForReading();
        return connection.ExecuteScalar<bool>($"SELECT EXISTS (SELECT 1 FROM {table} WHERE {column} = @typed)", new { typed });
    }

    private static DateOnly? Day(string? typed) =>
        DateOnly.TryParseExact(typed, DayFormat, CultureInfo.InvariantCulture, DateTimeStyles.None, out var day) ? day : null;

    private static FindValue Instant(string typed, DateTimeOffset? instant) => instant is { } at
        ? FindValue.Of(UtcText.Of(at))
        : FindValue.No(
            $"\"{typed}\" is not a time; type a day as 2027-03-14, a time at the venue as 2027-03-14T09:26, "
            + "or an instant with its offset.");

    /// <summary>Reads an instant, a local time at the venue, or a day there. As the end of a range, each
    /// includes its last moment.</summary>
    private DateTimeOffset? Moment(FindAsked asked, string? typed, bool isEnd)
    {
        if (Day(typed) is { } day)
        {
            return day.Year < 9999 ? AtVenue(asked, (isEnd ? day.AddDays(1) : day).ToDateTime(TimeOnly.MinValue)) : null;
        }

        if (DateTime.TryParseExact(typed, LocalFormats, CultureInfo.InvariantCulture, DateTimeStyles.None, out var local))
        {
            var length = !isEnd ? TimeSpan.Zero : typed!.Length > 16 ? TimeSpan.FromSeconds(1) : TimeSpan.FromMinutes(1);
            return local.Year < 9999 ? AtVenue(asked, local + length) : null;
        }

        return typed is not null && WithOffset().IsMatch(typed)
            && DateTimeOffset.TryParseExact(typed, InstantFormats, CultureInfo.InvariantCulture, DateTimeStyles.None, out var instant)
            && instant.UtcDateTime.Year < 9999
            ? instant.AddMilliseconds(isEnd ? 1 : 0)
            : null;
    }

    // A time that the clocks skip in spring is read with the offset before the change.
    private DateTimeOffset AtVenue(FindAsked asked, DateTime local)
    {
        var held = asked[FindFilters.Event] is { } id ? events.Find(id.ToUpperInvariant()) : null;
        var zone = held is null ? TimeZoneInfo.Utc : TimeZoneInfo.FindSystemTimeZoneById(held.TimeZone);
        return local.Year < 2 ? DateTimeOffset.MinValue : new DateTimeOffset(local, zone.GetUtcOffset(local)).ToUniversalTime();
    }

    [GeneratedRegex(@"(Z|[+-]\d\d:\d\d)$", RegexOptions.CultureInvariant)]
    private static partial Regex WithOffset();
}
