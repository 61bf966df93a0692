using Inspect.Advice;
using Inspect.Ball;
using Inspect.Rules.Rulesets;
using Inspect.Sheets;
using Inspect.Sheets.Readings;
using Inspect.Station.Pictures;
using Inspect.Station.Rulesets;
using Inspect.Station.Web;

namespace Inspect.Station.Tests.Pictures;

/// <summary>What is drawn is to scale. Source of expected places: plane geometry, worked out by hand.</summary>
public class DrawingTests
{
    private const double Radius = 4.25;

    [Fact]
    public void BallDrawing_HoleAQuarterAway_IsAnEdgeOnEllipseOnTheRim()
    {
        var hole = new MeasuredHole(0, "thumb", DrilledHole.Of(HolePlacement.AtAngle(90, 0), 0.85, 2.125), false);

        var shape = Assert.Single(BallDrawing.Of(Radius, [hole], []).Holes);

        Assert.Equal((100, 0), (Math.Round(shape.X, 6), Math.Round(shape.Y, 6)));
        Assert.Equal(10, shape.Wide, 6);
        Assert.Equal(0.5, shape.Narrow);
        Assert.Equal((50, 0), (Math.Round(shape.BottomX, 6), Math.Round(shape.BottomY, 6)));
    }

    [Fact]
    public void BallDrawing_FingerAbove_IsDrawnAboveAndForeshortened()
    {
        var hole = new MeasuredHole(0, "middle", DrilledHole.Of(HolePlacement.AtAngle(30, 90), 0.85, 1), true);

        var shape = Assert.Single(BallDrawing.Of(Radius, [hole], []).Holes);

        Assert.Equal(-50, shape.Y, 6);
        Assert.Equal(10 * Math.Cos(Math.PI / 6), shape.Narrow, 6);
        Assert.Equal(-90, shape.TurnDeg, 6);
        Assert.True(shape.IsAssumed);
    }

    /// <summary>A pitch is how far the axis misses the centre; with one to the right the bottom of a deep hole lies to the right.</summary>
    // Three inches along the surface at 45 degrees: where the name of an ordinary ring finger's hole ends.
    [Theory]
    [InlineData(3, 45, true)]
    [InlineData(3, 200, false)]
    public void BallDrawing_MarkOnAName_SendsTheNameOverItsHole(double arc, double azimuth, bool isOver)
    {
        var hole = new MeasuredHole(0, "ring", DrilledHole.Of(HolePlacement.AtArc(2.35, 74), 0.85, 2), false);
        var pin = GripFrame.DirectionOf(HolePlacement.AtArc(arc, azimuth), Radius);

        var shape = Assert.Single(BallDrawing.Of(Radius, [hole], [("pin", pin)]).Holes);

        Assert.Equal(isOver ? "middle" : "start", shape.Label.Anchor);
        Assert.Equal(isOver, shape.Label.Y < shape.Y - shape.Wide);
    }

    /// <summary>Three marks that lie close together, and two holes: no two names in one place.</summary>
    [Fact]
    public void BallDrawing_MarksCloseTogether_HaveTheirNamesApart()
    {
        MeasuredHole[] holes = [
            new(0, "middle", DrilledHole.Of(HolePlacement.AtArc(2.35, 106), 0.85, 1), false),
            new(1, "ring", DrilledHole.Of(HolePlacement.AtArc(2.35, 74), 0.85, 1), false)];
        var marks = new[] { ("pin", 2.4, 90.0), ("mass bias", 2.4, 60.0), ("mark", 2.2, 80.0) }
            .Select(mark => (mark.Item1, GripFrame.DirectionOf(HolePlacement.AtArc(mark.Item2, mark.Item3), Radius)));

        var drawing = BallDrawing.Of(Radius, holes, marks);

        var boxes = drawing.Holes.Select(hole => Box(hole.Label, hole.Name))
            .Concat(drawing.Marks.Select(mark => Box(mark.Label, mark.Name))).ToList();
        Assert.All(boxes.Index(), one => Assert.DoesNotContain(boxes.Skip(one.Index + 1), other =>
            one.Item.Left < other.Right && other.Left < one.Item.Right && Math.Abs(one.Item.Y - other.Y) < 9));

        static (double Left, double Right, double Y) Box((double X, double Y, string Anchor) at, string name)
        {
            var wide = Svg.Width(name, Svg.LabelSize);
            var left = at.X - (at.Anchor == "end" ? wide : at.Anchor == "middle" ? wide / 2 : 0);
            return (left, left + wide, at.Y);
        }
    }

