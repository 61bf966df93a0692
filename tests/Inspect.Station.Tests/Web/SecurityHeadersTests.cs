using Inspect.Station.Tests.Ground;

namespace Inspect.Station.Tests.Web;

public class SecurityHeadersTests(SharedStation shared) : IClassFixture<SharedStation>
{
    [Theory]
    [InlineData("/")]
    [InlineData("/sign-in")]
    [InlineData("/nothing")]
    [InlineData("/api/nothing")]
    [InlineData("/health")]
    public async Task EveryAnswer_CarriesThem(string path)
    {
        var station = shared.Station;
        using var client = await station.Client();

        using var answer = await client.GetAsync(path);
        AssertCarried(answer);
    }

    [Fact]
    public async Task FileOfAPage_CarriesThemIsSmallOnTheWayAndIsKept()
    {
        var station = shared.Station;
        using var client = await station.Client();
        var style = (await client.GetPage("/")).QuerySelector("link[rel=stylesheet]")!.GetAttribute("href")!;
        using var whole = await client.GetAsync(style);
        client.DefaultRequestHeaders.Add("Accept-Encoding", "br");

        using var packed = await client.GetAsync(style);
        using var page = await client.GetAsync("/sign-in");

        AssertCarried(packed);
        Assert.Equal("br", packed.Content.Headers.ContentEncoding.Single());
        Assert.Equal("br", page.Content.Headers.ContentEncoding.Single());
        Assert.InRange((await packed.Content.ReadAsByteArrayAsync()).Length, 1, (await whole.Content.ReadAsByteArrayAsync()).Length / 2);
        Assert.Equal(TimeSpan.FromDays(365), packed.Headers.CacheControl!.MaxAge);
        Assert.True(page.Headers.CacheControl!.NoStore);
    }

    private static void AssertCarried(HttpResponseMessage answer)
    {
        Assert.Equal("nosniff", answer.Headers.GetValues("X-Content-Type-Options").Single());
        Assert.Contains("frame-ancestors 'none'", answer.Headers.GetValues("Content-Security-Policy").Single(), StringComparison.Ordinal);
        Assert.Equal("same-origin", answer.Headers.GetValues("Referrer-Policy").Single());
        Assert.False(answer.Headers.Contains("Server"));
    }

    [Fact]
    public async Task Page_AllowsNothingInline()
    {
        var station = shared.Station;
        using var client = await station.Client("director");

        using var answer = await client.GetAsync("/");
        var policy = answer.Headers.GetValues("Content-Security-Policy").Single();

        Assert.DoesNotContain("unsafe", policy, StringComparison.Ordinal);
        Assert.StartsWith("default-src 'none'", policy, StringComparison.Ordinal);
        var page = await answer.Read();
        Assert.Empty(page.QuerySelectorAll("[style], style, script:not([src]), [onclick], [onload], [onsubmit]"));
    }
}
