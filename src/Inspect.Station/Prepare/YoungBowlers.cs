using System.Data.Common;
using Dapper;
using Inspect.Station.Access;

namespace Inspect.Station.Prepare;

/// <summary>The bowlers of an event who are under age: their names are kept out of what anyone can read.</summary>
public sealed class YoungBowlers
{
    /// <summary>What stands in place of a name.</summary>
    public const string InPlaceOfName = "a young bowler";

    /// <summary>What stands in place of a text that names one.</summary>
    public const string Hidden = "it names a young bowler and is not shown here";

    private readonly NamesOfPeople _names;

    private YoungBowlers(NamesOfPeople names) => _names = names;

    /// <summary>Those of an event, by number, with the earlier spellings of their names.</summary>
    public static YoungBowlers Of(DbConnection connection, string eventId) => new(new NamesOfPeople(connection.Query<(string, string)>(
        """
        SELECT e.entry, p.name FROM entry e JOIN person p ON p.id = e.person
        WHERE e.event = @eventId AND e.under_age = 1 AND p.name IS NOT NULL
        UNION SELECT e.entry, c.was FROM entry e JOIN changed_name c ON c.person = e.person WHERE e.event = @eventId AND e.under_age = 1
        """, new { eventId })));

    /// <summary>A text about a ball of an entry, or that it is not shown: because all words of such a name stand in it, or any of the name
    /// of the ball's own bowler.</summary>
    public string? Shown(string? text, string entry) =>
        text is not null && (_names.IsNamedIn(text) || _names.WithAWordIn(text).Contains(entry)) ? Hidden : text;
}
