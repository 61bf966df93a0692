using System.Net;
using System.Net.Http.Json;
using System.Text;
using System.Text.Json.Nodes;
using Inspect.Station.Storage;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Record;
using Microsoft.Extensions.DependencyInjection;

namespace Inspect.Station.Tests.Judge;

/// <summary>Judging for anyone, with nothing kept. The behaviour is defined by this project; the
/// verdicts follow the published rules.</summary>
public sealed class JudgeApiTests(SharedStation shared) : IClassFixture<SharedStation>
{
    [Fact]
    public async Task Judge_LegalSheet_PassesAndKeepsNothing()
    {
        var station = shared.Station;
        using var anyone = await station.Client();

        using var answer = await anyone.PostAsJsonAsync("/api/judge", With("authority", "us-national"));

        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        var verdict = (await answer.Content.ReadFromJsonAsync<JsonObject>())!;
        Assert.Equal("pass", verdict["outcome"]!.GetValue<string>());
        Assert.Equal(0, station.Services.GetRequiredService<WriteGate>().Head.Size);
    }

    // A side weight of 1.5 oz without a balance hole: USBC, USBC Adjusts Timeline for New Bowling Ball Specifications, 16 June 2018.
    [Theory]
    [InlineData("2018-07-31", "fail")]
    [InlineData("2018-08-01", "pass")]
    public async Task Judge_DayOfPlay_PicksTheEdition(string play, string outcome)
    {
        var station = shared.Station;
        using var anyone = await station.Client();
        var sheet = With("authority", "us-national");
        sheet["play"] = play;
        sheet["weights"]!["leftRight"] = "1.5 oz";

        using var answer = await anyone.PostAsJsonAsync("/api/judge", sheet);

        Assert.Equal(outcome, (await answer.Content.ReadFromJsonAsync<JsonObject>())!["outcome"]!.GetValue<string>());
    }

    [Fact]
    public async Task Judge_BeforeTheFirstEdition_HoldsWithoutEdition()
    {
        var station = shared.Station;
        using var anyone = await station.Client();
        var sheet = With("authority", "us-national");
        sheet["play"] = "2010-01-01";

        using var answer = await anyone.PostAsJsonAsync("/api/judge", sheet);

        var verdict = (await answer.Content.ReadFromJsonAsync<JsonObject>())!;
        Assert.Equal(["outcome", "cause", "findings"], verdict.Select(member => member.Key));
        Assert.Equal("no-edition", verdict["cause"]!.GetValue<string>());
    }

    [Theory]
    [InlineData("authority", "lunar", "authority")]
    [InlineData("edition", "us-national/2018-08-02", "edition")]
    public async Task Judge_UnknownRules_AreRefusedAtTheirPath(string member, string value, string path)
    {
        var station = shared.Station;
        using var anyone = await station.Client();

        using var answer = await anyone.PostAsJsonAsync("/api/judge", With(member, value));

        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Contains(value, await answer.ProblemAt(path), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("{ \"play\": ")]
    [InlineData("[]")]
    [InlineData("")]
    [InlineData("null")]
    public async Task Judge_NoSheet_IsAProblemAtTheRoot(string body)
    {
        var station = shared.Station;
        using var anyone = await station.Client();

        using var answer = await anyone.PostAsync("/api/judge", new StringContent(body, Encoding.UTF8, "application/json"));

        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.NotNull(await answer.ProblemAt("$"));
    }

    private static JsonObject With(string member, string value)
    {
        var sheet = SampleSheets.Legal();
        sheet[member] = value;
        return sheet;
    }
}
