using System.Net;
using Inspect.Station.Access;
using Inspect.Station.Tests.Ground;
using Microsoft.Extensions.DependencyInjection;

namespace Inspect.Station.Tests.Access;

public class SetUpTests
{
    private static readonly (string Name, string Value)[] Answers =
        [("person", "Solveig Tarnmoor"), ("name", "solveig"), ("passcode", "three wet lanterns"), ("again", "three wet lanterns")];

    [Fact]
    public async Task Post_RightCode_MakesTheFirstDirectorAndClosesThePage()
    {
        await using var station = new StationFixture(demo: false);
        using var client = await station.Client();
        var code = station.Services.GetRequiredService<SetUp>().Code;

        using var answer = await client.Send(
            await client.GetPage("/set-up"), [.. Answers, ("code", code.ToLowerInvariant().Replace("-", " ", StringComparison.Ordinal))]);

        Assert.Equal("/", answer.Headers.Location!.ToString());
        Assert.Contains("Signed in as director", (await client.GetPage("/")).Body!.TextContent, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NotFound, (await client.GetAsync("/set-up")).StatusCode);
        Assert.NotNull(station.Services.GetRequiredService<SignIns>().Check("Solveig", "three wet lanterns"));
    }

    [Fact]
    public async Task Post_AllWrong_SaysSoAtEachFieldAndKeepsWhatWasTyped()
    {
        await using var station = new StationFixture(demo: false);
        using var client = await station.Client();

        using var answer = await client.Send(
            await client.GetPage("/set-up"), ("code", "AAAA-BBBB-CCCC"), ("name", "solveig"), ("passcode", "short"), ("again", "other"));
        var page = await answer.Read();

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        Assert.Equal("Give your name as it is to appear on slips, at most 200 characters.", page.FaultAt("person"));
        Assert.Equal("The passcode is too short: it has at least 10 characters.", page.FaultAt("passcode"));
        Assert.Equal("The two passcodes differ: type the same one twice.", page.FaultAt("again"));
        Assert.Equal("This is not the code that the station printed when it last started: copy it from there.", page.FaultAt("code"));
        Assert.Equal("solveig", page.QuerySelector("#name")!.GetAttribute("value"));
        Assert.True(station.Services.GetRequiredService<SetUp>().IsOpen());
    }

    [Fact]
    public async Task AddFirst_TwoAtOnce_OnlyOneBecomesDirector()
    {
        await using var station = new StationFixture(demo: false);
        var signIns = station.Services.GetRequiredService<SignIns>();

        var made = await Task.WhenAll(
            Task.Run(() => signIns.AddFirst("Solveig Tarnmoor", "solveig", "three wet lanterns")),
            Task.Run(() => signIns.AddFirst("Odd Tarnmoor", "odd", "three dry lanterns")));

        Assert.Single(made, each => each is not null);
    }

    [Fact]
    public async Task Get_DemoStation_HasNoSetUp()
    {
        await using var station = new StationFixture();
        using var client = await station.Client();

        Assert.Equal(HttpStatusCode.NotFound, (await client.GetAsync("/set-up")).StatusCode);
    }
}
