using System.Data.Common;
using System.Globalization;
using Dapper;
using Inspect.Sheets;
using Inspect.Station.Prepare;
using Inspect.Station.Storage;

namespace Inspect.Station.Instruments;

/// <summary>Whether an instrument may be used now, and why not.</summary>
/// <param name="Instrument">The instrument as it is now.</param>
/// <param name="Last">Its last check, or null when it was never checked here.</param>
public sealed record InstrumentStanding(Instrument Instrument, CheckRow? Last)
{
    /// <summary>The standing of every instrument.</summary>
    public static IReadOnlyList<InstrumentStanding> All(DbConnection connection, DbTransaction? transaction = null)
    {
        var last = connection.Query<CheckRow>(
            $"{CheckRow.Columns} WHERE seq = (SELECT max(seq) FROM check_index l WHERE l.instrument = check_index.instrument)", null,
            transaction)
            .ToDictionary(row => row.Instrument, StringComparer.OrdinalIgnoreCase);
        var renewed = connection.Query<RenewalRow>(Renewals, null, transaction)
            .ToDictionary(row => row.Instrument, row => row.At, StringComparer.OrdinalIgnoreCase);
        return [.. InstrumentBook.All(connection, transaction).Select(one => new InstrumentStanding(one, last.GetValueOrDefault(one.Name))
        {
            RenewedAt = renewed.TryGetValue(one.Name, out var at) ? UtcText.Parse(at) : null,
        })];
    }

    /// <summary>Why it may not be used on a day, in one sentence; null when it may.</summary>
    /// <param name="today">The day at the venue.</param>
    public string? Refusal(DateOnly today) =>
        Instrument.IsRetired ? $"\"{Instrument.Name}\" is retired; use another {Title}."
        : Instrument.Due < today ? string.Create(CultureInfo.InvariantCulture,
            $"The calibration of \"{Instrument.Name}\" was due on {Instrument.Due:d MMMM yyyy}; "
            + $"it cannot be used until a new calibration is entered and its check is good.")
        : Last is { IsGood: false } ? $"\"{Instrument.Name}\" failed its last check; it cannot be used until a check of it comes out good."
        : NeedsCheckSinceCalibration ? $"\"{Instrument.Name}\" was overdue and has been calibrated again; "
            + "it cannot be used until a check of it comes out good."
        : null;

    /// <summary>Why its readings are not recorded at an event, in one sentence; null when they are.</summary>
    public string? Refusal(Event held, CheckRule rule, DateTimeOffset now) =>
        Refusal(held.DayAt(now)) ?? (rule.IsRequired && !IsChecked(held, rule, now)
            ? $"\"{Instrument.Name}\" has no check that counts now at {held.Name}; check it, and then record."
            : null);

    /// <summary>Whether its last check is good and still counts at an event.</summary>
    public bool IsChecked(Event held, CheckRule rule, DateTimeOffset now) =>
        !InstrumentKinds.Shows(Instrument.Kind) || (Last is { IsGood: true } && rule.Counts(Last.Instant, now, held));

    /// <summary>When an expired calibration was last renewed. A good check has to follow it.</summary>
    public DateTimeOffset? RenewedAt { get; init; }

    private bool NeedsCheckSinceCalibration => InstrumentKinds.Shows(Instrument.Kind)
        && RenewedAt is { } renewed && !(Last is { IsGood: true } && Last.Instant >= renewed);

    // A change from a due day that had passed to one that had not.
    private const string Renewals = """
        SELECT c.instrument AS Instrument, max(c.at) AS At
        FROM instrument_change c JOIN instrument_change p ON p.instrument = c.instrument AND p.version = c.version - 1
        WHERE p.due < substr(c.at, 1, 10) AND (c.due IS NULL OR c.due >= substr(c.at, 1, 10))
        GROUP BY c.instrument
        """;

    private string Title => InstrumentKinds.TitleOf(Instrument.Kind).ToLowerInvariant();

    // An aggregate has no declared type, so Dapper would not find the constructor of a record for it.
    private sealed class RenewalRow
    {
        public string Instrument { get; init; } = "";
        public string At { get; init; } = "";
    }
}

/// <summary>A row of the index of checks.</summary>
/// <param name="Seq">The register's entry.</param>
/// <param name="Instrument">Which instrument.</param>
/// <param name="Outcome">good or failed.</param>
/// <param name="ByPerson">The inspector's opaque id.</param>
/// <param name="At">When, UTC.</param>
public sealed record CheckRow(long Seq, string Instrument, string Outcome, string ByPerson, string At)
{
    internal const string Columns = "SELECT seq AS Seq, instrument AS Instrument, outcome AS Outcome, by_person AS ByPerson, "
        + "at AS At FROM check_index";

    public bool IsGood => Outcome == "good";

    public DateTimeOffset Instant => UtcText.Parse(At);
}
