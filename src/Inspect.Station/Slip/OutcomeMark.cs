namespace Inspect.Station.Slip;

/// <summary>The word and the shape of each outcome, on paper as on screen: a disc with a tick, a square with a cross, a triangle with
/// a bar.</summary>
internal static class OutcomeMark
{
    /// <summary>The word at the head of a slip.</summary>
    public static string WordOf(SlipOutcome outcome) => outcome switch
    {
        SlipOutcome.Pass => "PASS",
        SlipOutcome.Fail => "FAIL",
        _ => "HOLD",
    };

    /// <summary>Draws the shape into a square of the given size and top left corner.</summary>
    public static void Draw(SlipPaper paper, SlipOutcome outcome, Spot topLeft, double size)
    {
        Spot At(double x, double y) => new(topLeft.X + (x * size), topLeft.Y + (y * size));
        switch (outcome)
        {
            case SlipOutcome.Pass:
                paper.Disc(At(0.5, 0.5), size / 2);
                paper.Stroke([At(0.25, 0.52), At(0.43, 0.70), At(0.75, 0.32)], size * 0.13, Ink.White);
                break;
            case SlipOutcome.Fail:
                paper.Rectangle(topLeft.X, topLeft.Y, size, size);
                paper.Stroke([At(0.22, 0.22), At(0.78, 0.78)], size * 0.15, Ink.White);
                paper.Stroke([At(0.78, 0.22), At(0.22, 0.78)], size * 0.15, Ink.White);
                break;
            default:
                paper.Polygon([At(0.5, 0.02), At(1, 0.96), At(0, 0.96)]);
                paper.Stroke([At(0.5, 0.34), At(0.5, 0.66)], size * 0.13, Ink.White);
                paper.Stroke([At(0.5, 0.74), At(0.5, 0.86)], size * 0.13, Ink.White);
                break;
        }
    }
}
