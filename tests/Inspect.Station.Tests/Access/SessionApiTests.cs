using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using Inspect.Station.Tests.Ground;

namespace Inspect.Station.Tests.Access;

public class SessionApiTests(SharedStation shared) : IClassFixture<SharedStation>
{
    [Theory]
    [InlineData("inspector", "inspector")]
    [InlineData("director", "director")]
    [InlineData(" INSPECTOR ", "inspector")]
    public async Task Post_RightPasscode_GivesTheCookieAndTheRole(string name, string role)
    {
        var station = shared.Station;
        using var client = await station.Client();

        using var answer = await client.PostAsJsonAsync("/api/session", new { name, passcode = station.Passcode });

        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Equal(role, (await answer.Content.ReadFromJsonAsync<JsonElement>()).GetProperty("role").GetString());
        var cookie = Assert.Single(answer.Headers.GetValues("Set-Cookie"));
        Assert.Contains("httponly", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("samesite=strict", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("secure", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.Equal(HttpStatusCode.OK, (await client.GetAsync("/api/events")).StatusCode);
    }

    [Fact]
    public async Task Post_OverHttps_MakesTheCookieSecure()
    {
        var station = shared.Station;
        using var client = station.CreateClient(new() { BaseAddress = new Uri("https://localhost") });

        using var answer = await client.PostAsJsonAsync("/api/session", new { name = "inspector", passcode = station.Passcode });

        Assert.Contains("secure", Assert.Single(answer.Headers.GetValues("Set-Cookie")), StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public async Task Post_WrongPasscodeOrUnknownName_AreRefusedInTheSameWords()
    {
        await using var station = new StationFixture();
        using var client = await station.Client();

        using var wrong = await client.PostAsJsonAsync("/api/session", new { name = "inspector", passcode = "not this one" });
        using var unknown = await client.PostAsJsonAsync("/api/session", new { name = "nobody", passcode = "not this one" });

        Assert.Equal(HttpStatusCode.Unauthorized, wrong.StatusCode);
        Assert.Equal(HttpStatusCode.Unauthorized, unknown.StatusCode);
        Assert.Equal(await Detail(wrong), await Detail(unknown));
    }

    [Fact]
    public async Task Post_SixthWrongTry_HasToWaitEvenWithTheRightPasscode()
    {
        await using var station = new StationFixture();
        using var client = await station.Client();
        for (var i = 0; i < 5; i++)
        {
            using var wrong = await client.PostAsJsonAsync("/api/session", new { name = "inspector", passcode = "not this one" });
        }

        using var answer = await client.PostAsJsonAsync("/api/session", new { name = "inspector", passcode = station.Passcode });

        Assert.Equal(HttpStatusCode.TooManyRequests, answer.StatusCode);
        Assert.InRange(answer.Headers.RetryAfter!.Delta!.Value.TotalSeconds, 1, 30);
        Assert.Equal("application/problem+json", answer.Content.Headers.ContentType!.MediaType);
    }

    [Fact]
    public async Task Post_MembersMissing_NamesBothAtOnce()
    {
        var station = shared.Station;
        using var client = await station.Client();

        using var answer = await client.PostAsJsonAsync("/api/session", new { });

        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        var errors = (await answer.Content.ReadFromJsonAsync<JsonElement>()).GetProperty("errors");
        Assert.Equal("Give the name to sign in with.", errors.GetProperty("name")[0].GetString());
        Assert.Equal("Give the passcode.", errors.GetProperty("passcode")[0].GetString());
    }

    [Fact]
    public async Task Delete_TakesTheCookieBack()
    {
        var station = shared.Station;
        using var client = await station.Client("inspector");

        using var answer = await client.DeleteAsync("/api/session");

        Assert.Equal(HttpStatusCode.NoContent, answer.StatusCode);
        Assert.Equal(HttpStatusCode.Unauthorized, (await client.GetAsync("/api/events")).StatusCode);
    }

    [Fact]
    public async Task Cookie_AfterARestartWithTheSamePasscode_IsStillGood()
    {
        var folder = StationFixture.NewFolder();
        string cookie;
        await using (var first = new StationFixture(folder: folder))
        {
            using var client = await first.Client();
            using var answer = await client.PostAsJsonAsync("/api/session", new { name = "inspector", passcode = first.Passcode });
            cookie = answer.Headers.GetValues("Set-Cookie").Single().Split(';')[0];
        }

        await using var second = new StationFixture(folder: folder);
        using var request = new HttpRequestMessage(HttpMethod.Get, "/api/events");
        request.Headers.Add("Cookie", cookie);
        using var again = await (await second.Client()).SendAsync(request);

        Assert.Equal(HttpStatusCode.OK, again.StatusCode);
    }

    private static async Task<string?> Detail(HttpResponseMessage answer) =>
        (await answer.Content.ReadFromJsonAsync<JsonElement>()).GetProperty("detail").GetString();
}
