using System.Net;
using System.Net.Http.Json;
using Inspect.Station.Tests.Ground;

namespace Inspect.Station.Tests.Web;

public class RateLimitsTests
{
    [Fact]
    public async Task SignIn_ManyNamesFromOneAddress_IsStopped()
    {
        await using var station = new StationFixture();
        using var client = await station.Client();

        var statuses = new List<HttpStatusCode>();
        for (var i = 0; i < 60 && !statuses.Contains(HttpStatusCode.TooManyRequests); i++)
        {
            using var answer = await client.PostAsJsonAsync("/api/session", new { name = $"guess {i}", passcode = "" });
            statuses.Add(answer.StatusCode);
            if (answer.StatusCode == HttpStatusCode.TooManyRequests)
            {
                Assert.NotNull(answer.Headers.RetryAfter);
                Assert.Equal("application/problem+json", answer.Content.Headers.ContentType!.MediaType);
            }
        }

        Assert.Contains(HttpStatusCode.TooManyRequests, statuses);
        Assert.All(statuses.Take(30), status => Assert.Equal(HttpStatusCode.BadRequest, status));
    }
}
