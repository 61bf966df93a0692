namespace Inspect.Ball;

/// <summary>The insides for which a prediction about a real ball is computed, the most likely one first.</summary>
internal sealed class PlausibleInteriors
{
    private const double CoreIn3 = Interior.Calibrated.UsualCoreIn3;
    private const double LightestFillerGPerCm3 = 0.55;

    /// <summary>A light inside throughout, and the material of a dense core; a judgement from fitted bodies.</summary>
    public static readonly Density Light = Density.FromGPerCm3(1.10);
    public static readonly Density DenseCore = Density.FromGPerCm3(2.50);

    private readonly IReadOnlyList<(Body Body, int[] Shapes)> _bodies;

    private PlausibleInteriors(EstimateBasis basis, IReadOnlyList<Body> bodies)
    {
        Basis = basis;
        List<Ellipsoid> shapes = [.. bodies.SelectMany(body => body.Steps).Select(step => step.Shape).Distinct()];
        Shapes = shapes;
        _bodies = [.. bodies.Select(body => (body, body.Steps.Select(step => shapes.IndexOf(step.Shape)).ToArray()))];
    }

    /// <summary>What the range is based on.</summary>
    public EstimateBasis Basis { get; }

    /// <summary>Every shape that an inside is made of, once: insides share most of their shapes.</summary>
    public IReadOnlyList<Ellipsoid> Shapes { get; }

    /// <summary>What is left of each inside when this much is removed of each shape of 1 oz/in³.</summary>
    public MassProperties[] Without(IReadOnlyList<Moments> removed) =>
    [
        .. _bodies.Select(each =>
        {
            var gone = default(Moments);
            for (var i = 0; i < each.Shapes.Length; i++)
            {
                gone += removed[each.Shapes[i]] * each.Body.Steps[i].OzPerIn3;
            }

            return new MassProperties([gone.Mass], each.Body.Whole - gone, each.Body.Used, each.Body.Reason);
        }),
    ];

    public static PlausibleInteriors Of(BallDescription ball)
    {
        var best = Body.Of(ball);
        if (ball.Interior is Interior.Layers)
        {
            return new PlausibleInteriors(EstimateBasis.DescribedLayers, [best]);
        }

        var bodies = new List<Body> { best, best with { Steps = Body.Even(ball) } };
        if (ball.GrossOz >= BallDescription.LightOz)
        {
            bodies.Add(best with { Steps = [DensityStep.Ball(Light.OzPerIn3, ball.RadiusIn)] });
            if (DenseCored(ball) is { } dense)
            {
                bodies.Add(best with { Steps = dense });
            }

            if (ball.Interior is Interior.Calibrated declared)
            {
                bodies.AddRange(Family(ball, declared).Select(core => best with { Steps = core.Steps }));
            }
        }

        return new PlausibleInteriors(
            ball.Interior is Interior.Calibrated ? EstimateBasis.DeclaredFigures : EstimateBasis.Illustration, bodies);
    }

    /// <summary>A ball with the usual cover, a dense round core and the filler that gives the weight; null
    /// when that filler would be too light.</summary>
    private static DensityStep[]? DenseCored(BallDescription ball)
    {
        var inside = ball.RadiusIn - Interior.Calibrated.UsualCoverIn;
        if (inside <= 0)
        {
            return null;
        }

        var insideVolume = 4 * Math.PI / 3 * inside * inside * inside;
        var cover = Density.FromGPerCm3(Interior.Calibrated.UsualCoverGPerCm3).OzPerIn3;
        var within = ball.GrossOz - (cover * (ball.VolumeIn3 - insideVolume));
        var filler = (within - (DenseCore.OzPerIn3 * CoreIn3)) / (insideVolume - CoreIn3);
        return insideVolume <= CoreIn3 || filler < LightestFillerGPerCm3 * Density.OzPerIn3InOneGPerCm3
            ? null
            :
            [
                DensityStep.Ball(cover, ball.RadiusIn),
                DensityStep.Ball(filler - cover, inside),
                DensityStep.Ball(DenseCore.OzPerIn3 - filler, Math.Cbrt(CoreIn3 * 3 / (4 * Math.PI))),
            ];
    }

    /// <summary>The fitted bodies at the middle of each side and at the corners of the range of plausible
    /// covers and cores, where they exist.</summary>
    private static IEnumerable<CalibratedCore> Family(BallDescription ball, Interior.Calibrated declared)
    {
        (double Cover, double Density, double Volume)[] members =
        [
            (0.40, 1.18, 70), (0.85, 1.18, 70), (0.60, 1.10, 70), (0.60, 1.26, 70), (0.60, 1.18, 45), (0.60, 1.18, 110),
            (0.40, 1.10, 45), (0.40, 1.10, 110), (0.40, 1.26, 45), (0.40, 1.26, 110),
            (0.85, 1.10, 45), (0.85, 1.10, 110), (0.85, 1.26, 45), (0.85, 1.26, 110),
        ];
        foreach (var (cover, density, volume) in members)
        {
            var member = Interior.Calibrated.Of(
                declared.LowRgIn, declared.DifferentialIn, declared.IntermediateIn, cover, Density.FromGPerCm3(density), volume,
                declared.TopMomentOzIn);
            if (cover < ball.RadiusIn && CalibratedCore.Fit(ball.RadiusIn, ball.GrossOz, member).Core is { } core)
            {
                yield return core;
            }
        }
    }
}
