namespace Inspect.Ball;

/// <summary>An undrilled ball, ready for computing: its mass and moments, and the density that a hole meets.</summary>
/// <remarks>The two need not agree. When no core fits a ball's declared figures, the ball keeps the figures and the holes are drilled into
/// even density.</remarks>
internal sealed record Body(Moments Whole, DensityStep[] Steps, InteriorUsed Used, string? Reason)
{
    public static Body Of(BallDescription ball) => ball.Interior switch
    {
        Interior.Uniform => FromSteps(Even(ball), InteriorUsed.Uniform),
        Interior.Layers layers => FromSteps(ShellsOf(layers), InteriorUsed.Layers),
        Interior.Calibrated declared => OfDeclared(ball, declared),
        _ => throw new InvalidOperationException("The kinds of interior are a closed family."),
    };

    /// <summary>The declared weight and radii of gyration, whatever the density that holes meet.</summary>
    public static Body WithDeclaredTensor(BallDescription ball, Interior.Calibrated declared, DensityStep[] steps, string? reason)
    {
        var first = declared.TopMomentOzIn * Vector.UnitZ;
        var inertiaAtCg = SymmetricTensor.Diagonal(
            declared.HighRgIn * declared.HighRgIn, declared.MiddleRgIn * declared.MiddleRgIn,
            declared.LowRgIn * declared.LowRgIn) * ball.GrossOz;

        // The second moment about the centre of gravity is half the trace of the inertia less the inertia.
        var half = inertiaAtCg.Trace / 2;
        var second = SymmetricTensor.Diagonal(half, half, half) - inertiaAtCg + (SymmetricTensor.Square(first) * (1 / ball.GrossOz));
        return new Body(new Moments(ball.GrossOz, first, second), steps, InteriorUsed.Uniform, reason);
    }

    public static DensityStep[] Even(BallDescription ball) => [DensityStep.Ball(ball.MeanDensity.OzPerIn3, ball.RadiusIn)];

    public static DensityStep[] ShellsOf(Interior.Layers layers)
    {
        var steps = new List<DensityStep>();
        var outside = 0.0;
        foreach (var layer in layers.OutermostFirst)
        {
            steps.Add(DensityStep.Ball(layer.Density.OzPerIn3 - outside, layer.RadiusIn));
            outside = layer.Density.OzPerIn3;
        }

        return [.. steps];
    }

    private static Body OfDeclared(BallDescription ball, Interior.Calibrated declared)
    {
        var fit = CalibratedCore.Fit(ball.RadiusIn, ball.GrossOz, declared);
        return fit.Core is not { } core
            ? WithDeclaredTensor(ball, declared, Even(ball),
                $"{fit.Reason} The declared figures are kept and the holes are drilled into even density.")
            : FromSteps(core.Steps, InteriorUsed.Calibrated);
    }

    private static Body FromSteps(DensityStep[] steps, InteriorUsed used)
    {
        var whole = default(Moments);
        foreach (var step in steps)
        {
            whole += step.Whole();
        }

        return new Body(whole, steps, used, null);
    }
}
