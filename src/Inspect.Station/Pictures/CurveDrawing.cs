using System.Globalization;
using Inspect.Ball;
using Inspect.Station.Web;

namespace Inspect.Station.Pictures;

/// <summary>A depth marked on a curve.</summary>
/// <param name="DepthIn">Where.</param>
/// <param name="Kind">Its style: now, legal, turn or centre.</param>
/// <param name="Words">What it is.</param>
public sealed record DepthMark(double DepthIn, string Kind, string Words);

/// <summary>One figure against the depth of a hole, 0 to 4 1/2 in: a band over the plausible cores, and a line for
/// the most likely one.</summary>
/// <remarks>Drawn in a box of 360 by 190 units.</remarks>
public sealed record CurveDrawing
{
    public const double Width = 360;
    public const double Height = 190;
    public const double Left = 54;
    public const double Right = 352;
    public const double Top = 30;
    public const double Bottom = 162;
    private const double DeepestIn = 4.5;
    private const double ThousandthsPerInch = 1000;

    private static readonly double[] Steps = [1, 2, 5, 10, 20, 50, 100];

    /// <summary>What is drawn, in words.</summary>
    public required string Title { get; init; }

    public required string Band { get; init; }

    public required string Best { get; init; }

    /// <summary>Heights of the lines across, with the thousandths of an inch that they mark.</summary>
    public required IReadOnlyList<(double Y, string Words)> Ticks { get; init; }

    public required IReadOnlyList<DepthMark> Marks { get; init; }

    public static double XOf(double depthIn) => Left + ((Right - Left) * Math.Clamp(depthIn, 0, DeepestIn) / DeepestIn);

    /// <summary>The change of RG against the ball without the hole.</summary>
    public static CurveDrawing OfRg(DepthChart chart) => Draw(chart, "Change of the low RG", point => point.LowRgChangeIn);

    /// <summary>The change of the total differential against the ball without the hole.</summary>
    public static CurveDrawing OfDifferential(DepthChart chart) =>
        Draw(chart, "Change of the differential", point => point.TotalDifferentialChangeIn);

    private static CurveDrawing Draw(DepthChart chart, string title, Func<DepthChartPoint, Estimate> figure)
    {
        ArgumentNullException.ThrowIfNull(chart);
        var values = chart.Points.Select(point => (point.DepthIn, Value: figure(point))).ToList();
        var low = ThousandthsPerInch * Math.Min(0, values.Min(point => point.Value.Low));
        var high = ThousandthsPerInch * Math.Max(0, values.Max(point => point.Value.High));
        var step = Steps.First(one => (high - low) / one <= 5 || one == Steps[^1]);
        var (bottom, top) = (Math.Floor((low / step) - 0.1) * step, Math.Ceiling((high / step) + 0.1) * step);
        return new CurveDrawing
        {
            Title = title,
            Band = Svg.Path(
                [.. values.Select(point => At(point.DepthIn, point.Value.High)), .. Enumerable.Reverse(values)
                .Select(point => At(point.DepthIn, point.Value.Low))], isClosed: true),
            Best = Svg.Path(values.Select(point => At(point.DepthIn, point.Value.Best))),
            Ticks = [.. Enumerable.Range(0, (int)Math.Round((top - bottom) / step) + 1).Select(i => bottom + (i * step))
                .Select(value => (Y(value), (value / ThousandthsPerInch).ToString("+0.000;−0.000;0", CultureInfo.InvariantCulture)))],
            Marks = MarksOf(chart),
        };

        (double X, double Y) At(double depth, double inches) => (XOf(depth), Y(inches * ThousandthsPerInch));

        double Y(double thousandths) => Bottom - ((Bottom - Top) * (thousandths - bottom) / (top - bottom));
    }

    private static List<DepthMark> MarksOf(DepthChart chart)
    {
        var marks = new List<DepthMark>
        {
            new(chart.TurningDepthIn, "turn", "R − RG"),
            new(chart.CentreDepthIn, "centre", "R"),
            new(chart.PresentDepthIn, "now", "now"),
        };
        if (chart.LegalDepthIn is { } legal)
        {
            marks.Add(new DepthMark(legal, "legal", "limit"));
        }

        return marks;
    }
}
