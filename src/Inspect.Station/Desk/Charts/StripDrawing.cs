using System.Globalization;
using Inspect.Sheets.Readings;
using Inspect.Station.Web;

namespace Inspect.Station.Desk.Charts;

/// <summary>Where a reading is, seen from its limit.</summary>
public enum LimitSide
{
    Inside,
    Near,
    Outside,
}

/// <summary>Readings in one stretch of the scale and on the same side of their limit.</summary>
/// <param name="X">The left edge of the stretch.</param>
/// <param name="Width">How wide it is.</param>
/// <param name="Y">The top of the bar.</param>
/// <param name="Height">How high it is.</param>
/// <param name="Side">Where they are, seen from the limit.</param>
/// <param name="Count">How many.</param>
/// <param name="Below">How many of the same stretch are drawn under them.</param>
public sealed record StripBar(double X, double Width, double Y, double Height, LimitSide Side, int Count, int Below)
{
    public double Middle => X + (Width / 2);
}

/// <summary>An end of what is allowed.</summary>
/// <param name="X">Where it is.</param>
/// <param name="LabelX">The middle of its words.</param>
/// <param name="Words">The limit.</param>
public sealed record LimitLine(double X, double LabelX, string Words);

/// <summary>All readings against one limit on a scale: a dot for each while there are few, or else a column for each
/// stretch of the scale.</summary>
/// <remarks>Drawn in a box of 360 by 130 units.</remarks>
public sealed record StripDrawing
{
    public const double Width = 360;
    public const double Height = 130;
    public const double Left = 10;
    public const double Right = 350;
    public const double Top = 22;
    public const double Bottom = 98;
    private const int MostBars = 46;
    private const int MostDots = 70;
    private const double LargestDot = 3.1;
    private const double Gap = 6;

    /// <summary>What is allowed, from edge to edge.</summary>
    public required (double X, double Width) Allowed { get; init; }

    /// <summary>The stretches inside that are called near.</summary>
    public required IReadOnlyList<(double X, double Width)> Near { get; init; }

    public required IReadOnlyList<LimitLine> Limits { get; init; }

    public required IReadOnlyList<StripBar> Bars { get; init; }

    /// <summary>Whether each reading is a dot of its own.</summary>
    public required bool HasDots { get; init; }

    /// <summary>The distance between the dots of one stretch.</summary>
    public required double DotStep { get; init; }

    public required IReadOnlyList<(double X, string Words)> Ticks { get; init; }

    public double DotRadius => Math.Min(LargestDot, DotStep / 2);

    /// <summary>The base line of a bar's dot.</summary>
    public double DotY(StripBar bar, int index) => Bottom - 1 - ((bar.Below + index + 0.5) * DotStep);

