namespace Inspect.Ball;

/// <summary>The shape of a hole's bottom.</summary>
public enum HoleBottom
{
    /// <summary>A plane across the hole's axis.</summary>
    Flat,

    /// <summary>The cone of a twist drill, 118 degrees across. The depth is measured to its tip.</summary>
    Cone118,

    /// <summary>Half a sphere with the hole's diameter. The depth is measured to its lowest point.</summary>
    Hemisphere,
}
