using Inspect.Advice;
using Inspect.Station.Pictures;

namespace Inspect.Station.Slip;

/// <summary>Draws side and finger weight as a dot in the square that the rules allow and top weight on a bar next to it,
/// small enough for a slip.</summary>
internal static class SlipBalance
{
    private const double HeightPt = 66;
    private const double SizePt = 5.5;
    private const double HalfPt = 24;

    /// <summary>The picture as one row; none when a reading or a limit is missing.</summary>
    public static IEnumerable<SlipRow> Rows(BalanceDrawing? balance)
    {
        if (balance is
            {
                Side: { Oz: { } side, LimitOz: { } right },
                Finger: { Oz: { } finger, LimitOz: { } up },
                Top: { Oz: { } top, LimitOz: { } high },
            })
        {
            yield return new SlipRow(
                HeightPt, (sheet, at) => Draw(sheet, at, balance, (side.Best, finger.Best, top.Best), (right, up, high)));
        }
    }

    private static void Draw(
        SlipPaper sheet, Spot at, BalanceDrawing balance, (double Side, double Finger, double Top) oz,
        (double Side, double Finger, double Top) limit)
    {
        var middle = new Spot(at.X + 50, at.Y + (HeightPt / 2));
        var bar = middle with { X = middle.X + 68 };
        Box(sheet, middle, Pt(limit.Side), Pt(limit.Finger));
        Box(sheet, bar, 4, Pt(limit.Top));
        Line(sheet, middle, HalfPt, 0);
        Line(sheet, middle, 0, HalfPt);
        Line(sheet, bar, 6, 0);
        sheet.Disc(new Spot(middle.X + Pt(oz.Side), middle.Y - Pt(oz.Finger)), 2.2);
        sheet.Disc(bar with { Y = bar.Y - Pt(oz.Top) }, 2.2);
        Word(sheet, BalanceAxis.Finger.Positive, middle with { Y = middle.Y - HalfPt - 3 });
        Word(sheet, BalanceAxis.Finger.Negative, middle with { Y = middle.Y + HalfPt + 7 });
        Word(sheet, BalanceAxis.Side.Negative, middle with { X = middle.X - HalfPt - 10, Y = middle.Y + 2 });
        Word(sheet, BalanceAxis.Side.Positive, middle with { X = middle.X + HalfPt + 11, Y = middle.Y + 2 });
        Word(sheet, BalanceAxis.Top.Positive, bar with { Y = bar.Y - HalfPt - 5 });
        Word(sheet, BalanceAxis.Top.Negative, bar with { Y = bar.Y + HalfPt + 7 });

        double Pt(double ounces) => HalfPt * ounces / balance.SpanOz;
    }

    private static void Box(SlipPaper sheet, Spot middle, double halfWidth, double halfHeight) =>
        sheet.Frame(middle.X - halfWidth, middle.Y - halfHeight, 2 * halfWidth, 2 * halfHeight, 0.8);

    private static void Line(SlipPaper sheet, Spot middle, double across, double down) =>
        sheet.Stroke([new Spot(middle.X - across, middle.Y - down), new Spot(middle.X + across, middle.Y + down)], 0.35);

    private static void Word(SlipPaper sheet, string word, Spot at) =>
        sheet.Text(word, Weight.Medium, SizePt, at with { X = at.X - (sheet.WidthOf(word, Weight.Medium, SizePt) / 2) });
}
