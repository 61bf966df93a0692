using System.Net;
using System.Net.Http.Json;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using Inspect.Station.Tests.Ground;

namespace Inspect.Station.Tests.Web;

public class SameOriginTests
{
    private static readonly (string? Site, string? Origin, HttpStatusCode Expected)[] Sent =
    [
        (null, null, HttpStatusCode.OK),
        ("same-origin", null, HttpStatusCode.OK),
        ("none", null, HttpStatusCode.OK),
        ("same-site", null, HttpStatusCode.Forbidden),
        ("cross-site", null, HttpStatusCode.Forbidden),
        ("cross-site", "http://localhost", HttpStatusCode.Forbidden),
        (null, "http://localhost", HttpStatusCode.OK),
        (null, "https://inspect.example.org", HttpStatusCode.OK),
        (null, "http://inspect.example.org", HttpStatusCode.Forbidden),
        (null, "http://elsewhere.example", HttpStatusCode.Forbidden),
        (null, "http://localhost:81", HttpStatusCode.Forbidden),
        (null, "null", HttpStatusCode.Forbidden),
    ];

    [Fact]
    public async Task ChangingRequest_ByWhereItComesFrom()
    {
        await using var station = new StationFixture(settings: new() { ["public-url"] = "https://inspect.example.org/" });
        using var client = await station.Client();
        foreach (var (site, origin, expected) in Sent)
        {
            using var request = new HttpRequestMessage(HttpMethod.Post, "/api/session");
            request.Content = JsonContent.Create(new { name = "inspector", passcode = station.Passcode });
            Add(request, "Sec-Fetch-Site", site);
            Add(request, "Origin", origin);

            using var answer = await client.SendAsync(request);

            Assert.True(expected == answer.StatusCode, $"{site}, {origin}: {answer.StatusCode}");
        }
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
