using System.Globalization;
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
    public static void Check(WriteTransaction write, Event held, IReadOnlyList<Observation> observations, DateTimeOffset now, Faults faults)
    {
        if (observations.All(observation => observation.Instrument is null))
        {
            return;
        }

        var rule = CheckRule.Of(write.Connection, held.Id, write.Transaction);
        var all = InstrumentStanding.All(write.Connection, write.Transaction);
        for (var i = 0; i < observations.Count; i++)
        {
            if (observations[i].Instrument is { } name && Refusal(name, observations[i].Path, all, held, rule, now) is { } refusal)
            {
                faults.Add(string.Create(CultureInfo.InvariantCulture, $"observations[{i}].instrument"), refusal);
            }
        }
    }

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
