using System.Data.Common;
using System.Globalization;
using Dapper;
using Inspect.Station.Storage;

namespace Inspect.Station.Prepare;

/// <summary>What the register holds of an event, and what of the event therefore stays as it is.</summary>
/// <param name="PerDay">How many inspections are recorded for each day of play.</param>
/// <param name="HasMore">Whether the register names an event without inspections: a confirmed limit, another edition, a report.</param>
public sealed record EventLock(IReadOnlyDictionary<DateOnly, int> PerDay, bool HasMore)
{
    /// <summary>How many inspections are recorded.</summary>
    public int Inspections => PerDay.Values.Sum();

    /// <summary>Why the short name stays, in a sentence; null while it can be changed.</summary>
    public string? OfShortName => Inspections > 0 ? $"{Recorded}, so the short name stays as it is."
        : HasMore ? "A confirmed limit, a change of the edition or a closing report of this event is in the register, "
            + "so the short name stays as it is." : null;

    /// <summary>Why the rules stay, in a sentence; null while they can be changed.</summary>
    public string? OfRules => Inspections > 0 ? $"{Recorded}, so its rules stay as they are." : null;

    /// <summary>Why the event cannot be deleted, in a sentence; null when it can.</summary>
    public string? OfEvent => Inspections > 0 ? $"{Recorded}, so the event cannot be deleted."
        : HasMore ? "A confirmed limit, a change of the edition or a closing report of this event is in the register, "
            + "so the event cannot be deleted." : null;

    /// <summary>Why a day has to stay in the event, a sentence for each that would fall out of it.</summary>
    public IEnumerable<(DateOnly Day, string Sentence)> Outside(DateOnly from, DateOnly to) => PerDay
        .Where(day => day.Key < from || day.Key > to).OrderBy(day => day.Key)
        .Select(day => (day.Key, $"{(day.Value == 1 ? "1 inspection is" : $"{day.Value} inspections are")} recorded for "
            + $"{EventWords.Day(day.Key)}; keep that day in the event."));

    /// <summary>What is recorded of an event now.</summary>
    public static EventLock Of(DbConnection connection, string eventId, DbTransaction? transaction = null)
    {
        var days = connection.Query<DayRow>(
            "SELECT play AS Play, count(*) AS Count FROM inspection_index WHERE event = @eventId GROUP BY play", new { eventId },
            transaction)
            .ToDictionary(row => DateOnly.ParseExact(row.Play, "yyyy-MM-dd", CultureInfo.InvariantCulture), row => (int)row.Count);
        const string Sql = """
            SELECT EXISTS (SELECT 1 FROM confirmation_index WHERE event = @eventId) OR EXISTS (SELECT 1 FROM report_index WHERE event = @eventId)
            """;
        return new EventLock(
            days,
            days.Count == 0 && (connection.ExecuteScalar<long>(Sql, new { eventId }, transaction) == 1
                || EventEdition.ChangesOf(connection, eventId, transaction).Count > 0));
    }

    /// <summary>What is recorded of an event now.</summary>
    public static EventLock Of(Database database, string eventId)
    {
        using var connection = database.OpenForReading();
        return Of(connection, eventId);
    }

    private string Recorded => $"{(Inspections == 1 ? "1 inspection is" : $"{Inspections} inspections are")} recorded in this event";

    // A count has no type of its own while there is no row, so the members are set by name.
    private sealed record DayRow
    {
        public required string Play { get; init; }
        public long Count { get; init; }
    }
}
