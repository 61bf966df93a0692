namespace Inspect.Ball;

/// <summary>Nodes and weights along a ray. For a whole ray the sine crowds them at the wall,
/// for a piece of one at both its ends.</summary>
internal sealed class RayRule
{
    public RayRule(int count)
    {
        var rule = new GaussLegendre(count);
        Whole = new (double, double)[count];
        Piece = new (double, double)[count];
        for (var i = 0; i < count; i++)
        {
            var (sin, cos) = Math.SinCos(rule.Nodes[i] * Math.PI / 2);
            Whole[i] = (sin, rule.Weights[i] * cos * Math.PI / 2);
            (sin, cos) = Math.SinCos(rule.Nodes[i] * Math.PI);
            Piece[i] = ((1 - cos) / 2, rule.Weights[i] * sin * Math.PI / 2);
        }
    }

    /// <summary>Places as a share of the length, with their weights.</summary>
    public (double Place, double Weight)[] Whole { get; }

    public (double Place, double Weight)[] Piece { get; }
}
