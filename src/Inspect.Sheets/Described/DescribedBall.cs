using Inspect.Ball;

namespace Inspect.Sheets.Described;

/// <summary>A ball as somebody describes it, with every figure given: size, weight, inside, and holes in the order written.</summary>
public sealed record DescribedBall(BallDescription Ball, IReadOnlyList<DrilledHole> Holes);
