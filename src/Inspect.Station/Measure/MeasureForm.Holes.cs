using System.Text.Json.Nodes;
using Inspect.Rules.Readings;
using Inspect.Rules.Sheets;

namespace Inspect.Station.Measure;

/// <content>The rows of holes, each of which becomes an element of the sheet's list.</content>
public sealed partial class MeasureForm
{
    private void PutHoles()
    {
        var holes = new JsonArray();
        foreach (var digit in Digits)
        {
            AddGrip(holes, Words.Of(digit));
        }

        var other = Typed("holes.other");
        AddOther(holes, "hole.vent1", "vent");
        AddOther(holes, "hole.vent2", "vent");
        AddOther(holes, "hole.mill", "mill");
        AddOther(holes, "hole.balance", "balance");
        var others = holes.Count(hole => hole!["kind"]!.GetValue<string>() is "vent" or "mill" or "balance");
        if (other == "none" && others > 0)
        {
            Faults.Add("holes.other", "This says that there are no other holes, and one is written down below; change one of the two.");
        }
        else if (other.Length == 0 && holes.Count > 0)
        {
            Faults.Add("holes.other", "Say whether the ball has holes other than gripping holes; an unseen hole is no missing hole.");
        }

        if (holes.Count > 0 || other is "none" or "listed")
        {
            Sheet["holes"] = holes;
        }
    }

    private void AddGrip(JsonArray holes, string digit)
    {
        var row = $"hole.{digit}";
        var kind = Typed($"{row}.kind");
        var (diameter, depth) = (Measured($"{row}.diameter", Quantity.Length, Unit.Inch), Measured($"{row}.depth", Quantity.Length, Unit.Inch));
        if (kind.Length == 0 && Typed($"{row}.diameter").Length == 0 && Typed($"{row}.depth").Length == 0)
        {
            return;
        }

        var hole = new JsonObject { ["kind"] = kind == "indentation" ? "indentation" : "grip", ["digit"] = digit };
        Add(hole, "diameter", diameter);
        Add(hole, "depth", depth);
        if (kind != "indentation" && Typed("holes.second") is { Length: > 0 } second)
        {
            hole["secondaryHole"] = second == digit;
        }

        _rows.Add(row);
        holes.Add((JsonNode)hole);
    }

    private void AddOther(JsonArray holes, string row, string kind)
    {
        var (diameter, depth) = (Measured($"{row}.diameter", Quantity.Length, Unit.Inch), Measured($"{row}.depth", Quantity.Length, Unit.Inch));
        var (host, device) = (Typed($"{row}.in"), Typed($"{row}.device"));
        if (Typed($"{row}.diameter").Length + Typed($"{row}.depth").Length + host.Length + device.Length == 0)
        {
            return;
        }

        var hole = new JsonObject { ["kind"] = kind };
        Add(hole, "in", host);
        Add(hole, "diameter", diameter);
        Add(hole, "depth", depth);
        Add(hole, "device", device);
        _rows.Add(row);
        holes.Add((JsonNode)hole);
    }
}
