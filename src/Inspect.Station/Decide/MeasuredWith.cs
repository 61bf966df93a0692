using System.Data.Common;
using System.Globalization;
using Dapper;
using Inspect.Metrology;
using Inspect.Station.Access;
using Inspect.Station.Instruments;
using Inspect.Station.Record;
using Inspect.Station.Storage;

namespace Inspect.Station.Decide;

/// <summary>An inspection with readings of one instrument.</summary>
/// <param name="Number">The inspection.</param>
/// <param name="Event">The event.</param>
/// <param name="Entry">The bowler's number.</param>
/// <param name="Bowler">The bowler; null when struck.</param>
/// <param name="Serial">The ball's serial number.</param>
/// <param name="Outcome">pass, fail or hold, as recorded.</param>
/// <param name="At">When, UTC.</param>
/// <param name="SupersededBy">The inspection that replaced it, or null.</param>
/// <param name="Decision">The last ruling on it, or null.</param>
public sealed record MeasuredWith(
    string Number, string Event, string Entry, string? Bowler, string? Serial, string Outcome, string At, string? SupersededBy,
    string? Decision)
{
    /// <summary>Records a check. A failed check calls back every ball measured with the instrument since its last good check.</summary>
    internal static long Check(WriteTransaction write, Instrument found, CheckOutcome outcome, PersonId by, DateTimeOffset at)
    {
        var seq = Checks.Append(write, found, outcome, by, at);
        if (!outcome.IsGood)
        {
            var reason = string.Create(CultureInfo.InvariantCulture, $"\"{found.Name}\" failed its check, register entry {seq}.");
            foreach (var one in SinceGood(write.Connection, found.Name, seq, write.Transaction)
                .Where(one => one.IsToBeCalledBack))
            {
                if (InspectionNumber.TryParse(one.Number, out var number))
                {
                    Rulings.Append(write, number, Record.Decision.Recall, reason, by, at);
                }
            }
        }

        return seq;
    }

    /// <summary>Every inspection whose readings name an instrument, recorded after its last good check before an entry
    /// and before that entry.</summary>
    /// <param name="connection">The connection to read from.</param>
    /// <param name="instrument">Which instrument.</param>
    /// <param name="before">The failed check's entry; <see cref="long.MaxValue"/> for a check not recorded yet.</param>
    /// <param name="transaction">The write transaction, or null.</param>
    public static IReadOnlyList<MeasuredWith> SinceGood(
        DbConnection connection, string instrument, long before, DbTransaction? transaction = null) => connection.Query<MeasuredWith>(
        $"""
        SELECT x.number AS Number, x.event AS Event, x.entry AS Entry, p.name AS Bowler, x.serial AS Serial, x.outcome AS Outcome, x.at AS At,
               x.superseded_by AS SupersededBy,
               {RulingIndex.Decided("x")} AS Decision
        FROM inspection_instrument m
          JOIN inspection_index x ON x.seq = m.seq
          LEFT JOIN entry e ON e.event = x.event AND e.entry = x.entry
          LEFT JOIN person p ON p.id = e.person
        WHERE m.instrument = @instrument AND m.seq < @before
          AND m.seq > coalesce((SELECT max(seq) FROM check_index WHERE instrument = @instrument AND outcome = 'good' AND seq < @before), 0)
        ORDER BY m.seq
        """,
        new { instrument, before },
        transaction).AsList();

    /// <summary>Whether its ball may still be in use, or waits for a ruling on a verdict with this instrument's readings.</summary>
    public bool IsToBeCalledBack => IsOpen && !(Last?.CallsBack() ?? false);

    /// <summary>Whether the ball has to be measured again: the inspection was not replaced or withdrawn.</summary>
    public bool IsOpen => SupersededBy is null && !(Last?.IsWithdrawal() ?? false);

    /// <summary>Its standing, in a few words.</summary>
    public string StandingWords => Standing.InAList(SupersededBy, Last);

    private Decision? Last => Decision is null ? null : Decisions.Words[Decision];
}