    [Fact]
    public void BallDrawing_PitchedHole_EndsOnTheSideItLeansTo()
    {
        var hole = DrilledHole.Of(HolePlacement.AtAngle(0, 0), 0.85, Math.Sqrt((Radius * Radius) - 0.25), pitchSouthIn: 0.5);
        var shape = Assert.Single(BallDrawing.Of(Radius, [new MeasuredHole(0, "x", hole, false)], []).Holes);

        Assert.Equal(0.5, GripFrame.BottomOf(hole, Radius).Length, 9);
        Assert.True(shape.BottomX > 10);
    }

    [Fact]
    public void BallDrawing_TwoHoles_TellTheWallBetweenThem()
    {
        MeasuredHole[] holes =
        [
            new(0, "middle", DrilledHole.Of(HolePlacement.AtAngle(0, 0), 1, 1), false),
            new(1, "ring", DrilledHole.Of(HolePlacement.AtAngle(90, 0), 1, 1), false),
        ];

        var drawing = BallDrawing.Of(Radius, holes, [("pin", Vector.UnitX)]);

        Assert.Equal((Math.Sqrt(2) * 3.25) - 1, drawing.ThinnestWallIn!.Value, 9);
        Assert.Equal("3.60 in to ring", drawing.Rows[0].Wall);
        Assert.Equal(100, Assert.Single(drawing.Marks).X);
    }

    [Theory]
    [InlineData("3.25 oz", "3.25", true)]
    [InlineData("-3 oz", "-3", false)]
    public void BalanceDrawing_Reading_StandsWhereItIsAgainstTheEditionsLimit(string side, string ounces, bool isOutside)
    {
        var sheet = new Sheet
        {
            Play = new DateOnly(2027, 3, 14),
            Weights = new Weights(
                Read("15 lb", Quantity.Weight), Read("1 oz", Quantity.Imbalance), Read(side, Quantity.Imbalance), null, null),
            Holes = [new Hole { Kind = HoleKind.Grip, Digit = Digit.Thumb }],
        };

        var drawing = BalanceDrawing.Of(sheet, Edition());

        Assert.Equal(isOutside, drawing.Side.IsOutside);
        Assert.Equal(double.Parse(ounces, System.Globalization.CultureInfo.InvariantCulture), drawing.Side.Oz!.Value.Best, 9);
        Assert.Equal((3, "at most 3 oz"), (Math.Round(drawing.Side.LimitOz!.Value, 9), drawing.Side.Limit));
        Assert.Null(drawing.Finger.Oz);
        Assert.InRange(drawing.At(drawing.Side.Oz.Value.Best), -100, 100);
    }

    [Fact]
    public void CurveDrawing_Chart_MarksTheDepthsAndStaysInItsBox()
    {
        var ball = BallDescription.Of(2 * Radius, 240, new Interior.Uniform());
        DrilledHole[] holes = [DrilledHole.Of(HolePlacement.AtAngle(90, 0), 31.0 / 32, 2)];
        var chart = DepthChartOf.Compute(ball, holes, 0, 4.5);

        var curve = CurveDrawing.OfRg(chart);

        Assert.Equal(["centre", "legal", "now", "turn"], curve.Marks.Select(mark => mark.Kind).Order(StringComparer.Ordinal));
        Assert.Equal(2, curve.Marks.Single(mark => mark.Kind == "now").DepthIn);
        Assert.InRange(curve.Marks.Single(mark => mark.Kind == "turn").DepthIn, 1.5, 1.6);
        Assert.All(curve.Ticks, tick => Assert.InRange(tick.Y, CurveDrawing.Top - 1e-9, CurveDrawing.Bottom + 1e-9));
        Assert.InRange(curve.Ticks.Count, 3, 8);
        Assert.Contains(curve.Ticks, tick => tick.Words == "0");
    }

    private static Edition Edition() => RulesetBook.Open(null, [])!.Editions.TryFind("us-national/2020-08-01", out var edition)
        ? edition
        : throw new InvalidOperationException("The edition is not built in.");

    private static Reading Read(string text, Quantity quantity) => ReadingParser.Parse(text, quantity).Reading!;
}
