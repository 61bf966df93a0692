using Dapper;
using Inspect.Station.Access;
using Inspect.Station.Storage;

namespace Inspect.Station.Prepare;

/// <summary>A bowler of an earlier event who may be the one about to be entered.</summary>
/// <param name="Person">Who it is.</param>
/// <param name="Name">The name as it stands here.</param>
/// <param name="Entered">The event this person was entered in last.</param>
/// <param name="Number">The bowler's number in it.</param>
public sealed record KnownBowler(PersonId Person, string Name, string Entered, string Number);

/// <summary>Tells which of the people about to be entered may be known from other events, so that their balls are known too.</summary>
/// <remarks>A name is not a person: whoever enters the list decides, and nothing is decided where two could be meant.</remarks>
public sealed class KnownBowlers(Database database)
{
    /// <summary>The form field in which it is said who an entry is, and the place of its faults.</summary>
    public static string Field(string number) => $"known.{number}";

    /// <summary>By entry number, the people of other events whose name is the same but for accents and case, the latest entered first.</summary>
    public IReadOnlyDictionary<string, IReadOnlyList<KnownBowler>> Of(string eventId, IReadOnlyList<NewEntry> entries)
    {
        using var connection = database.OpenForReading();
        return entries
            .Select(entry => (entry.Number, Known: (IReadOnlyList<KnownBowler>)[.. connection.Query<KnownRow>(Sql, Words(entry, eventId))
                .Where(row => NameFold.Words(row.Name).SequenceEqual(NameFold.Words(entry.Bowler)))
                .Select(row => new KnownBowler(PersonId.From(row.Person), row.Name, row.Entered, row.Number))
                .DistinctBy(known => known.Person)]))
            .Where(each => each.Known.Count > 0)
            .ToDictionary(each => each.Number, each => each.Known, StringComparer.OrdinalIgnoreCase);
    }

    /// <summary>The one person whom an entry means unless somebody says otherwise; null where there are several, or several lines could mean the one.</summary>
    public static PersonId? Meant(string number, IReadOnlyDictionary<string, IReadOnlyList<KnownBowler>> known) =>
        known.GetValueOrDefault(number) is [{ Person: var only }] && known.Count(each => each.Value.Any(bowler => bowler.Person == only)) == 1 ? only : null;

    private static object Words(NewEntry entry, string eventId)
    {
        var words = NameFold.Words(entry.Bowler).Distinct(StringComparer.Ordinal).ToList();
        return new { eventId, words, count = words.Count };
    }

    private const string Sql = """
        SELECT p.id AS Person, p.name AS Name, v.name AS Entered, e.entry AS Number
        FROM (SELECT person FROM person_name_word WHERE word IN @words GROUP BY person HAVING count(*) = @count) w
        JOIN person p ON p.id = w.person
        JOIN entry e ON e.person = p.id AND e.event <> @eventId
        JOIN event v ON v.event = e.event
        ORDER BY v.from_day DESC, v.event, e.entry
        """;

    private sealed record KnownRow(string Person, string Name, string Entered, string Number);
}
