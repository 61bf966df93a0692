namespace Inspect.Ball;

/// <summary>The shape in which a hole ends.</summary>
public enum HoleBottom
{
    /// <summary>A plane across the hole's axis.</summary>
    Flat,

    /// <summary>The cone of a twist drill, 118 degrees across; the depth runs to its tip.</summary>
    Cone118,

    /// <summary>Half a sphere of the hole's own diameter; the depth runs to its lowest point.</summary>
    Hemisphere,
}
