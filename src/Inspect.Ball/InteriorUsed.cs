namespace Inspect.Ball;

/// <summary>The kind of inside that an answer was computed with.</summary>
public enum InteriorUsed
{
    /// <summary>One density throughout.</summary>
    Uniform,

    /// <summary>Concentric layers, each with its density.</summary>
    Layers,

    /// <summary>A cover, a filler and a core fitted to declared radii of gyration.</summary>
    Calibrated,
}
