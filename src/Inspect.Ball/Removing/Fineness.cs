namespace Inspect.Ball;

/// <summary>How many rays and nodes a removal is added up with.</summary>
/// <param name="SmoothAngles">Rays of a bore that meets no boundary.</param>
/// <param name="BrokenAngles">Rays of one that meets the surface of a density step.</param>
/// <param name="MetAngles">Rays of one that runs into another bore.</param>
/// <param name="Rule">Nodes along a piece of a ray.</param>
/// <param name="MetRule">The same where the bore runs into another.</param>
internal sealed record Fineness(int SmoothAngles, int BrokenAngles, int MetAngles, GaussLegendre Rule, GaussLegendre MetRule)
{
    private static readonly GaussLegendre Twelve = new(12);

    /// <summary>For figures: a millionth of the mass a hole removes, ten times that where holes meet.</summary>
    public static readonly Fineness Figures = new(24, 128, 256, Twelve, new GaussLegendre(24));

    /// <summary>For curves: a hundred-thousandth of an inch of RG is far below what a drawing shows.</summary>
    public static readonly Fineness Curves = new(16, 32, 48, new GaussLegendre(8), Twelve);
}
