using System.Runtime.InteropServices;
using Inspect.Rules.Judging;
using Inspect.Rules.Rulesets;
using Inspect.Sheets;
using Inspect.Sheets.Readings;

namespace Inspect.Station.Desk.Charts;

/// <summary>Every reading that one rule compared with one limit.</summary>
public sealed record LimitReadings
{
    /// <summary>A reading within this share of its limit, or of the distance between two limits, is called near. A convention of this
    /// station; no rule asks for it.</summary>
    public const decimal NearShare = 0.05m;

    /// <summary>The rule's id.</summary>
    public required string Rule { get; init; }

    /// <summary>What is allowed, in words.</summary>
    public required string Words { get; init; }

    /// <summary>What is allowed; for an imbalance, on either side.</summary>
    public required Limit Limit { get; init; }

    /// <summary>What is measured.</summary>
    public required Quantity Quantity { get; init; }

    /// <summary>The unit it is drawn in: the limit's own.</summary>
    public required Unit Unit { get; init; }

    /// <summary>Whether the sign of a reading is a side, with the same limit for both.</summary>
    public required bool IsSided { get; init; }

    /// <summary>The words for the side below zero and the side above, where readings have sides.</summary>
    public required Sides? Sides { get; init; }

    /// <summary>The readings in the base unit of their quantity, smallest first, each with how often it was read.</summary>
    public required IReadOnlyList<(decimal Value, int Times)> Values { get; init; }

    /// <summary>How many readings there are.</summary>
    public int Count => Values.Sum(each => each.Times);

    /// <summary>How many are beyond the limit.</summary>
    public int Outside => Values.Where(each => IsOutside(each.Value)).Sum(each => each.Times);

    /// <summary>How many conform and are near the limit.</summary>
    public int Near => Values.Where(each => IsNear(each.Value)).Sum(each => each.Times);

    public decimal Least => Values[0].Value;

    public decimal Most => Values[^1].Value;

    /// <summary>The median; of an even number of readings, the lower of the two in the middle.</summary>
    public decimal Median
    {
        get
        {
            var (middle, sum) = ((Count + 1) / 2, 0);
            return Values.First(each => (sum += each.Times) >= middle).Value;
        }
    }

    /// <summary>How wide the range inside a limit is that is called near, in the base unit.</summary>
    public decimal NearBand => NearShare * (Limit is { Least: { } least, Most: { } most }
        ? most.Value - least.Value
        : Math.Abs((Limit.Least ?? Limit.Most!).Value));

    /// <summary>A value as text in the unit it is drawn in.</summary>
    public string Text(decimal value) => Written.As(value, new Notation(Unit, Fraction: false));

    public bool IsOutside(decimal value) => !Limit.Allows(Compared(value));

    public bool IsNear(decimal value) => !IsOutside(value) && Limit.Margin(Compared(value)) <= NearBand;

    /// <summary>A value in the unit it is drawn in.</summary>
    public double Drawn(decimal value) => Seam.ToDouble(value / Units.Factor(Unit));

    /// <summary>The readings of inspections by rule and limit, in the order of the edition. Rules without a limit in
    /// figures are left out.</summary>
    public static IReadOnlyList<LimitReadings> Of(IEnumerable<CountedInspection> inspections)
    {
        // Limits, paths and readings recur, so each limit is parsed once and the rest is counting.
        var groups = new Dictionary<(string Rule, Allowed Limit, string Path), (LimitReadings Group, Dictionary<decimal, int> Counts)?>();
        foreach (var finding in inspections.SelectMany(inspection => inspection.Findings))
        {
            if (finding is { Path: { } path, Measured: { } measured, Limit: { } allowed })
            {
                if (!groups.TryGetValue((finding.Rule, allowed, path), out var known))
                {
                    known = MeasuredMember.Of(path) is { } member ? Known(finding.Rule, allowed, member) : null;
                    groups[(finding.Rule, allowed, path)] = known;
                }

                if (known is { } found)
                {
                    CollectionsMarshal.GetValueRefOrAddDefault(found.Counts, measured, out _)++;
                }
            }
        }

        return groups.Values.OfType<(LimitReadings Group, Dictionary<decimal, int> Counts)>().DistinctBy(each => each.Counts)
            .Select(each => each.Group with
            {
                Values = [.. each.Counts.OrderBy(count => count.Key).Select(count => (count.Key, count.Value))],
            })
            .ToList();

        (LimitReadings Group, Dictionary<decimal, int> Counts)? Known(string rule, Allowed allowed, SheetMember member)
        {
            if (!groups.TryGetValue((rule, allowed, member.Path), out var known))
            {
                known = Empty(rule, allowed, member) is { } group ? (group, []) : null;
                groups[(rule, allowed, member.Path)] = known;
            }

            return known;
        }
    }

    private static LimitReadings? Empty(string rule, Allowed allowed, SheetMember member)
    {
        var quantity = MeasuredMember.QuantityOf(member);
        if (allowed.Measured is not { } limit)
        {
            return null;
        }

        var unit = (limit.Least ?? limit.Most!).Notation!.Value.Unit;
        return new LimitReadings
        {
            Rule = rule,
            Words = allowed.ToString(),
            Limit = limit,
            Unit = unit == Unit.PoundOunce ? Unit.Pound : unit,
            Quantity = quantity,
            IsSided = quantity == Quantity.Imbalance,
            Sides = member.Sides,
            Values = [],
        };
    }

    private decimal Compared(decimal value) => IsSided ? Math.Abs(value) : value;
}
