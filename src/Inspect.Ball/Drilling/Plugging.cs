namespace Inspect.Ball;

/// <summary>What filling a hole with plug material does to a drilled ball.</summary>
public static class Plugging
{
    /// <summary>Plug material lies between these, from memory.</summary>
    public const double LightestGPerCm3 = 1.10;

    /// <summary>The same, at its densest.</summary>
    public const double DensestGPerCm3 = 1.25;

    /// <summary>The ball with the hole at <paramref name="index"/> filled flush, as far as no other hole runs through it.</summary>
    /// <exception cref="DescriptionException">A hole does not lie in the ball.</exception>
    public static MassProperties After(BallDescription ball, IReadOnlyList<DrilledHole> holes, int index, Density plug)
    {
        ArgumentNullException.ThrowIfNull(holes);
        ArgumentOutOfRangeException.ThrowIfNegative(index);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(index, holes.Count);
        MassPropertiesOf.ThrowUnlessDrillable(ball, holes);
        var body = Body.Of(ball);
        var bores = MassPropertiesOf.Bores(ball, holes);
        var drilled = MassPropertiesOf.Without(body, bores, Fineness.Figures);
        Bore[] others = [.. bores.Where((_, i) => i != index)];
        var filled = new MomentSum();
        Removal.Integrate([DensityStep.Ball(plug.OzPerIn3, ball.RadiusIn)], bores[index], others, Fineness.Figures, ref filled);
        var mass = drilled.MassOz + filled.MassOz;
        return new MassProperties(
            [body.MassOz - mass], mass, drilled.First + filled.First, drilled.Second + filled.Second, body.Used, body.Reason);
    }
}
