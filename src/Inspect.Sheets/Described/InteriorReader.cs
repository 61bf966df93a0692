using System.Text.Json;
using Inspect.Ball;
using Inspect.Sheets.Json;
using Inspect.Sheets.Readings;

namespace Inspect.Sheets.Described;

/// <summary>Reads the inside of a described ball: even, in layers, or fitted to declared figures.</summary>
internal static class InteriorReader
{
    private const int MostLayers = 12;
    private const string Even = "uniform";
    private const string Member = "interior";

    /// <summary>The inside, or null when it has faults; they are added to the list.</summary>
    /// <param name="ball">The description.</param>
    /// <param name="faults">Where faults are collected.</param>
    /// <param name="isLayered">Whether layers are written, even faulty ones; the ball's weight then follows from them.</param>
    public static Interior? Read(StrictObject ball, List<Fault> faults, out bool isLayered)
    {
        isLayered = false;
        if (!ball.Require(Member))
        {
            return null;
        }

        if (ball.KindOf(Member) != JsonValueKind.Object)
        {
            return ReadWord(ball);
        }

        var inside = ball.Object(Member)!;
        isLayered = inside.Has("layers");
        var (layers, declared) = (inside.Objects("layers", MostLayers), inside.Object("declared"));
        if (isLayered == inside.Has("declared"))
        {
            ball.Refuse(Member, "An inside that is not \"uniform\" has either \"layers\" or \"declared\" figures; give one of them.");
        }

        Interior? interior = layers is not null ? ReadLayers(layers, faults) : declared is not null ? ReadDeclared(declared, faults) : null;
        inside.Close();
        return interior;
    }

    private static Interior.Uniform? ReadWord(StrictObject ball)
    {
        if (ball.Text(Member) is not { } word)
        {
            return null;
        }

        if (word != Even)
        {
            ball.Refuse(
                Member,
                $"{StrictJson.Quoted(word)} is not known here; write \"{Even}\", or an object with \"layers\" or \"declared\" figures.");
            return null;
        }

        return new Interior.Uniform();
    }

    private static Interior.Layers? ReadLayers(IReadOnlyList<StrictObject> written, List<Fault> faults)
    {
        var layers = new List<Interior.Layer>();
        foreach (var layer in written)
        {
            layer.Require("radius");
            layer.Require("density");
            var radius = layer.Reading("radius", Quantity.Length);
            var density = Density(layer, "density", faults);
            layer.Close();
            if (radius is not null && density is { } known)
            {
                layers.Add(new Interior.Layer(Physical.Value(radius), known));
            }
        }

        return layers.Count < written.Count ? null : DescriptionFaults.Collect("", faults, () => Interior.Layers.Of(layers));
    }

    private static Interior.Calibrated? ReadDeclared(StrictObject declared, List<Fault> faults)
    {
        var before = faults.Count;
        declared.Require("rg");
        declared.Require("differential");
        var rg = declared.Reading("rg", Quantity.Length);
        var differential = declared.Reading("differential", Quantity.SignedLength);
        var intermediate = declared.Reading("intermediate", Quantity.SignedLength);
        var cover = declared.Reading("cover", Quantity.Length);
        var density = Density(declared, "coverDensity", faults);
        var core = declared.Reading("coreVolume", Quantity.Volume);
        var top = declared.Reading("top", Quantity.Moment);
        declared.Close();
        return faults.Count > before || rg is null || differential is null ? null
            : DescriptionFaults.Collect("", faults, () => Interior.Calibrated.Of(
            Physical.Value(rg),
            Physical.Value(differential),
            intermediate is null ? 0 : Physical.Value(intermediate),
            cover is null ? Interior.Calibrated.UsualCoverIn : Physical.Value(cover),
            density,
            core is null ? Interior.Calibrated.UsualCoreIn3 : Physical.Value(core),
            top is null ? 0 : Physical.Value(top)));
    }

    private static Density? Density(StrictObject members, string name, List<Fault> faults)
    {
        if (members.Reading(name, Quantity.Density) is not { } reading)
        {
            return null;
        }

        try
        {
            return Physical.DensityOf(reading);
        }
        catch (DescriptionException refused)
        {
            faults.AddRange(refused.Faults.Select(fault => new Fault(members.PathOf(name), fault.Message)));
            return null;
        }
    }
}
