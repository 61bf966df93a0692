namespace Inspect.Ball;

/// <summary>The core that has the declared figures, or the reason why there is no acceptable one.</summary>
public sealed record CoreFit(CalibratedCore? Core, string? Reason);
