namespace Inspect.Ball;

/// <summary>How many rays and nodes are used to add up a removal.</summary>
/// <param name="SmoothAngles">Rays of a bore that meets no boundary.</param>
/// <param name="BrokenAngles">Rays of a bore that meets the surface of a density step.</param>
/// <param name="MetAngles">Rays of a bore that runs into another bore.</param>
/// <param name="Rule">Nodes along a piece of a ray.</param>
internal sealed record Fineness(int SmoothAngles, int BrokenAngles, int MetAngles, RayRule Rule)
{
    /// <summary>For figures: a millionth of the mass that a hole removes, at most ten times that where holes meet.</summary>
    public static readonly Fineness Figures = new(24, 128, 768, new RayRule(12));

    /// <summary>For curves and searches: a hundred-thousandth of an inch of RG, much less than a drawing can show.</summary>
    public static readonly Fineness Curves = new(16, 32, 48, new RayRule(8));
}
