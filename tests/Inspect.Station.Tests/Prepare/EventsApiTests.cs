using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using Inspect.Station.Tests.Ground;

namespace Inspect.Station.Tests.Prepare;

public class EventsApiTests(SharedStation shared) : IClassFixture<SharedStation>
{
    [Theory]
    [InlineData("inspector")]
    [InlineData("director")]
    public async Task List_Demo_IsOneEventThatIncludesToday(string signIn)
    {
        var station = shared.Station;
        using var client = await station.Client(signIn);

        var listed = Assert.Single((await client.GetFromJsonAsync<JsonElement>("/api/events")).EnumerateArray());

        Assert.Equal(
            ["event", "name", "from", "to", "timeZone", "authority", "squads"], listed.EnumerateObject().Select(member => member.Name));
        Assert.Equal("us-national", listed.GetProperty("authority").GetString());
        Assert.Equal(3, listed.GetProperty("squads").GetArrayLength());
        Assert.InRange(StationClock.Today, Day(listed, "from"), Day(listed, "to"));
    }

    [Fact]
    public async Task Entries_Demo_AreTwentyFourWithTheirLettersAsWritten()
    {
        await using var station = new StationFixture();
        using var client = await station.Client("inspector");

        var text = await client.GetStringAsync("/api/events/LANTERN/entries");
        using var entries = JsonDocument.Parse(text);

        Assert.Equal(24, entries.RootElement.GetArrayLength());
        Assert.Equal(["entry", "bowler"], entries.RootElement[0].EnumerateObject().Select(member => member.Name));
        Assert.Contains("Łucja Wierzbosz", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Entries_UnknownEvent_Is404()
    {
        await using var station = new StationFixture();
        using var client = await station.Client("inspector");

        using var answer = await client.GetAsync("/api/events/NOWHERE/entries");

        Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
        Assert.Contains("There is no event", await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task List_EmptyStation_IsAnEmptyList()
    {
        await using var station = new StationFixture(demo: false);
        using var client = await station.Client();

        Assert.Equal(HttpStatusCode.Unauthorized, (await client.GetAsync("/api/events")).StatusCode);
        Assert.Empty(Microsoft.Extensions.DependencyInjection.ServiceProviderServiceExtensions
            .GetRequiredService<Inspect.Station.Prepare.Events>(station.Services).All());
    }

    private static DateOnly Day(JsonElement listed, string member) =>
        DateOnly.ParseExact(listed.GetProperty(member).GetString()!, "yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture);
}
