using Inspect.Ball;
using Inspect.Sheets.Json;
using Inspect.Sheets.Readings;

namespace Inspect.Sheets.Described;

/// <summary>Reads a described ball from strict JSON and reports every fault at once, each with its path.</summary>
/// <remarks>The pin frame: origin at the ball's centre, +z through the pin, azimuth 0 towards +x. South is away from the pin, east towards
/// growing azimuth.</remarks>
public static class DescribedBallReader
{
    private const int MostHoles = 24;

    /// <summary>The ball in <paramref name="utf8"/>, or null when it has faults; they are added to the list.</summary>
    public static DescribedBall? Read(ReadOnlyMemory<byte> utf8, List<Fault> faults)
    {
        var before = faults.Count;
        var ball = StrictJson.Read(utf8, faults) is { } members ? Read(members, faults) : null;
        return faults.Count == before ? ball : null;
    }

    private static DescribedBall? Read(StrictObject members, List<Fault> faults)
    {
        members.Require("diameter");
        members.Require("holes");
        var diameter = members.Reading("diameter", Quantity.Length);
        var gross = members.Reading("gross", Quantity.Weight);
        var interior = InteriorReader.Read(members, faults, out var layered);
        if (layered && members.Has("gross"))
        {
            members.Refuse("gross", "The weight of a layered ball follows from its layers; leave it out.");
        }
        else if (!layered)
        {
            members.Require("gross");
        }

        var holes = members.Objects("holes", MostHoles)?.Select(hole => HoleReader.Read(hole, faults)).ToList();
        members.Close();
        var ball = Ball(diameter, gross, interior, layered, faults);
        CheckHoles(ball ?? Size(diameter), holes, faults);
        return ball is null || holes is null ? null : new DescribedBall(ball, [.. holes.OfType<DrilledHole>()]);
    }

    private static BallDescription? Ball(Reading? diameter, Reading? gross, Interior? interior, bool layered, List<Fault> faults) =>
        (diameter, gross, interior) switch
        {
            (null, _, _) => null,
            (_, _, Interior.Layers layers) =>
                DescriptionFaults.Collect("", faults, () => BallDescription.OfLayers(Physical.Value(diameter), layers)),
            (_, null, _) => null,
            _ when layered => null,
            _ => DescriptionFaults.Collect(
                "", faults, () => BallDescription.Of(Physical.Value(diameter), Physical.Value(gross), interior ?? new Interior.Uniform())),
        };

    /// <summary>A ball of this size alone, so that holes can be checked even when nothing else of it could be read.</summary>
    private static BallDescription? Size(Reading? diameter) =>
        diameter is null ? null
            : DescriptionFaults.Collect("", [], () => BallDescription.Of(Physical.Value(diameter), 1, new Interior.Uniform()));

    private static void CheckHoles(BallDescription? ball, List<DrilledHole?>? holes, List<Fault> faults)
    {
        for (var i = 0; ball is not null && i < holes?.Count; i++)
        {
            foreach (var fault in holes[i] is { } hole ? MassPropertiesOf.Check(ball, [hole]) : [])
            {
                var member = fault.Member.Replace("holes[0]", FormattableString.Invariant($"holes[{i}]"), StringComparison.Ordinal);
                faults.Add(new Fault(member, fault.Message));
            }
        }
    }
}
