namespace Inspect.Ball;

/// <summary>What one hole removes from a shape of 1 oz/in³ at any depth, without regard to other holes.</summary>
/// <remarks>Where a flat bottom lies inside the shape all over at two depths, what is between them is a cylinder. So one sum serves all
/// such depths.</remarks>
internal sealed class HoleInShape(Ellipsoid shape, Accuracy accuracy, Effort effort)
{
    private (Bore Bore, Moments Removed)? _inside;

    /// <summary>What the hole removes, about the ball's centre.</summary>
    /// <param name="bore">The same hole every time, to any depth.</param>
    public Moments Down(Bore bore)
    {
        if (bore.IsEmpty)
        {
            return default;
        }

        var isInside = bore.Bottom == HoleBottom.Flat && IsRimInside(bore);
        if (isInside && _inside is { } known)
        {
            return known.Removed + Between(known.Bore, bore);
        }

        var removed = new CrossSection(bore, shape, accuracy, effort).Sum();
        _inside = isInside ? (bore, removed) : _inside;
        return removed;
    }

    private static Moments Between(Bore upper, Bore lower)
    {
        var (from, to, square) = (upper.TipHeight, lower.TipHeight, upper.Radius * upper.Radius);
        var volume = Math.PI * square * (to - from);
        var along = ((from * from) + (from * to) + (to * to)) / 3;
        return (new Moments(1, new Vector(0, 0, (from + to) / 2), SymmetricTensor.Diagonal(square / 4, square / 4, along)) * volume)
            .FromFrame(lower.Foot, lower.Across, lower.Along, lower.Axis);
    }

    /// <summary>Whether the whole rim of the bottom lies inside the shape. Round the rim the distance is a sum of waves of one and two
    /// turns, whose heights are added.</summary>
    private bool IsRimInside(Bore bore)
    {
        var centre = (bore.Tip - shape.Centre).Over(shape.SemiAxes);
        var (x, y) = (bore.Across.Over(shape.SemiAxes) * bore.Radius, bore.Along.Over(shape.SemiAxes) * bore.Radius);
        var (xx, yy) = (x.Dot(x), y.Dot(y));
        var one = 2 * Math.Sqrt((centre.Dot(x) * centre.Dot(x)) + (centre.Dot(y) * centre.Dot(y)));
        var two = Math.Sqrt(((xx - yy) * (xx - yy) / 4) + (x.Dot(y) * x.Dot(y)));
        return centre.Dot(centre) + ((xx + yy) / 2) + one + two < 1;
    }
}
