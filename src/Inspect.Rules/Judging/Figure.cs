using Inspect.Rules.Rulesets;
using Inspect.Sheets;
using Inspect.Sheets.Readings;

namespace Inspect.Rules.Judging;

/// <summary>The one figure of a sheet's readings that a limit is compared with.</summary>
/// <param name="Sum">In base units; for an average the sum of the readings, so that it stays exact.</param>
/// <param name="Count">How many readings it sums.</param>
/// <param name="Path">The member of the sheet it comes from.</param>
/// <param name="Notation">How to write a margin to it.</param>
/// <param name="Reading">The reading behind it when it is a single one.</param>
internal sealed record Figure(decimal Sum, int Count, string Path, Notation Notation, Reading? Reading = null)
{
    /// <summary>The figure, or null when what it needs was not measured; for
    /// <see cref="Statistic.Each"/> use <see cref="Readings"/>.</summary>
    public static Figure? Of(RuleQuantity quantity, Statistic statistic, SheetFacts facts)
    {
        var readings = Readings(quantity, facts);
        var path = Catalogue.Of(quantity).Path;
        return statistic switch
        {
            Statistic.Average when readings.Count > 0 => Average(readings, path),
            Statistic.Spread when readings.Count > 1 => Spread(readings, path),
            Statistic.Single when readings.Count > 0 => readings[0],
            Statistic.Size when readings.Count > 0 => readings[0] with { Sum = Math.Abs(readings[0].Sum) },
            _ => null,
        };
    }

    /// <summary>What a finding measured: as typed, with a side in place of the sign, or calculated to enough decimals to be on the right
    /// side of the limit.</summary>
    public Amount Beside(Limit? limit) => new(Reading?.Text, new Exact(Reading?.Value ?? Sum, Notation, Count), limit);

    /// <summary>The signed distance from a limit; a single reading that is a whole number takes the limit's fraction.</summary>
    public Exact MarginTo(Limit limit) =>
        new(limit.MarginOfSum(Sum, Count), Reading is null ? Notation : limit.MarginNotation(Notation), Count);

    /// <summary>Every reading of a quantity of the ball as a figure of its own.</summary>
    public static List<Figure> Readings(RuleQuantity quantity, SheetFacts facts)
    {
        var said = facts.Said(quantity);
        var readings = new List<Figure>(said.Count);
        for (var i = 0; i < said.Count; i++)
        {
            if (said[i] is { Value: Reading reading, Piece: null, Path: var path })
            {
                readings.Add(Single(reading, path));
            }
        }

        return readings;
    }

    /// <summary>One reading as a figure.</summary>
    public static Figure Single(Reading reading, string path) => new(reading.Value, 1, path, reading.Notation, reading);

    private static Figure Average(List<Figure> readings, string path)
    {
        var sum = readings.Sum(reading => reading.Sum);
        var notation = readings[0].Notation with { Fraction = false };
        return new Figure(sum, readings.Count, path, notation);
    }

    private static Figure Spread(List<Figure> readings, string path)
    {
        var spread = readings.Max(reading => reading.Sum) - readings.Min(reading => reading.Sum);
        return new Figure(spread, 1, path, readings[0].Notation);
    }
}
