namespace Inspect.Ball;

/// <summary>What an estimate is based on, which decides what may be shown of it.</summary>
public enum EstimateBasis
{
    /// <summary>No declared figures: only changes may be shown, as an illustration.</summary>
    Illustration,

    /// <summary>Declared figures: changes may be shown, and values as an estimate with their tolerance of about 3 %.</summary>
    DeclaredFigures,

    /// <summary>The layers are given: this is a described body, not a real ball.</summary>
    DescribedLayers,
}
