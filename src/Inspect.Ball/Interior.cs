namespace Inspect.Ball;

/// <summary>The inside of a ball that is assumed. Nobody at the inspection table can know it; each kind says what it is based on.</summary>
public abstract record Interior
{
    private Interior()
    {
    }

    /// <summary>The mean density throughout.</summary>
    public sealed record Uniform : Interior;

    /// <summary>One shell of a layered ball: its outer radius and its density. It reaches down to the next layer's radius.</summary>
    public readonly record struct Layer(double RadiusIn, Density Density);

    /// <summary>Concentric layers, outermost first, each with the density of its own shell.</summary>
    public sealed record Layers : Interior
    {
        private Layers(IReadOnlyList<Layer> outermostFirst)
        {
            OutermostFirst = outermostFirst;
        }

        public IReadOnlyList<Layer> OutermostFirst { get; }

        /// <exception cref="DescriptionException">There is no layer, a radius is not positive, or a radius is not smaller than that of the
        /// layer around it.</exception>
        public static Layers Of(IEnumerable<Layer> outermostFirst)
        {
            Layer[] layers = [.. outermostFirst];
            var faults = new FaultList();
            if (layers.Length == 0)
            {
                faults.Add("interior.layers", "A layered ball needs at least one layer.");
            }

            for (var i = 0; i < layers.Length; i++)
            {
                var member = $"interior.layers[{i}]";
                if (faults.Positive($"{member}.radius", layers[i].RadiusIn, 10, "a layer's radius in inches")
                    && i > 0 && layers[i].RadiusIn >= layers[i - 1].RadiusIn)
                {
                    faults.Add(
                        $"{member}.radius", layers[i].RadiusIn,
                        $"a layer is smaller than the {FaultList.Text(layers[i - 1].RadiusIn)} in around it");
                }

                if (layers[i].Density.OzPerIn3 <= 0)
                {
                    faults.Add($"{member}.density", "'0' cannot be: a layer's density is more than 0.");
                }
            }

            faults.ThrowIfAny();
            return new Layers(layers);
        }
    }

    /// <summary>A cover, a filler and an ellipsoid core that together have the declared radii of gyration: a plausible inside, not
    /// <em>the</em> inside.</summary>
    /// <remarks>Low axis along +z (the pin), high along +x, middle along +y.</remarks>
    public sealed record Calibrated : Interior
    {
        /// <summary>The cover's thickness in inches when none is declared; a judgement, no source.</summary>
        public const double UsualCoverIn = 0.60;

        /// <summary>The cover's density in g/cm³ when none is declared; a judgement, no source.</summary>
        public const double UsualCoverGPerCm3 = 1.18;

        /// <summary>The core's volume in cubic inches when none is declared; a judgement, no source.</summary>
        public const double UsualCoreIn3 = 70;

        private Calibrated(
            double lowRgIn, double differentialIn, double intermediateIn, double coverIn, Density cover, double coreIn3, double topOzIn)
        {
            LowRgIn = lowRgIn;
            DifferentialIn = differentialIn;
            IntermediateIn = intermediateIn;
            CoverIn = coverIn;
            CoverDensity = cover;
            CoreVolumeIn3 = coreIn3;
            TopMomentOzIn = topOzIn;
        }

        /// <summary>The declared low radius of gyration in inches, above 0 and at most 10.</summary>
        public double LowRgIn { get; }

        /// <summary>The declared total differential, highest less lowest radius of gyration, in inches, 0 to 1.</summary>
        public double DifferentialIn { get; }

        /// <summary>The declared intermediate differential, highest less middle radius of gyration, in inches; at most the total, and 0 for
        /// a symmetric ball.</summary>
        public double IntermediateIn { get; }

        /// <summary>The thickness of the cover in inches, above 0 and at most 5.</summary>
        public double CoverIn { get; }

        /// <summary>The density of the cover, above 0.</summary>
        public Density CoverDensity { get; }

        /// <summary>The volume of the core in cubic inches, above 0 and at most 1,000.</summary>
        public double CoreVolumeIn3 { get; }

        /// <summary>First moment of the undrilled ball along the pin axis, in oz·in: the declared
        /// top weight times the scale's constant.</summary>
        public double TopMomentOzIn { get; }

        /// <summary>The high radius of gyration in inches.</summary>
        public double HighRgIn => LowRgIn + DifferentialIn;

        /// <summary>The middle radius of gyration in inches; the high one in a symmetric ball.</summary>
        public double MiddleRgIn => HighRgIn - IntermediateIn;

        /// <summary>Takes the figures that a maker or an approval list declares. Lengths are in inches;
        /// a value left out is the usual one.</summary>
        /// <exception cref="DescriptionException">A value is out of range. Every such value is named.</exception>
        public static Calibrated Of(
            double rgIn,
            double differentialIn,
            double intermediateIn = 0,
            double coverIn = UsualCoverIn,
            Density? coverDensity = null,
            double coreVolumeIn3 = UsualCoreIn3,
            double topMomentOzIn = 0)
        {
            const string at = "interior.declared";
            var faults = new FaultList();
            var cover = coverDensity ?? Density.FromGPerCm3(UsualCoverGPerCm3);
            faults.Positive($"{at}.rg", rgIn, 10, "a radius of gyration in inches");
            if (faults.Within($"{at}.differential", differentialIn, 0, 1, "a differential in inches"))
            {
                faults.Within($"{at}.intermediate", intermediateIn, 0, differentialIn, "the intermediate differential in inches");
            }

            faults.Positive($"{at}.cover", coverIn, 5, "a cover's thickness in inches");
            if (cover.OzPerIn3 <= 0)
            {
                faults.Add($"{at}.coverDensity", "'0' cannot be: a cover's density is more than 0.");
            }

            faults.Positive($"{at}.coreVolume", coreVolumeIn3, 1000, "a core's volume in cubic inches");
            faults.Within($"{at}.top", topMomentOzIn, -100, 100, "a top weight as a first moment in oz.in");
            faults.ThrowIfAny();
            return new Calibrated(rgIn, differentialIn, intermediateIn, coverIn, cover, coreVolumeIn3, topMomentOzIn);
        }

        internal void CheckIn(double ballRadiusIn, FaultList faults)
        {
            var hollow = Math.Sqrt(2.0 / 3) * ballRadiusIn;
            if (HighRgIn >= hollow)
            {
                faults.Add("interior.declared.rg", LowRgIn, $"even a hollow ball of this size has only {FaultList.Text(hollow)} in");
            }

            if (CoverIn >= ballRadiusIn)
            {
                faults.Add("interior.declared.cover", CoverIn,
                    $"a cover is thinner than the ball's radius, {FaultList.Text(ballRadiusIn)} in");
            }
        }
    }
}
