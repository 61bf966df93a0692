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
/// <remarks>Two people can have the same name: the person who enters the list decides.</remarks>
public sealed class KnownBowlers(Database database)
{
    // How many words are asked for at a time.
    private const int Together = 400;

    private const string Sql = $"""
        SELECT p.id AS Person, p.name AS Name, v.name AS Entered, e.entry AS Number
        FROM (SELECT DISTINCT person FROM person_name_word WHERE word IN @words) w
        JOIN person p ON p.id = w.person
        JOIN entry e ON e.person = p.id AND e.event <> @eventId AND {Events.Counts}
        JOIN event v ON v.event = e.event
        ORDER BY v.from_day DESC, v.event, e.entry
        """;

    /// <summary>The people of other events with one of these names, accents and case aside.</summary>
    public KnownByName Of(string eventId, IEnumerable<string> names)
    {
        using var connection = database.OpenForReading();
        var asked = names.GroupBy(KnownByName.Key).ToDictionary(alike => alike.Key, alike => alike.Count(), StringComparer.Ordinal);

        // The longest word of a name is shared by the fewest people.
        var words = asked.Keys.Select(key => key.Split(' ').MaxBy(word => word.Length)!).Distinct(StringComparer.Ordinal);
        var found = words.Chunk(Together).SelectMany(some => connection.Query<KnownRow>(Sql, new { eventId, words = some }))
            .Select(row => (Key: KnownByName.Key(row.Name), Known: row))
            .Where(each => asked.ContainsKey(each.Key))
            .GroupBy(each => each.Key, each => new KnownBowler(
                PersonId.From(each.Known.Person), each.Known.Name, each.Known.Entered, each.Known.Number))
            .ToDictionary(
                alike => alike.Key,
                alike => (IReadOnlyList<KnownBowler>)[.. alike.DistinctBy(known => known.Person)],
                StringComparer.Ordinal);
        return new KnownByName(found, asked);
    }

    private sealed record KnownRow(string Person, string Name, string Entered, string Number);
}

/// <summary>The people of other events by their names.</summary>
/// <param name="found">Who has a name, the latest entered first; by <see cref="Key"/>.</param>
/// <param name="asked">How often each name was asked for.</param>
public sealed class KnownByName(IReadOnlyDictionary<string, IReadOnlyList<KnownBowler>> found, IReadOnlyDictionary<string, int> asked)
{
    /// <summary>A name by which people are compared: its words, without accents, in lower case.</summary>
    public static string Key(string name) => string.Join(' ', NameFold.Words(name));

    /// <summary>Who has this name.</summary>
    public IReadOnlyList<KnownBowler> Of(string name) => found.GetValueOrDefault(Key(name)) ?? [];

    /// <summary>The one person who is meant by a name; null when several people have it, or it was asked for more than once.</summary>
    public PersonId? Meant(string name) =>
        Of(name) is [{ Person: var only }] && asked[Key(name)] == 1 ? only : null;
}
