namespace Inspect.Station.Slip;

/// <summary>Draws the border, which distinguishes a fail and a hold from a pass even on a torn or folded piece.</summary>
/// <remarks>
/// A pass has the fine double line of a certificate. A fail is framed in black with its word along all four sides, a hold in stripes with
/// its word on plates. The words are spaced so that each half of a page shows several whole ones.
/// </remarks>
internal static class SlipBorder
{
    /// <summary>How thick the band of a fail or a hold is, in points; a pass leaves the same room.</summary>
    public const double BandPt = 9;

    private const double WordSize = 7;
    private const double WordEvery = 66;
    private const double Stripe = 4;

    /// <summary>Draws the border just inside the rectangle.</summary>
    public static void Draw(SlipPaper paper, SlipOutcome outcome, double x, double y, double width, double height)
    {
        switch (outcome)
        {
            case SlipOutcome.Pass:
                paper.Frame(x, y, width, height, 1.6);
                paper.Frame(x + 3.2, y + 3.2, width - 6.4, height - 6.4, 0.6);
                return;
            case SlipOutcome.Fail:
                paper.Frame(x, y, width, height, BandPt);
                break;
            default:
                Stripes(paper, x, y, width, height);
                break;
        }

        foreach (var (centre, degrees) in Places(x, y, width, height))
        {
            Word(paper, outcome, centre, degrees);
        }
    }

    private static void Word(SlipPaper paper, SlipOutcome outcome, Spot centre, double degrees)
    {
        var word = OutcomeMark.WordOf(outcome);
        if (outcome == SlipOutcome.Fail)
        {
            paper.TurnedText(word, Weight.Bold, WordSize, centre, degrees, Ink.White);
            return;
        }

        var along = paper.WidthOf(word, Weight.Bold, WordSize) + 6;
        var across = BandPt - 1.6;
        var (plateWidth, plateHeight) = degrees == 0 ? (along, across) : (across, along);
        paper.Rectangle(centre.X - (plateWidth / 2), centre.Y - (plateHeight / 2), plateWidth, plateHeight, Ink.White);
        paper.TurnedText(word, Weight.Bold, WordSize, centre, degrees, Ink.Black);
    }

    // An even number of words a side leaves the middle, where paper is folded, between two of them.
    private static IEnumerable<(Spot Centre, double Degrees)> Places(double x, double y, double width, double height)
    {
        var across = EvenCount(width);
        for (var i = 0; i < across; i++)
        {
            var centre = x + ((i + 0.5) * width / across);
            yield return (new Spot(centre, y + (BandPt / 2)), 0);
            yield return (new Spot(centre, y + height - (BandPt / 2)), 0);
        }

        var down = EvenCount(height);
        for (var i = 0; i < down; i++)
        {
            var centre = y + ((i + 0.5) * height / down);
            yield return (new Spot(x + (BandPt / 2), centre), -90);
            yield return (new Spot(x + width - (BandPt / 2), centre), 90);
        }
    }

    private static int EvenCount(double length) => 2 * Math.Max(1, (int)(length / (2 * WordEvery)));

    private static void Stripes(SlipPaper paper, double x, double y, double width, double height)
    {
        for (var at = x; at + Stripe + BandPt <= x + width; at += 2 * Stripe)
        {
            Slant(paper, new Spot(at, y), BandPt, BandPt, Stripe, 0);
            Slant(paper, new Spot(at, y + height - BandPt), BandPt, BandPt, Stripe, 0);
        }

        for (var at = y; at + Stripe + BandPt <= y + height; at += 2 * Stripe)
        {
            Slant(paper, new Spot(x, at), BandPt, BandPt, 0, Stripe);
            Slant(paper, new Spot(x + width - BandPt, at), BandPt, BandPt, 0, Stripe);
        }

        paper.Frame(x, y, width, height, 0.8);
        paper.Frame(x + BandPt - 0.8, y + BandPt - 0.8, width - (2 * BandPt) + 1.6, height - (2 * BandPt) + 1.6, 0.8);
    }

    // A stripe rising to the right within a square of the band, as thick along the band as it is told.
    private static void Slant(SlipPaper paper, Spot corner, double width, double height, double alongX, double alongY) =>
        paper.Polygon(
        [
            new Spot(corner.X, corner.Y + height),
            new Spot(corner.X + alongX, corner.Y + height + alongY),
            new Spot(corner.X + width + alongX, corner.Y + alongY),
            new Spot(corner.X + width, corner.Y),
        ]);
}
