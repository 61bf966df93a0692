using Dapper;
using Inspect.Station.Access;
using Inspect.Station.Storage;

namespace Inspect.Station.Prepare;

/// <summary>A bowler of an earlier event who may be the one about to be entered.</summary>
/// <param name="Person">The bowler's id.</param>
/// <param name="Name">The name as recorded here.</param>
/// <param name="Entered">The latest event this person was entered in.</param>
/// <param name="Number">The bowler's number in it.</param>
public sealed record KnownBowler(PersonId Person, string Name, string Entered, string Number);

/// <summary>Finds which of the people about to be entered may be known from other events, so that their balls are known too.</summary>
/// <remarks>Two people can have the same name: the person who enters the list decides. Nothing is preselected when two
/// people could be meant.</remarks>
public sealed class KnownBowlers(Database database)
{
    /// <summary>The form field that says who an entry is, which is also the place of its faults.</summary>
    public static string Field(string number) => $"known.{number}";

    /// <summary>For each entry number, the people of other events with the same name, accents and case
    /// aside. Latest entered first.</summary>
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

    /// <summary>The person who is preselected for an entry; null when several people could be meant, or several lines could
    /// mean the same person.</summary>
    public static PersonId? Meant(string number, IReadOnlyDictionary<string, IReadOnlyList<KnownBowler>> known) =>
        known.GetValueOrDefault(number) is [{ Person: var only }]
            && known.Count(each => each.Value.Any(bowler => bowler.Person == only)) == 1 ? only : null;

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
