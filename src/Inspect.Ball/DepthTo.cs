namespace Inspect.Ball;

/// <summary>Where the top end of a measured depth lies.</summary>
public enum DepthTo
{
    /// <summary>The depth starts where the hole's axis pierces the ball's surface.</summary>
    Axis,

    /// <summary>The depth starts at a gauge lying across the rim, below the surface by R − √(R² − a²).</summary>
    Rim,
}
