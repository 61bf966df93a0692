namespace Inspect.Sheets;

/// <summary>What a limit rule measures.</summary>
public enum RuleQuantity
{
    Gross,
    TopBottom,
    LeftRight,
    FingerThumb,
    AnyHalves,
    Diameters,
    Circumference,
    Hardness,
    Made,
    HoleDiameter,
    HoleDepth,
    SurfaceRoughness,
}
