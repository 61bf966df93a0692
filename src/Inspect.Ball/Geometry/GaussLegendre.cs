namespace Inspect.Ball;

/// <summary>The Gauss-Legendre rule on 0 to 1, exact for polynomials of degree 2n − 1.</summary>
internal sealed class GaussLegendre
{
    public GaussLegendre(int count)
    {
        Nodes = new double[count];
        Weights = new double[count];
        for (var i = 0; i < count; i++)
        {
            (Nodes[i], Weights[i]) = NodeAndWeight(count, i);
        }
    }

    public double[] Nodes { get; }

    public double[] Weights { get; }

    /// <summary>Newton's rule on the Legendre polynomial, started at the usual cosine; five steps reach full precision.</summary>
    private static (double Node, double Weight) NodeAndWeight(int count, int index)
    {
        var x = Math.Cos(Math.PI * (index + 0.75) / (count + 0.5));
        var slope = 1.0;
        for (var step = 0; step < 8; step++)
        {
            var (before, value) = (1.0, x);
            for (var k = 2; k <= count; k++)
            {
                (before, value) = (value, ((((2 * k) - 1) * x * value) - ((k - 1) * before)) / k);
            }

            slope = count * ((x * value) - before) / ((x * x) - 1);
            x -= value / slope;
        }

        return ((1 - x) / 2, 1 / ((1 - (x * x)) * slope * slope));
    }
}
