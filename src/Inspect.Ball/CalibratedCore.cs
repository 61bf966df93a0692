namespace Inspect.Ball;

/// <summary>A cover, a filler and an ellipsoid core that together have the declared weight and radii of gyration. One bracketed root gives
/// the filler's density.</summary>
public sealed record CalibratedCore
{
    /// <summary>The governing body's cap on the density of any component: 3.80 g/mL (reprint of the
    /// specification text of 23 March 2005).</summary>
    private const double DensestGPerCm3 = 3.80;

    /// <summary>The least density that is accepted for a filler; a judgement, no source.</summary>
    private const double LightestFillerGPerCm3 = 0.55;

    private const int ScanSteps = 64;

    private CalibratedCore(Density filler, Density core, Vector semiAxesIn, double offsetIn, DensityStep[] steps)
    {
        Filler = filler;
        Core = core;
        SemiAxesIn = semiAxesIn;
        OffsetIn = offsetIn;
        Steps = steps;
    }

    /// <summary>The density between core and cover.</summary>
    public Density Filler { get; }

    /// <summary>The density of the core, at most 3.80 g/cm³.</summary>
    public Density Core { get; }

    /// <summary>Semi-axes of the core along the high (x), middle (y) and low (z) axis.</summary>
    public Vector SemiAxesIn { get; }

    /// <summary>How far the core's centre is from the ball's centre, towards the pin.</summary>
    public double OffsetIn { get; }

    internal DensityStep[] Steps { get; }

    /// <summary>Fits the core, or says in one sentence why there is no acceptable one.</summary>
    public static CoreFit Fit(double radiusIn, double grossOz, Interior.Calibrated declared)
    {
        ArgumentNullException.ThrowIfNull(declared);
        var fit = new Trial(radiusIn, grossOz, declared);
        if (fit.Filler() is not { } filler)
        {
            return new CoreFit(
                null,
                "No core in a believable filler within this cover gives the declared weight and radii of gyration; "
                + "the ball may be nearly even or its cover heavy.");
        }

        var core = fit.At(filler);
        if (!FitsInside(core.SemiAxesIn, core.OffsetIn, radiusIn - declared.CoverIn))
        {
            return new CoreFit(null, "The core that gives the declared figures would stick out into the cover.");
        }

        return core.Core.GPerCm3 > DensestGPerCm3
            ? new CoreFit(
                null,
                $"The core that gives the declared figures would be denser than the {FaultList.Text(DensestGPerCm3)} g/cm3 "
                + "that the specification allows.")
            : new CoreFit(core, null);
    }

    /// <summary>Whether the ellipsoid, shifted along its z axis, lies within a sphere about the origin.</summary>
    /// <remarks>Each section through the z axis is an ellipse. Its farthest point is found along its parameter, where the squared
    /// distance is quadratic.</remarks>
    private static bool FitsInside(Vector semi, double offset, double radius)
    {
        var widest = Math.Max(semi.X, semi.Y);
        var a = (semi.Z * semi.Z) - (widest * widest);
        var b = Math.Abs(offset) * semi.Z;
        var farthest = Math.Max(semi.Z + Math.Abs(offset), 0);
        var square = farthest * farthest;
        if (a < 0 && -b / a is var turn && turn <= 1)
        {
            square = Math.Max(square, (widest * widest) + (offset * offset) - (b * b / a));
        }

        return square <= radius * radius;
    }

    /// <summary>The equations of the fit, as functions of the filler's density in oz/in³.</summary>
    private sealed class Trial(double radius, double weight, Interior.Calibrated declared)
    {
        private readonly double _inside = radius - declared.CoverIn;
        private readonly double _cover = declared.CoverDensity.OzPerIn3;

        /// <summary>The filler at which the core has the wanted volume: the lightest acceptable
        /// one, or null when no root is bracketed.</summary>
        public double? Filler()
        {
            const double lightest = LightestFillerGPerCm3 * Density.OzPerIn3InOneGPerCm3;
            var heaviest = _cover + ((weight - (_cover * Volume(radius))) / Volume(_inside));
            (double Filler, double Excess)? before = null;
            for (var i = 0; i <= ScanSteps; i++)
            {
                var filler = lightest + ((heaviest - lightest) * i / ScanSteps);
                var excess = VolumeExcess(filler);
                if (before is { } last && !double.IsNaN(excess) && Math.Sign(last.Excess) != Math.Sign(excess))
                {
                    return Roots.Between(VolumeExcess, last, (filler, excess), 1e-15);
                }

                before = double.IsNaN(excess) ? null : (filler, excess);
            }

            return null;
        }

        public CalibratedCore At(double filler)
        {
            var (high, middle, low) = Squares(filler);
            var semi = new Vector(Math.Sqrt(high), Math.Sqrt(middle), Math.Sqrt(low));
            var mass = CoreMass(filler);
            var core = filler + (mass / declared.CoreVolumeIn3);
            var offset = declared.TopMomentOzIn / mass;
            DensityStep[] steps =
            [
                DensityStep.Ball(_cover, radius),
                DensityStep.Ball(filler - _cover, _inside),
                new DensityStep(core - filler, new Ellipsoid(offset * Vector.UnitZ, semi)),
            ];
            return new CalibratedCore(Density.FromOzPerIn3(filler), Density.FromOzPerIn3(core), semi, offset, steps);
        }

        /// <summary>The core's volume less the wanted one; not a number when there is no such core.</summary>
        private double VolumeExcess(double filler)
        {
            var (high, middle, low) = Squares(filler);
            return CoreMass(filler) > 0 && high > 0 && middle > 0 && low > 0
                ? (4 * Math.PI / 3 * Math.Sqrt(high * middle * low)) - declared.CoreVolumeIn3
                : double.NaN;
        }

        /// <summary>The core's weight less that of the filler it displaces.</summary>
        private double CoreMass(double filler) => weight - (_cover * Volume(radius)) - ((filler - _cover) * Volume(_inside));

        /// <summary>The squares of the semi-axes along the high, middle and low axis.</summary>
        private (double High, double Middle, double Low) Squares(double filler)
        {
            var mass = CoreMass(filler);
            var shells = 0.4 * ((_cover * Volume(radius) * radius * radius) + ((filler - _cover) * Volume(_inside) * _inside * _inside));

            // The core's own inertia about its centre. An offset along the low axis adds only to the other two.
            var shift = declared.TopMomentOzIn * declared.TopMomentOzIn * ((1 / mass) - (1 / weight));
            var high = (weight * declared.HighRgIn * declared.HighRgIn) - shells - shift;
            var middle = (weight * declared.MiddleRgIn * declared.MiddleRgIn) - shells - shift;
            var low = (weight * declared.LowRgIn * declared.LowRgIn) - shells;
            var scale = 2.5 / mass;
            return (scale * (middle + low - high), scale * (high + low - middle), scale * (high + middle - low));
        }

        private static double Volume(double r) => 4 * Math.PI / 3 * r * r * r;
    }
}
