namespace Inspect.Ball;

/// <summary>Where a measured depth begins.</summary>
public enum DepthTo
{
    /// <summary>The depth begins where the hole's axis meets the ball's surface.</summary>
    Axis,

    /// <summary>The depth begins at a gauge lying across the rim, which is below the surface by R − √(R² − a²).</summary>
    Rim,
}
