namespace Inspect.Ball.Tests;

/// <summary>The balls and holes that the check values describe.</summary>
internal static class Described
{
    public const double Radius = 4.25;

    public static BallDescription Even15 { get; } = BallDescription.Of(8.5, 240, new Interior.Uniform());

    public static BallDescription Even16 { get; } = BallDescription.Of(8.5, 256, new Interior.Uniform());

    /// <summary>Balls of 4.25, 3.65 and 2.60 in with 1.18, 0.80 and 2.30 g/cm³.</summary>
    public static BallDescription L3 { get; } = BallDescription.OfLayers(8.5, Layers((4.25, 1.18), (3.65, 0.80), (2.60, 2.30)));

    public static BallDescription Sym15 { get; } = Declared(2.480, 0.050, 0);

    public static BallDescription Asy15 { get; } = Declared(2.480, 0.050, 0.015);

    public static BallDescription Med15 { get; } = Declared(2.550, 0.040, 0);

    public static BallDescription Declared(double rg, double differential, double intermediate, double topMoment = 0) =>
        BallDescription.Of(8.5, 240, Interior.Calibrated.Of(rg, differential, intermediate, topMomentOzIn: topMoment));

    public static Interior.Layers Layers(params (double RadiusIn, double GPerCm3)[] layers) =>
        Interior.Layers.Of(layers.Select(layer => new Interior.Layer(layer.RadiusIn, Density.FromGPerCm3(layer.GPerCm3))));

    public static DrilledHole AtAngle(double angle, double azimuth, double diameter, double depth, HoleBottom bottom = HoleBottom.Flat) =>
        DrilledHole.Of(HolePlacement.AtAngle(angle, azimuth), diameter, depth, bottom: bottom);

    public static DrilledHole AtArc(double arc, double azimuth, double diameter, double depth, double south = 0, double east = 0) =>
        DrilledHole.Of(HolePlacement.AtArc(arc, azimuth), diameter, depth, pitchSouthIn: south, pitchEastIn: east);

    public static DrilledHole Middle { get; } = AtArc(2.35, 106, 31.0 / 32, 2, east: 3.0 / 8);

    public static DrilledHole Ring { get; } = AtArc(2.35, 74, 15.0 / 16, 2, east: -3.0 / 8);

    public static DrilledHole Thumb { get; } = AtArc(2.5, 270, 17.0 / 16, 2.75, south: 3.0 / 8);

    public static IReadOnlyList<DrilledHole> Holes(string name) => name switch
    {
        "C01" => [AtAngle(0, 0, 1, 3)],
        "C02" => [AtAngle(45, 0, 1, 3)],
        "C03" => [AtAngle(90, 0, 1, 3)],
        "C04a" => [AtAngle(90, 0, 31.0 / 32, 1)],
        "C04b" => [AtAngle(90, 0, 31.0 / 32, 2)],
        "C04c" => [AtAngle(90, 0, 31.0 / 32, 3)],
        "C04d" => [AtAngle(90, 0, 31.0 / 32, 4)],
        "C05" => [AtAngle(45, 30, 25.0 / 16, 4.5)],
        "C06" => [AtArc(3, 0, 31.0 / 32, 2.75, east: 3.0 / 8)],
        "C07" => [AtArc(2, 200, 1, 2.5, south: 0.25)],
        "C08" => [AtAngle(60, 120, 0.25, 2)],
        "C09" => [AtAngle(90, 0, 1, 3, HoleBottom.Cone118)],
        "C10" => [AtAngle(90, 0, 1, 3, HoleBottom.Hemisphere)],
        "C11" => [AtAngle(90, 0, 1, 0.5)],
        "C12" => [Middle, Ring, Thumb],
        _ => throw new ArgumentOutOfRangeException(nameof(name), name, "No such case."),
    };
}
