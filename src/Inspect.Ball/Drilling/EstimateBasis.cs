namespace Inspect.Ball;

/// <summary>What an estimate rests on, and so what may be shown of it.</summary>
public enum EstimateBasis
{
    /// <summary>No declared figures: only changes, and those as an illustration.</summary>
    Illustration,

    /// <summary>Declared figures: changes, and values as an estimate that carries the declared figures' tolerance of about 3 %.</summary>
    DeclaredFigures,

    /// <summary>The layers are given: a described body, not a real ball.</summary>
    DescribedLayers,
}
