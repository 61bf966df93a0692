using System.Text.Json.Nodes;

namespace Inspect.Sheets.Form;

/// <content>The rows of holes. Each becomes an element of the sheet's list.</content>
public sealed partial class MeasureForm
{
    private static readonly SheetMember Diameter = Catalogue.Of(RuleQuantity.HoleDiameter);
    // A hole that a digit goes into is wider than a vent.
    private static readonly SheetMember GripDiameter = Diameter with { Usual = Diameter.Usual! with { Least = 0.375m } };
    private static readonly SheetMember Depth = Catalogue.Of(RuleQuantity.HoleDepth);

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
        AddOther(holes, FormFields.BalanceHole, "balance");
        foreach (var row in FormFields.FurtherHoles.Where(IsWritten))
        {
            AddFurther(holes, row);
        }

        var others = holes.Count(hole => hole!["kind"]!.GetValue<string>() is "vent" or "mill" or "balance");
        if (other == "none" && others > 0)
        {
            Refuse("holes.other", "This says that there are no other holes, but one is entered below; change one of the two.");
        }
        else if (other.Length == 0 && holes.Count > 0)
        {
            Refuse(
                "holes.other",
                "Say whether the ball has holes other than gripping holes; a hole that is not entered may still be there.");
        }

        if (holes.Count > 0 || other is "none" or "listed")
        {
            Sheet["holes"] = holes;
        }
    }

    private void AddGrip(JsonArray holes, string digit)
    {
        var row = $"hole.{digit}";
        if (!IsWritten(row))
        {
            return;
        }

        var hole = new JsonObject { ["kind"] = Typed($"{row}.kind") == "indentation" ? "indentation" : "grip", ["digit"] = digit };
        var path = Add(holes, hole, row);
        AddSecond(hole, path);
        if (Pieces(row, path) is { Count: > 0 } pieces)
        {
            hole["pieces"] = pieces;
        }
    }

    private void AddSecond(JsonObject hole, string path)
    {
        _origins.Add(($"{path}.secondaryHole", "holes.second"));
        if (hole["kind"]!.GetValue<string>() == "grip" && Typed("holes.second") is { Length: > 0 } second)
        {
            hole["secondaryHole"] = second == hole["digit"]?.GetValue<string>();
        }
    }

    /// <summary>A further hole, when the row of its kind or digit is in use: a second hole for the thumb, a third vent.</summary>
    private void AddFurther(JsonArray holes, string row)
    {
        if (Typed($"{row}.kind") is not { Length: > 0 } kind)
        {
            Refuse($"{row}.kind", "Choose what kind of hole this is.");
            AddSize([], row);
            return;
        }

        var hole = new JsonObject { ["kind"] = kind };
        var path = Add(holes, hole, row);
        Add(hole, kind == "vent" ? "in" : "digit", Typed($"{row}.digit"));
        _origins.Add(($"{path}.in", $"{row}.digit"));
        AddSecond(hole, path);
    }

    private void AddOther(JsonArray holes, string row, string kind)
    {
        if (IsWritten(row))
        {
            var hole = new JsonObject { ["kind"] = kind };
            Add(hole, "in", Typed($"{row}.in"));
            Add(holes, hole, row);
            Add(hole, "device", Typed($"{row}.device"));
        }
    }

    /// <summary>Whether anything is entered in a row. A side alone does not count.</summary>
    private bool IsWritten(string row) => Fields.NamesIn(row).Any(name => !name.EndsWith(".side", StringComparison.Ordinal));

    /// <summary>Adds what every hole has: its size, its place and its pitch. Gives the hole's path.</summary>
    private string Add(JsonArray holes, JsonObject hole, string row)
    {
        var path = FormattableString.Invariant($"holes[{holes.Count}]");
        _origins.Add((path, row));
        holes.Add((JsonNode)hole);
        AddSize(hole, row);
        if (FormFields.PlacedRows.Contains(row))
        {
            AddPlace(hole, row, path);
        }

        return path;
    }

    private void AddSize(JsonObject hole, string row)
    {
        Add(hole, "diameter", Measured($"{row}.diameter", hole["kind"]?.GetValue<string>() == "grip" ? GripDiameter : Diameter));
        Add(hole, "depth", Measured($"{row}.depth", Depth));
    }

    private void AddPlace(JsonObject hole, string row, string path)
    {
        if (hole.ContainsKey("depth"))
        {
            Add(hole, "depthTo", Typed("holes.depthTo"));
            _origins.Add(($"{path}.depthTo", "holes.depthTo"));
        }

        if (Place($"{row}.position") is { } place)
        {
            hole["position"] = place;
        }

        if (Pitch(row) is { Count: > 0 } pitch)
        {
            hole["pitch"] = pitch;
        }
    }

    private JsonArray Pieces(string row, string path)
    {
        var pieces = new JsonArray();
        if (!Fields.AnyIn($"{row}.pieces"))
        {
            return pieces;
        }

        foreach (var field in FormFields.Pieces(row).Where(IsWritten))
        {
            var piece = new JsonObject();
            AddSize(piece, field);
            _origins.Add((FormattableString.Invariant($"{path}.pieces[{pieces.Count}]"), field));
            pieces.Add((JsonNode)piece);
        }

        return pieces;
    }
}
