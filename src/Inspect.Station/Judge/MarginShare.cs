using Inspect.Rules.Judging;
using Inspect.Sheets.Readings;

namespace Inspect.Station.Judge;

/// <summary>How much of what is allowed a reading uses.</summary>
/// <param name="Used">0 where the reading is farthest from the limit, 1 on the
/// limit, more outside it. With two limits, 0 is halfway between them.</param>
/// <param name="IsOutside">Whether the reading is outside the limit.</param>
/// <param name="IsBetween">Whether there are two limits.</param>
public readonly record struct MarginShare(double Used, bool IsOutside, bool IsBetween)
{
    private const double Widest = 1.25;

    /// <summary>Where the mark is on a bar whose limit is at 100; a mark outside is always clear of the limit.</summary>
    public double At => IsOutside ? Math.Clamp(100 * Used, 108, 100 * Widest) : Math.Clamp(100 * Used, 6, 96);

    /// <summary>The share, or null for a finding that has no margin or whose limit
    /// is a count: with one vent allowed, no vent is not "far inside".</summary>
    public static MarginShare? Of(Finding finding)
    {
        if (finding is not { Margin.Measure: { } distance, Limit.Measured: { } limit })
        {
            return null;
        }

        var isBetween = limit is { Least: not null, Most: not null };
        var span = isBetween ? (limit.Most!.Value - limit.Least!.Value) / 2 : Math.Abs((limit.Most ?? limit.Least)!.Value);
        return span <= 0 ? null : new MarginShare(1 - Seam.ToDouble(distance / span), finding.Outcome == Outcome.Fail, isBetween);
    }
}
