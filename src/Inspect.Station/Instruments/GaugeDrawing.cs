using Inspect.Metrology;
using Inspect.Station.Web;

namespace Inspect.Station.Instruments;

/// <summary>The drawing of a gauge study: every reading above its part, a line through each inspector's averages, and
/// the variation as bars.</summary>
/// <remarks>The readings have a box of 360 by 214 units or more, the bars one of 360 by 124, so that letters can be read on a phone.
/// Inspectors differ by shape and dash, and then by colour.</remarks>
public sealed record GaugeDrawing
{
    public const double Width = 360;
    private const double LegendTop = 204;
    private const double LegendRow = 16;
    private const int LegendInARow = 3;
    private const double LegendRoom = 106;
    private const double PartRoom = 44;
    private const double Gap = 6;
    private const double Left = 40;
    private const double Right = 354;
    private const double Top = 22;
    private const double Bottom = 172;
    private const double BarLeft = 134;
    private const double BarRight = 306;

    private readonly GaugeTable _table;
    private readonly double _low;
    private readonly double _high;

    public GaugeDrawing(GaugeTable table)
    {
        _table = table;
        var (low, high) = (table.All.Min(), table.All.Max());
        var room = high > low ? (high - low) * 0.06 : Math.Max(1e-6, Math.Abs(high) * 0.01);
        (_low, _high) = (low - room, high + room);
    }

    /// <summary>The grid lines: height and value.</summary>
    public IEnumerable<(double Y, double Value)> Ticks
    {
        get
        {
            var rough = (_high - _low) / 5;
            var decade = Math.Pow(10, Math.Floor(Math.Log10(rough)));
            var step = decade * (rough / decade <= 2 ? 2 : rough / decade <= 5 ? 5 : 10);
            for (var i = Math.Ceiling(_low / step); i * step <= _high; i++)
            {
                yield return (Y(i * step), i * step);
            }
        }
    }

    /// <summary>The names of the parts and where they are. Long ones are shortened, and those that would touch are left out.</summary>
    public IEnumerable<(double X, string Name)> Parts => Svg.Apart(
        _table.Parts.Select((name, i) => (X(i), Svg.Cut(name, Svg.LabelSize, Math.Max(PartRoom, Spacing - Gap)))), 0, Width);

    /// <summary>The legend: where each inspector's mark is, and the name, shortened where it is too long.</summary>
    public IEnumerable<(double X, double Y, string Name)> Legend => _table.Inspectors.Index().Select(inspector => (
        Left + 6 + (LegendRoom * (inspector.Index % LegendInARow)), LegendTop + (LegendRow * (inspector.Index / LegendInARow)),
        Svg.Cut(inspector.Item, Svg.LabelSize, LegendRoom - 20)));

    /// <summary>The height of the box, with as many rows as the legend needs.</summary>
    public double Height => LegendTop + 10 + (LegendRow * ((_table.Inspectors.Count - 1) / LegendInARow));

    /// <summary>The line through one inspector's averages.</summary>
    public string Averages(int inspector) => Svg.Path(Enumerable.Range(0, _table.Parts.Count)
        .Select(part => (X(part) + Aside(inspector), Y(_table.Cell(part, inspector).Average()))));

    /// <summary>The marks of one inspector's readings.</summary>
    public string Marks(int inspector) => string.Concat(Enumerable.Range(0, _table.Parts.Count)
        .SelectMany(part => _table.Cell(part, inspector).Select(value => Mark(inspector, X(part) + Aside(inspector), Y(value)))));

    /// <summary>A mark for the legend.</summary>
    public static string Mark(int inspector, double x, double y) => (inspector % 5) switch
    {
        0 => $"M{Svg.N(x - 3)} {Svg.N(y)}a3 3 0 1 0 6 0a3 3 0 1 0 -6 0",
        1 => $"M{Svg.N(x - 3)} {Svg.N(y - 3)}h6v6h-6z",
        2 => $"M{Svg.N(x)} {Svg.N(y - 4)}l4 7h-8z",
        3 => $"M{Svg.N(x)} {Svg.N(y - 4)}l4 4l-4 4l-4 -4z",
        _ => $"M{Svg.N(x - 3)} {Svg.N(y - 3)}l6 6m0 -6l-6 6",
    };

    /// <summary>The bars of the variation, in per cent of the study variation.</summary>
    public static IEnumerable<(double Y, double Width, string Name, double Percent)> Bars(GaugeResult result)
    {
        (string Name, double Deviation)[] bars =
        [
            ("Repeatability", result.Repeatability), ("Between inspectors", result.Reproducibility), ("Both, the gauge", result.Gauge),
            ("Between balls", result.Part),
        ];
        return bars.Index().Select(bar =>
            (8 + (bar.Index * 28.0), (BarRight - BarLeft) * result.PercentOf(bar.Item.Deviation) / 100, bar.Item.Name,
                result.PercentOf(bar.Item.Deviation)));
    }

    public static double BarStart => BarLeft;

    /// <summary>The position of 30 %; a gauge above it is poor.</summary>
    public static double PoorX => BarLeft + ((BarRight - BarLeft) * 0.3);

    public static double PlotLeft => Left;

    public static double PlotRight => Right;

    public static double PlotBottom => Bottom;

    private double Spacing => (Right - Left - 24) / Math.Max(1, _table.Parts.Count - 1);

    private double X(int part) => Left + 12 + (Spacing * part);

    private double Y(double value) => Bottom - ((Bottom - Top) * (value - _low) / (_high - _low));

    // Side by side, so that equal readings of two inspectors do not hide each other.
    private double Aside(int inspector) =>
        (inspector - ((_table.Inspectors.Count - 1) / 2.0)) * Math.Min(6, 200.0 / _table.Parts.Count / _table.Inspectors.Count);
}
