using System.Globalization;
using System.Text.Json.Nodes;
using Inspect.Station.Prepare;

namespace Inspect.Benchmarks.Desk;

/// <summary>Sheets of invented balls that differ in their readings: most pass, some fail a rule or two,
/// some were not measured whole.</summary>
internal static class SampleSheets
{
    /// <summary>The request that records one in the demo event.</summary>
    public static JsonObject Request(int index)
    {
        var sheet = Legal(index);
        if (index % 9 == 0)
        {
            sheet["weights"]!["leftRight"] = string.Create(CultureInfo.InvariantCulture, $"-3.{25 + (index % 50)} oz");
        }

        if (index % 14 == 0)
        {
            sheet["holes"]![0]!["depth"] = "4 3/4 in";
        }

        if (index % 12 == 5)
        {
            sheet["weights"]!.AsObject().Remove("gross");
        }

        if (index % 25 == 7)
        {
            sheet["hardness"]!["readings"] = new JsonArray("71", "70.5", "71");
        }

        var entry = (101 + (index % 24)).ToString(CultureInfo.InvariantCulture);
        return new JsonObject { ["event"] = DemoEvent.Id, ["entry"] = entry, ["sheet"] = sheet };
    }

    private static JsonObject Legal(int index) => JsonNode.Parse(
        $$"""
        {
          "play": "{{DemoEvent.Today(TimeProvider.System):yyyy-MM-dd}}",
          "grip": { "hand": "right", "digits": ["thumb", "middle", "ring"], "demonstrated": true },
          "ball": { "maker": "Ostrava Kiln", "model": "Nightjar {{index % 17}}", "serial": "9QF3{{1000 + index}}", "listed": "yes", "made": "2023-04" },
          "marks": { "modelReadable": true, "serialReadable": true, "palmMarks": 0, "foreignMaterial": false, "surfacePattern": false },
          "weights": { "gross": "15 lb {{index % 9}} oz", "topBottom": "1.25 oz", "leftRight": "0.{{index % 9}} oz", "fingerThumb": "-1/4 oz" },
          "size": { "diameters": ["8.58{{index % 9}} in", "8.582 in"], "circumference": "26.95 in" },
          "hardness": { "readings": ["76", "75.5", "76"], "temperature": "72 F" },
          "holes": [
            { "kind": "grip", "digit": "thumb", "diameter": "31/32 in", "depth": "2 3/4 in", "secondaryHole": false },
            { "kind": "grip", "digit": "middle", "diameter": "7/8 in", "depth": "2 in", "secondaryHole": false },
            { "kind": "grip", "digit": "ring", "diameter": "27/32 in", "depth": "2 in", "secondaryHole": false }
          ]
        }
        """)!.AsObject();
}
