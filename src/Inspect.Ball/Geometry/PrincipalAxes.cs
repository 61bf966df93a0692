namespace Inspect.Ball;

/// <summary>The principal values of a symmetric tensor, smallest first, each with its unit direction (either sign).</summary>
public sealed record PrincipalAxes(double Low, double Middle, double High, Vector LowAxis, Vector MiddleAxis, Vector HighAxis);
