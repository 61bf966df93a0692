using System.Globalization;
using System.Net.Http.Json;
using System.Text;
using System.Text.Json.Nodes;
using Inspect.Station.Prepare;
using Inspect.Station.Tests.Ground;

namespace Inspect.Station.Tests.Record;

/// <summary>Sheets of invented balls, and the requests that record them in the demo event.</summary>
internal static class SampleSheets
{
    /// <summary>A day of play of the demo event.</summary>
    public static string Today => StationClock.Today.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    /// <summary>A plainly legal three-hole ball under the national rules from 1 August 2020.</summary>
    public static JsonObject Legal() => JsonNode.Parse(
        $$"""
        {
          "play": "{{Today}}",
          "grip": { "hand": "right", "digits": ["thumb", "middle", "ring"], "demonstrated": true },
          "ball": { "maker": "Ostrava Kiln", "model": "Nightjar", "serial": "9QF31207", "listed": "yes", "made": "2023-04" },
          "marks": { "modelReadable": true, "serialReadable": true, "palmMarks": 0, "foreignMaterial": false, "surfacePattern": false },
          "weights": { "gross": "15 lb 1 oz", "topBottom": "1.25 oz", "leftRight": "0.5 oz", "fingerThumb": "-1/4 oz" },
          "size": { "diameters": ["8.580 in", "8.582 in"], "circumference": "26.95 in" },
          "hardness": { "readings": ["76", "75.5", "76"], "temperature": "72 F" },
          "holes": [
            { "kind": "grip", "digit": "thumb", "diameter": "31/32 in", "depth": "2 3/4 in", "secondaryHole": false },
            { "kind": "grip", "digit": "middle", "diameter": "7/8 in", "depth": "2 in", "secondaryHole": false },
            { "kind": "grip", "digit": "ring", "diameter": "27/32 in", "depth": "2 in", "secondaryHole": false }
          ]
        }
        """)!.AsObject();

    /// <summary>The same ball with the left side a quarter ounce too heavy.</summary>
    public static JsonObject TooHeavyOnTheLeft()
    {
        var sheet = Legal();
        sheet["weights"]!["leftRight"] = "-3.25 oz";
        return sheet;
    }

    /// <summary>A request to record a sheet for an entry of the demo event.</summary>
    public static JsonObject Request(JsonObject sheet, string entry = "101") =>
        new() { ["event"] = DemoEvent.Id, ["entry"] = entry, ["sheet"] = sheet };

    /// <summary>Sends a request to record under a key.</summary>
    public static Task<HttpResponseMessage> Record(this HttpClient client, JsonObject request, string? key = null) =>
        client.RecordText(request.ToJsonString(), key ?? Guid.NewGuid().ToString("N"));

    /// <summary>Sends a request as text under a key, or without one when it is empty.</summary>
    public static async Task<HttpResponseMessage> RecordText(this HttpClient client, string request, string key)
    {
        using var message = new HttpRequestMessage(HttpMethod.Post, "/api/inspections");
        message.Content = new StringContent(request, Encoding.UTF8, "application/json");
        if (key.Length > 0)
        {
            message.Headers.Add("Idempotency-Key", key);
        }

        return await client.SendAsync(message);
    }

    /// <summary>Records a sheet and reads the answer.</summary>
    public static async Task<JsonObject> Recorded(this HttpClient client, JsonObject sheet, string entry = "101")
    {
        using var answer = await client.Record(Request(sheet, entry));
        Assert.Equal(System.Net.HttpStatusCode.Created, answer.StatusCode);
        return (await answer.Content.ReadFromJsonAsync<JsonObject>())!;
    }

    /// <summary>The message that a problem gives for a path.</summary>
    public static async Task<string?> ProblemAt(this HttpResponseMessage answer, string path)
    {
        Assert.Equal("application/problem+json", answer.Content.Headers.ContentType?.MediaType);
        var problem = (await answer.Content.ReadFromJsonAsync<JsonObject>())!;
        return problem["errors"]?[path]?[0]?.GetValue<string>();
    }
}
