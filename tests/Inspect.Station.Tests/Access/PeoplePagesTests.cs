using System.Net;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using Inspect.Station.Access;
using Inspect.Station.Tests.Ground;
using Microsoft.Extensions.DependencyInjection;

namespace Inspect.Station.Tests.Access;

/// <summary>Who may sign in, on pages without script. The behaviour is defined by this project.</summary>
public class PeoplePagesTests
{
    [Fact]
    public async Task Add_GoodAnswers_ShowsThePasscodeOnceAndItWorks()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");

        using var answer = await Add(director, ("person", "Odd Tarnmoor"), ("name", "odd"), ("role", "inspector"));
        var shown = await director.GetPage(answer.Headers.Location!.ToString());
        var passcode = shown.QuerySelector(".passcode")!.TextContent;

        Assert.Equal(Role.Inspector, station.Services.GetRequiredService<SignIns>().Check("odd", passcode)!.Role);
        Assert.Null((await director.GetPage(answer.Headers.Location.ToString())).QuerySelector(".passcode"));
    }

    [Fact]
    public async Task Add_Passcode_IsNotShownToAnotherDirector()
    {
        await using var station = new StationFixture();
        await station.Services.GetRequiredService<SignIns>().TryAdd("Solveig Tarnmoor", "solveig", station.Passcode, Role.Director);
        using var director = await station.Client("director");
        using var other = await station.Client("solveig");

        using var answer = await Add(director, ("person", "Odd Tarnmoor"), ("name", "odd"));

        Assert.Null((await other.GetPage(answer.Headers.Location!.ToString())).QuerySelector(".passcode"));
        Assert.NotNull((await director.GetPage(answer.Headers.Location.ToString())).QuerySelector(".passcode"));
    }

    [Fact]
    public async Task Add_AllWrong_SaysSoAtEachFieldAndLosesNothing()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");

        using var answer = await Add(director, ("name", "INSPECTOR"), ("role", "caddie"));
        var page = await answer.Read();

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        Assert.Equal("Give the name as it is to appear on slips, at most 200 characters.", page.FaultAt("person"));
        Assert.Equal("Choose whether this is an inspector or a director.", page.FaultAt("role"));
        Assert.Equal("INSPECTOR", page.QuerySelector<IHtmlInputElement>("#name")!.Value);

        using var taken = await Add(director, ("person", "Odd Tarnmoor"), ("name", "INSPECTOR"));
        Assert.Equal("\"INSPECTOR\" is already somebody's sign-in name; give another one.", (await taken.Read()).FaultAt("name"));
    }

    [Fact]
    public async Task Disable_AnInspector_EndsTheSessionUntilANewPasscode()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        using var inspector = await station.Client("inspector");

        using var disabled = await Press(director, "disable", "inspector");

        Assert.Equal("/people", disabled.Headers.Location!.ToString());
        Assert.Equal(HttpStatusCode.Found, (await inspector.GetAsync("/events")).StatusCode);
        Assert.Null(station.Services.GetRequiredService<SignIns>().Check("inspector", station.Passcode));
        Assert.Contains(
            "Inspector, disabled, signs in as inspector", (await director.GetPage("/people")).Body!.TextContent, StringComparison.Ordinal);

        using var renewed = await Press(director, "passcode", "inspector");
        var passcode = (await director.GetPage(renewed.Headers.Location!.ToString())).QuerySelector(".passcode")!.TextContent;
        Assert.NotNull(station.Services.GetRequiredService<SignIns>().Check("inspector", passcode));
    }

    [Fact]
    public async Task Disable_Oneself_IsRefused()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        var form = (await director.GetPage("/people")).QuerySelector<IHtmlFormElement>("form[action='/people/disable']")!;

        using var answer = await director.Send(form, ("name", "Director"));

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        Assert.Contains(
            "another director has to disable it", (await answer.Read()).QuerySelector(".summary")!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Disable_TwoDirectorsEachOther_OneStays()
    {
        await using var station = new StationFixture();
        var signIns = station.Services.GetRequiredService<SignIns>();
        var one = signIns.Check("director", station.Passcode)!;
        var other = (await signIns.TryAdd("Solveig Tarnmoor", "solveig", station.Passcode, Role.Director))!;

        var done = await Task.WhenAll(signIns.Disable("solveig", one), signIns.Disable("director", other));

        Assert.Single(done, each => each);
    }

    [Fact]
    public async Task RenewPasscode_OnesOwn_StaysSignedInToReadIt()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");

        using var answer = await Press(director, "passcode", "director");
        var page = await director.GetPage(answer.Headers.Location!.ToString());

        Assert.NotNull(station.Services.GetRequiredService<SignIns>().Check("director", page.QuerySelector(".passcode")!.TextContent));
    }

    private static async Task<HttpResponseMessage> Add(HttpClient director, params (string Name, string Value)[] answers) =>
        await director.Send((await director.GetPage("/people")).QuerySelector<IHtmlFormElement>("#add")!, answers);

    private static async Task<HttpResponseMessage> Press(HttpClient director, string act, string name)
    {
        var page = await director.GetPage("/people");
        var form = page.QuerySelectorAll<IHtmlFormElement>($"form[action='/people/{act}']")
            .First(each => each.QuerySelector<IHtmlInputElement>("[name=name]")!.Value == name);
        return await director.Send(form);
    }
}
