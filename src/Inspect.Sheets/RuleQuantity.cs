namespace Inspect.Sheets;

/// <summary>The quantities that a limit rule can measure.</summary>
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
