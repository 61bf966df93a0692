using System.Net;
using System.Net.Http.Json;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using Inspect.Station.Tests.Ground;

namespace Inspect.Station.Tests.Web;

public class SameOriginTests
{
    [Theory]
    [InlineData(null, null, HttpStatusCode.OK)]
    [InlineData("same-origin", null, HttpStatusCode.OK)]
    [InlineData("none", null, HttpStatusCode.OK)]
    [InlineData("same-site", null, HttpStatusCode.Forbidden)]
    [InlineData("cross-site", null, HttpStatusCode.Forbidden)]
    [InlineData("cross-site", "http://localhost", HttpStatusCode.Forbidden)]
    [InlineData(null, "http://localhost", HttpStatusCode.OK)]
    [InlineData(null, "https://inspect.example.org", HttpStatusCode.OK)]
    [InlineData(null, "http://inspect.example.org", HttpStatusCode.Forbidden)]
    [InlineData(null, "http://elsewhere.example", HttpStatusCode.Forbidden)]
    [InlineData(null, "http://localhost:81", HttpStatusCode.Forbidden)]
    [InlineData(null, "null", HttpStatusCode.Forbidden)]
    public async Task ChangingRequest_ByWhereItComesFrom(string? site, string? origin, HttpStatusCode expected)
    {
        await using var station = new StationFixture(settings: new() { ["public-url"] = "https://inspect.example.org/" });
        using var client = await station.Client();
        using var request = new HttpRequestMessage(HttpMethod.Post, "/api/session");
        request.Content = JsonContent.Create(new { name = "inspector", passcode = station.Passcode });
        Add(request, "Sec-Fetch-Site", site);
        Add(request, "Origin", origin);

        using var answer = await client.SendAsync(request);

        Assert.Equal(expected, answer.StatusCode);
    }

    [Fact]
    public async Task Form_SentByAnotherSite_IsRefusedThoughItsTokenIsGood()
    {
        await using var station = new StationFixture();
        using var client = await station.Client();
        var page = await client.GetPage("/sign-in");
        var token = page.QuerySelector<IHtmlInputElement>("main input[name=__RequestVerificationToken]")!.Value;
        using var request = new HttpRequestMessage(HttpMethod.Post, "/sign-in");
        request.Content = new FormUrlEncodedContent(
            [new("__RequestVerificationToken", token), new("name", "inspector"), new("passcode", station.Passcode)]);
        Add(request, "Sec-Fetch-Site", "cross-site");

        using var answer = await client.SendAsync(request);

        Assert.Equal(HttpStatusCode.Forbidden, answer.StatusCode);
        Assert.Equal("text/html", answer.Content.Headers.ContentType!.MediaType);
    }

    private static void Add(HttpRequestMessage request, string name, string? value)
    {
        if (value is not null)
        {
            request.Headers.Add(name, value);
        }
    }
}
