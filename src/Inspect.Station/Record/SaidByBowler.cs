using Dapper;
using Inspect.Station.Storage;

namespace Inspect.Station.Record;

/// <summary>What bowlers say of their inspected balls, with the code on the entry's card. It decides nothing.</summary>
public sealed class SaidByBowler(Database database)
{
    /// <summary>The bowler has seen what was found.</summary>
    public const string Seen = "seen";

    /// <summary>The bowler does not use the ball.</summary>
    public const string NotUsed = "not-used";

    /// <summary>When the bowlers of some inspections said something of them, by number and what was said.</summary>
    public IReadOnlyDictionary<(string Number, string Said), DateTimeOffset> Of(IEnumerable<string> numbers)
    {
        using var connection = database.OpenForReading();
        return connection.Query<(string Number, string Said, string At)>(
            "SELECT number, said, at FROM said_by_bowler WHERE number IN @numbers", new { numbers = numbers.ToList() })
            .ToDictionary(row => (row.Number, row.Said), row => UtcText.Parse(row.At));
    }

    /// <summary>Keeps what was said. The first time it was said stays.</summary>
    public static int Keep(WriteTransaction write, string number, string said, DateTimeOffset at) => write.Connection.Execute(
        "INSERT INTO said_by_bowler (number, said, at) VALUES (@number, @said, @at) ON CONFLICT (number, said) DO NOTHING",
        new { number, said, at = UtcText.Of(at) },
        write.Transaction);
}
