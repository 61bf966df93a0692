using System.Text;
using System.Text.Json.Nodes;
using Inspect.Station.Tests.Record;

namespace Inspect.Station.Tests.Decide;

/// <summary>What tests of rulings do over and over.</summary>
internal static class RulingSteps
{
    // Nobody looked at the circumference: the rule is open.
    public static JsonObject Undecided()
    {
        var sheet = SampleSheets.Legal();
        sheet["size"]!.AsObject().Remove("circumference");
        sheet["size"]!.AsObject().Remove("diameters");
        return sheet;
    }

    public static Task<HttpResponseMessage> Rule(HttpClient client, string number, string decision, string reason, string? condition = null)
    {
        var body = new JsonObject { ["decision"] = decision, ["reason"] = reason };
        if (condition is not null)
        {
            body["condition"] = condition;
        }

        return Send(client, number, body.ToJsonString());
    }

    public static async Task<HttpResponseMessage> Send(HttpClient client, string number, string body, string? key = null)
    {
        using var message = new HttpRequestMessage(HttpMethod.Post, $"/api/inspections/{number}/rulings");
        message.Content = new StringContent(body, Encoding.UTF8, "application/json");
        message.Headers.Add("Idempotency-Key", key ?? Guid.NewGuid().ToString("N"));
        return await client.SendAsync(message);
    }
}
