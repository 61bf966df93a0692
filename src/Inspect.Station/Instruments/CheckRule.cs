using System.Data.Common;
using System.Globalization;
using Dapper;
using Inspect.Station.Prepare;
using Inspect.Station.Storage;

namespace Inspect.Station.Instruments;

/// <summary>How long a check of an instrument counts at an event, and whether a reading without one is recorded.</summary>
/// <param name="Hours">For how many hours; null for the day at the venue on which it was made.</param>
/// <param name="IsRequired">Whether readings of an instrument without a check that counts are refused.</param>
public sealed record CheckRule(int? Hours, bool IsRequired)
{
    /// <summary>The default: a check counts for the day, and a missing check is only pointed out.</summary>
    public static readonly CheckRule Usual = new(null, false);

    public const int MostHours = 168;

    /// <summary>Whether a check still counts.</summary>
    public bool Counts(DateTimeOffset check, DateTimeOffset now, Event held) =>
        Hours is { } hours ? now - check <= TimeSpan.FromHours(hours) : held.DayAt(check) == held.DayAt(now);

    /// <summary>The rule of an event.</summary>
    public static CheckRule Of(DbConnection connection, string eventId, DbTransaction? transaction = null)
    {
        const string Sql = "SELECT hours AS Hours, required AS Required FROM event_check WHERE event = @eventId";
        return connection.QuerySingleOrDefault<RuleRow>(Sql, new { eventId }, transaction) is { } row
            ? new CheckRule(row.Hours is { } hours ? checked((int)hours) : null, row.Required == 1)
            : Usual;
    }

    /// <summary>Sets the rule of an event.</summary>
    public static void Set(WriteTransaction write, string eventId, CheckRule rule) => write.Connection.Execute(
        """
        INSERT INTO event_check (event, hours, required) VALUES (@eventId, @hours, @required)
        ON CONFLICT (event) DO UPDATE SET hours = excluded.hours, required = excluded.required
        """,
        new { eventId, hours = (long?)rule.Hours, required = rule.IsRequired ? 1L : 0L },
        write.Transaction);

    /// <summary>The rule in one sentence.</summary>
    public string Sentence => (Hours is { } hours
        ? string.Create(CultureInfo.InvariantCulture, $"A check of an instrument counts for {hours} {(hours == 1 ? "hour" : "hours")}")
        : "A check of an instrument counts for the day on which it was made")
        + (IsRequired ? "; without one its readings are not recorded." : "; a missing check is shown at the table and stops nothing.");

    private sealed class RuleRow
    {
        public long? Hours { get; init; }
        public long Required { get; init; }
    }
}
