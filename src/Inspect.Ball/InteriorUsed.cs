namespace Inspect.Ball;

/// <summary>Which kind of inside an answer was computed with.</summary>
public enum InteriorUsed
{
    Uniform,
    Layers,
    Calibrated,
}
