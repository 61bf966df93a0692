using Dapper;
using Inspect.Station.Storage;

namespace Inspect.Station.Access;

/// <summary>The index of people's names: their folded words. It is made from the names alone, so it can be rebuilt at any time.</summary>
/// <remarks>When a name is struck or changed, a trigger of the store deletes its words.</remarks>
public static class NameWords
{
    /// <summary>Adds the words of a person's name.</summary>
    public static void Add(WriteTransaction write, PersonId person, string name) =>
        Add(write, [(person.ToString(), name)]);

    /// <summary>Discards the words and rebuilds them from the names. Needed after <see cref="NameFold"/> has changed.</summary>
    public static void Rebuild(WriteTransaction write)
    {
        write.Connection.Execute("DELETE FROM person_name_word", null, write.Transaction);
        FillIn(write);
    }

    /// <summary>Adds the words of names that have none yet, as in a store of an earlier version. Returns how
    /// many people those were.</summary>
    public static int FillIn(WriteTransaction write)
    {
        const string Sql = """
            SELECT p.id AS Id, p.name AS Name FROM person p
            WHERE p.name IS NOT NULL AND NOT EXISTS (SELECT 1 FROM person_name_word w WHERE w.person = p.id)
            """;
        var without = write.Connection.Query<NamedRow>(Sql, null, write.Transaction).AsList();
        Add(write, without.Select(row => (row.Id, row.Name)));
        return without.Count;
    }

    /// <summary>Adds the words of people's names.</summary>
    internal static void Add(WriteTransaction write, IEnumerable<(string Person, string Name)> people) => write.Connection.Execute(
        $"""
        INSERT INTO person_name_word (word, person)
        SELECT {EngineSql.Member(0)}, {EngineSql.Member(1)} FROM {EngineSql.Each("words")} WHERE TRUE ON CONFLICT DO NOTHING
        """,
        new
        {
            words = EngineSql.List(people.SelectMany(each => NameFold.FoundBy(each.Name).Select(word => (string[])[word, each.Person]))),
        },
        write.Transaction);

    private sealed record NamedRow(string Id, string Name);
}
