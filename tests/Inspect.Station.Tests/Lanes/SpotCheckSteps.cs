using System.Text;

namespace Inspect.Station.Tests.Lanes;

/// <summary>What tests of spot checks do over and over.</summary>
internal static class SpotCheckSteps
{
    public static async Task<HttpResponseMessage> SpotCheck(HttpClient client, string number, string body, string? key = null)
    {
        using var message = new HttpRequestMessage(HttpMethod.Post, $"/api/inspections/{number}/spot-checks");
        message.Content = new StringContent(body, Encoding.UTF8, "application/json");
        message.Headers.Add("Idempotency-Key", key ?? Guid.NewGuid().ToString("N"));
        return await client.SendAsync(message);
    }
}
