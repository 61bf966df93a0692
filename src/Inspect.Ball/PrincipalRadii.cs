namespace Inspect.Ball;

/// <summary>The three principal radii of gyration in inches, smallest first.</summary>
public readonly record struct PrincipalRadii(double LowIn, double MiddleIn, double HighIn);
