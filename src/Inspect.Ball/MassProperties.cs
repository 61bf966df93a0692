namespace Inspect.Ball;

/// <summary>The mass properties of a described, drilled ball, in inches and ounces, in the pin frame about the ball's centre.</summary>
public sealed record MassProperties
{
    internal MassProperties(IReadOnlyList<double> removedOz, in Moments left, InteriorUsed used, string? interiorReason)
    {
        var (massOz, first, second) = left;
        RemovedOz = removedOz;
        MassOz = massOz;
        MomentOzIn = first;
        CgIn = first / massOz;
        InertiaAtCentreOzIn2 = second.TraceLessSelf();
        InertiaAtCgOzIn2 = (second - (SymmetricTensor.Square(CgIn) * massOz)).TraceLessSelf();
        RgIn = Gyration(InertiaAtCgOzIn2, massOz);
        RgAboutCentreIn = Gyration(InertiaAtCentreOzIn2, massOz);
        var (low, middle, high) = InertiaAtCgOzIn2.Principal();
        PrincipalRgIn = new PrincipalRadii(Math.Sqrt(low / massOz), Math.Sqrt(middle / massOz), Math.Sqrt(high / massOz));
        Interior = used;
        InteriorReason = interiorReason;
    }

    /// <summary>What each hole removed that no earlier hole had, in the order of the holes. Their sum is all that was removed.</summary>
    public IReadOnlyList<double> RemovedOz { get; }

    /// <summary>The weight of the drilled ball, in ounces.</summary>
    public double MassOz { get; }

    /// <summary>The first moment of the drilled ball about its centre: what a balance scale shows, times the scale's constant.</summary>
    public Vector MomentOzIn { get; }

    /// <summary>The centre of gravity in inches from the ball's centre.</summary>
    public Vector CgIn { get; }

    /// <summary>Inertia about axes through the ball's centre.</summary>
    public SymmetricTensor InertiaAtCentreOzIn2 { get; }

    /// <summary>Inertia about axes through the centre of gravity.</summary>
    public SymmetricTensor InertiaAtCgOzIn2 { get; }

    /// <summary>Radius of gyration about the frame's x, y and z direction, through the centre of gravity.</summary>
    public Vector RgIn { get; }

    /// <summary>The same about axes through the ball's centre, as a swing that grips the ball by its surface would measure it.</summary>
    public Vector RgAboutCentreIn { get; }

    /// <summary>The principal radii of gyration in inches, through the centre of gravity.</summary>
    public PrincipalRadii PrincipalRgIn { get; }

    /// <summary>Highest less lowest principal radius of gyration, in inches.</summary>
    public double TotalDifferentialIn => PrincipalRgIn.HighIn - PrincipalRgIn.LowIn;

    /// <summary>Highest less middle radius of gyration; zero for a symmetric ball.</summary>
    public double IntermediateDifferentialIn => PrincipalRgIn.HighIn - PrincipalRgIn.MiddleIn;

    /// <summary>The kind of inside that the holes were drilled into.</summary>
    public InteriorUsed Interior { get; }

    /// <summary>Why the inside is not the one described; null when it is.</summary>
    public string? InteriorReason { get; }

    private static Vector Gyration(SymmetricTensor inertia, double massOz) =>
        new(Math.Sqrt(inertia.XX / massOz), Math.Sqrt(inertia.YY / massOz), Math.Sqrt(inertia.ZZ / massOz));
}
