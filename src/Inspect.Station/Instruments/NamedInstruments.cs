using System.Globalization;
using Dapper;
using Inspect.Sheets;
using Inspect.Station.Prepare;
using Inspect.Station.Storage;
using Inspect.Station.Web;

namespace Inspect.Station.Instruments;

/// <summary>Checks that the instruments named by readings may be used.</summary>
/// <remarks>
/// A registered instrument must be usable and of a kind that gives such a reading. A name that is not registered is accepted only while the
/// station has no instrument that could have given the reading. After that it is a typing error, or an instrument that nobody checks.
/// </remarks>
internal static class NamedInstruments
{
    /// <summary>Adds a fault at <c>observations[i].instrument</c> for each name that may not be used.</summary>
    /// <param name="write">The turn at the gate.</param>
    /// <param name="held">The event.</param>
    /// <param name="observations">The readings.</param>
    /// <param name="at">When they were taken, and when they are recorded.</param>
    /// <param name="faults">Where faults are collected.</param>
    public static void Check(
        WriteTransaction write, Event held, IReadOnlyList<Observation> observations,
        (DateTimeOffset Measured, DateTimeOffset Now) at, Faults faults)
    {
        if (observations.All(observation => observation.Instrument is null))
        {
            return;
        }

        var rule = CheckRule.Of(write.Connection, held.Id, write.Transaction);
        var all = InstrumentStanding.All(write.Connection, write.Transaction);
        for (var i = 0; i < observations.Count; i++)
        {
            if (observations[i].Instrument is { } name
                && (Refusal(name, observations[i].Path, all, held, rule, at.Now) ?? FailedAfter(write, held, name, at)) is { } refusal)
            {
                faults.Add(string.Create(CultureInfo.InvariantCulture, $"observations[{i}].instrument"), refusal);
            }
        }
    }

    // What was measured before a failed check is called back when the check fails; what is typed later, from paper, is not taken at all.
    private static string? FailedAfter(
        WriteTransaction write, Event held, string name, (DateTimeOffset Measured, DateTimeOffset Now) at) =>
        at.Measured < at.Now && write.Connection.QueryFirstOrDefault<CheckRow>(
            $"{CheckRow.Columns} WHERE instrument = @name AND at > @measured ORDER BY seq",
            new { name, measured = UtcText.Of(at.Measured) }, write.Transaction) is { IsGood: false } failed
            ? string.Create(
                CultureInfo.InvariantCulture,
                $"\"{name}\" failed its next check after this was measured, on {held.DayAt(failed.Instant):d MMMM yyyy}; "
                + $"measure the ball again.")
            : null;

    private static string? Refusal(
        string name, string path, IReadOnlyList<InstrumentStanding> all, Event held, CheckRule rule, DateTimeOffset now)
    {
        var kinds = InstrumentKinds.For(path);
        if (all.FirstOrDefault(one => one.Instrument.Name == name) is { } found)
        {
            return kinds.Count > 0 && !kinds.Contains(found.Instrument.Kind)
                ? $"\"{name}\" is a {InstrumentKinds.TitleOf(found.Instrument.Kind).ToLowerInvariant()}, "
                    + $"which gives no reading at {path}; name the instrument that was used."
                : found.Refusal(held, rule, now);
        }

        var known = all.Where(one => !one.Instrument.IsRetired && kinds.Contains(one.Instrument.Kind))
            .Select(one => $"\"{one.Instrument.Name}\"").ToList();
        return known.Count == 0
            ? null
            : $"\"{name}\" is not an instrument of this station; name {string.Join(" or ", known)}, spelled like this, "
                + "or have it added under Instruments.";
    }
}
