using System.Security.Cryptography;
using System.Text;
using Dapper;
using Inspect.Station.Storage;

namespace Inspect.Station.Queue;

/// <summary>What a director sets for the tables of an event.</summary>
/// <param name="MostBalls">How many balls an entry may have inspected, 1 to 99, or null when that is not set.</param>
/// <param name="WallWord">The random word in the address of the wall screen, or null while it is closed.</param>
/// <param name="ShowsNames">Whether the wall screen adds first name and initial to an entry's number.</param>
public sealed record TableTerms(int? MostBalls, string? WallWord, bool ShowsNames)
{
    /// <summary>The terms when nothing is set: no cap, no wall screen, numbers only.</summary>
    public static readonly TableTerms None = new(null, null, false);

    /// <summary>Whether a word is that of the wall screen. It takes as long for a wrong word as for the right one.</summary>
    public bool Opens(string word) => WallWord is { } right
        && CryptographicOperations.FixedTimeEquals(Encoding.UTF8.GetBytes(right), Encoding.UTF8.GetBytes(word));
}

/// <summary>The terms of the tables of this station's events.</summary>
public sealed class EventTables(Database database)
{
    // 26 characters out of 32: 130 bits, too many to guess.
    private const string Alphabet = "0123456789abcdefghjkmnpqrstvwxyz";
    private const int WordLength = 26;

    /// <summary>The terms of an event.</summary>
    public TableTerms Of(string eventId)
    {
        const string Sql =
            "SELECT most_balls AS MostBalls, wall_word AS WallWord, wall_names AS WallNames FROM event_table WHERE event = @eventId";
        using var connection = database.OpenForReading();
        return connection.QuerySingleOrDefault<TermsRow>(Sql, new { eventId })?.ToDomain() ?? TableTerms.None;
    }

    /// <summary>Sets the cap on balls, and whether the wall screen shows names.</summary>
    public static int Set(WriteTransaction write, string eventId, int? mostBalls, bool showsNames) => write.Connection.Execute(
        """
        INSERT INTO event_table (event, most_balls, wall_names) VALUES (@eventId, @mostBalls, @names)
        ON CONFLICT (event) DO UPDATE SET most_balls = excluded.most_balls, wall_names = excluded.wall_names
        """,
        new { eventId, mostBalls, names = showsNames ? 1L : 0L },
        write.Transaction);

    /// <summary>Opens the wall screen under a new word, or closes it. Earlier words no longer work.</summary>
    public static int SetWall(WriteTransaction write, string eventId, bool isOpen) => write.Connection.Execute(
        """
        INSERT INTO event_table (event, wall_word) VALUES (@eventId, @word)
        ON CONFLICT (event) DO UPDATE SET wall_word = excluded.wall_word
        """,
        new { eventId, word = isOpen ? RandomNumberGenerator.GetString(Alphabet, WordLength) : null },
        write.Transaction);

    private sealed record TermsRow(long? MostBalls, string? WallWord, long WallNames)
    {
        public TableTerms ToDomain() => new((int?)MostBalls, WallWord, WallNames == 1);
    }
}