    public static StripDrawing Of(LimitReadings readings)
    {
        ArgumentNullException.ThrowIfNull(readings);
        var mirrored = readings.IsSided;
        var least = readings.Limit.Least is { } low ? readings.Drawn(low.Value)
            : mirrored ? -readings.Drawn(readings.Limit.Most!.Value) : (double?)null;
        var most = readings.Limit.Most is { } high ? readings.Drawn(high.Value) : (double?)null;
        var values = readings.Values
            .Select(each => (At: readings.Drawn(each.Value), Side: SideOf(readings, each.Value), each.Times)).ToList();
        var (from, to) = Range([.. values.Select(value => value.At), .. new[] { least, most }.OfType<double>()]);
        var step = Scale.Step(to - from, MostBars);
        var anchor = most ?? least!.Value;
        var middle = (least, most) switch
        {
            ({ } a, { } b) => (a + b) / 2,
            (null, _) => double.NegativeInfinity,
            _ => double.PositiveInfinity,
        };
        var first = anchor - (Math.Ceiling((anchor - from) / step) * step);
        var stretches = values.GroupBy(value => StretchOf(value.At))
            .ToDictionary(group => group.Key, group => group.ToLookup(value => value.Side));
        var fullest = stretches.Values.Select(stretch => stretch.SelectMany(side => side).Sum(value => value.Times))
            .DefaultIfEmpty(1).Max();
        var end = Math.Max(to, first + (step * Math.Ceiling(((to - first) / step) - 1e-9)));
        var band = readings.Drawn(readings.NearBand);
        return new StripDrawing
        {
            Allowed = Stretch(least ?? first, most ?? end),
            Near = [.. new[]
                {
                    most is { } upper ? Stretch(upper - band, upper) : ((double, double)?)null,
                    least is { } lower ? Stretch(lower, lower + band) : null,
                }
                .OfType<(double, double)>()],
            Limits = LimitLines(readings, least, most, XOf),
            Bars = [.. stretches.OrderBy(stretch => stretch.Key).SelectMany(stretch => BarsOf(stretch.Key, stretch.Value))],
            HasDots = readings.Count <= MostDots,
            DotStep = Math.Min(2 * LargestDot, (Bottom - Top - 6) / fullest),
            Ticks = [.. TicksOf(first, end, readings.Unit).Select(tick => (XOf(tick.At), tick.Words))],
        };

        double XOf(double at) => Left + ((Right - Left) * (Math.Clamp(at, first, end) - first) / (end - first));

        (double X, double Width) Stretch(double a, double b) => (XOf(a), XOf(b) - XOf(a));

        // Each stretch includes its end towards the middle of what is allowed, so that a reading on its limit is drawn as inside.
        int StretchOf(double at)
        {
            var place = Math.Round((at - first) / step, 9);
            return (int)(at < middle ? Math.Floor(place) : Math.Ceiling(place) - 1);
        }

        IEnumerable<StripBar> BarsOf(int stretch, ILookup<LimitSide, (double At, LimitSide Side, int Times)> sides)
        {
            var below = 0;
            foreach (var side in Enum.GetValues<LimitSide>())
            {
                if (sides[side].Sum(value => value.Times) is var count and > 0)
                {
                    var x = XOf(first + (stretch * step));
                    var unit = (Bottom - Top - 6) / fullest;
                    yield return new StripBar(
                        x, (Right - Left) * step / (end - first), Bottom - ((below + count) * unit), count * unit, side, count, below);
                    below += count;
                }
            }
        }
    }

    private static LimitSide SideOf(LimitReadings readings, decimal value) =>
        readings.IsOutside(value) ? LimitSide.Outside : readings.IsNear(value) ? LimitSide.Near : LimitSide.Inside;

    private static (double From, double To) Range(IReadOnlyList<double> all)
    {
        var span = Math.Max(all.Max() - all.Min(), Math.Max(Math.Abs(all.Max()), 1) * 0.002);
        return (all.Min() - (0.04 * span), all.Max() + (0.04 * span));
    }

    // The words of two limits that are close together are moved apart.
    private static List<LimitLine> LimitLines(LimitReadings readings, double? least, double? most, Func<double, double> xOf)
    {
        var lines = new List<LimitLine>();
        foreach (var (at, bound) in new[] { (least, readings.Limit.Least ?? readings.Limit.Most), (most, readings.Limit.Most) })
        {
            if (at is { } place)
            {
                var half = HalfOf(bound!.Text);
                lines.Add(new LimitLine(xOf(place), Math.Clamp(xOf(place), half, Width - half), bound.Text));
            }
        }

        if (lines is not [var low, var high])
        {
            return lines;
        }

        var (halfOfLow, halfOfHigh) = (HalfOf(low.Words), HalfOf(high.Words));
        var apart = Math.Max(high.LabelX - low.LabelX, halfOfLow + halfOfHigh + Gap);
        var middle = (low.LabelX + high.LabelX) / 2;
        var left = Math.Min(Math.Max(halfOfLow, middle - (apart / 2)), Width - halfOfHigh - apart);
        return [low with { LabelX = left }, high with { LabelX = left + apart }];

        static double HalfOf(string words) => Svg.Width(words, Svg.LabelSize) / 2;
    }

    private static IEnumerable<(double At, string Words)> TicksOf(double from, double to, Unit unit)
    {
        var step = Scale.Step(to - from, 5);
        return Scale.Ticks(from, to, step)
            .Select(at => (at, $"{at.ToString("0.####", CultureInfo.InvariantCulture)} {Units.Mark(unit)}".TrimEnd()));
    }
}
