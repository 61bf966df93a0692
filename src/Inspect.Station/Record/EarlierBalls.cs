using System.Data.Common;
using Dapper;
using Inspect.Station.Prepare;
using Inspect.Station.Storage;

namespace Inspect.Station.Record;

/// <summary>A ball that the bowler brought earlier, under another entry.</summary>
/// <param name="Ball">The ball's opaque id.</param>
/// <param name="Number">Its latest inspection there.</param>
/// <param name="Event">The name of that event.</param>
/// <param name="Written">What was written down of it there.</param>
/// <param name="Outcome">What was measured there.</param>
public sealed record EarlierBall(string Ball, string Number, string Event, BallAsWritten Written, string Outcome)
{
    /// <summary>Maker, model and serial number as far as they were written down.</summary>
    public string Name => Written.Name is { Length: > 0 } name ? name : "A ball without a name";
}

/// <summary>The balls that a bowler brought to other events, so that what is known of them need not be typed again.</summary>
public sealed class EarlierBalls(Database database)
{
    private const int Most = 12;

    /// <summary>The balls of the same person under other entries that were not inspected under this one yet: newest
    /// first, twelve at most.</summary>
    public IReadOnlyList<EarlierBall> Of(Event held, Entry entry)
    {
        const string Sql = """
            SELECT i.seq AS Seq, i.ball AS Ball, i.number AS Number, v.name AS Event, i.outcome AS Outcome
            FROM (SELECT max(i.seq) AS latest
                  FROM entry e JOIN inspection_index i ON i.event = e.event AND i.entry = e.entry
                  WHERE e.person = @person AND i.ball IS NOT NULL
                    AND NOT EXISTS (SELECT 1 FROM inspection_index o WHERE o.event = @Id AND o.entry = @Number AND o.ball = i.ball)
                  GROUP BY i.ball)
            JOIN inspection_index i ON i.seq = latest
            JOIN event v ON v.event = i.event
            ORDER BY i.seq DESC
            LIMIT @Most
            """;
        using var connection = database.OpenForReading();
        return [.. connection.Query<BallRow>(Sql, new { person = entry.Person.ToString(), held.Id, entry.Number, Most })
            .Select(row => Named(connection, row))];
    }

    private static EarlierBall Named(DbConnection connection, BallRow row)
    {
        var sheet = InspectionBody.Read(Register.BodyOf(connection, row.Seq)!).Sheet;
        var written = new BallAsWritten(
            sheet.Ball?.Maker, sheet.Ball?.Model, sheet.Ball?.Serial, sheet.Grip?.Hand, sheet.Grip?.Digits, row.Ball);
        return new EarlierBall(row.Ball, row.Number, row.Event, written, row.Outcome);
    }

    private sealed record BallRow(long Seq, string Ball, string Number, string Event, string Outcome);
}
