using Inspect.Station.Access;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Record;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Playwright;

namespace Inspect.Station.Tests.Prepare;

/// <summary>An empty station prepared in a browser, from the code it prints to the entry that an inspector sees.</summary>
[Collection(BrowserTests.Name)]
public sealed class PrepareByHandTests(BrowserFixture browser)
{
    // A lone director prepares an event in the hour before it: what is asked on the way is counted as it is shown.
    private const int MostFields = 29;

    [Fact]
    public async Task EmptyStation_PreparedByHand_LetsAnInspectorSeeTheEntry()
    {
        await using var station = new StationFixture(demo: false).Listen();
        await using var visit = await browser.Visit(station);
        var page = visit.Page;
        await page.GotoAsync("/set-up");
        var asked = await Fields(page);
        await SetUp(page, station.Services.GetRequiredService<SetUp>().Code);
        var tools = await page.Context.NewCDPSessionAsync(page);
        await tools.SendAsync("Emulation.setTimezoneOverride", new() { ["timezoneId"] = "America/Denver" });

        await page.GetByRole(AriaRole.Main).GetByRole(AriaRole.Link, new() { Name = "New event" }).ClickAsync();
        asked += await Fields(page);
        await Assertions.Expect(page.GetByLabel("Time zone of the venue")).ToHaveValueAsync("America/Denver");
        await page.GetByRole(AriaRole.Button, new() { Name = "Add the event" }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("3 things to put right");
        await visit.AssertAccessible();
        await page.GetByLabel("Name", new() { Exact = true }).FillAsync("Spring Singles");
        await page.GetByLabel("First day of play").FillAsync(SampleSheets.Today);
        await Assertions.Expect(page.GetByLabel("Short name")).ToHaveValueAsync($"SPRING{SampleSheets.Today[2..4]}");
        await page.GetByLabel("Short name").FillAsync("SPRING");
        await page.GetByLabel("Time zone of the venue").FillAsync("chicago");
        await page.Locator("[name='squads[0].name']").FillAsync("A");
        await page.GetByLabel("Begins").FillAsync("9:30 AM");
        await page.GetByLabel("Rules that apply").SelectOptionAsync("us-national");
        await page.GetByRole(AriaRole.Button, new() { Name = "Add the event" }).PressAsync("Enter");

        await page.GetByRole(AriaRole.Link, new() { Name = "Add entries" }).ClickAsync();
        asked += await Fields(page);
        await page.GetByLabel("Entries", new() { Exact = true }).FillAsync("7, Bartholomew Quince, A\n8, Mirembe, D");
        await page.GetByRole(AriaRole.Button, new() { Name = "Show what the list adds" }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Main)).ToContainTextAsync(
            "The squad \"D\" is not one of this event, which has A: row 2.");
        await visit.AssertAccessible(1440, 320);
        await page.GetByRole(AriaRole.Button, new() { Name = "Add 1 entry" }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Status)).ToContainTextAsync("1 entry was added.");
        await page.GetByRole(AriaRole.Link, new() { Name = "Back to the event" }).ClickAsync();

        await page.GetByRole(AriaRole.Link, new() { Name = "People" }).ClickAsync();
        asked += await Fields(page);
        await page.GetByLabel("Name", new() { Exact = true }).FillAsync("Odd Tarnmoor");
        await page.GetByLabel("Sign-in name").FillAsync("odd");
        await page.GetByRole(AriaRole.Button, new() { Name = "Add and show the passcode" }).ClickAsync();
        var passcode = await page.Locator(".passcode").TextContentAsync() ?? "";
        await visit.AssertAccessible();

        await using var tablet = await browser.Visit(station, width: 820);
        await tablet.Page.GotoAsync("/sign-in");
        asked += await Fields(tablet.Page);
        Assert.InRange(asked, 1, MostFields);
        await tablet.SignIn("odd", passcode);
        await tablet.Page.GotoAsync("/events/SPRING");
        await tablet.Page.GetByRole(AriaRole.Link, new() { Name = "7", Exact = true }).ClickAsync();
        await Assertions.Expect(tablet.Page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToHaveTextAsync("Bartholomew Quince");
        await Assertions.Expect(tablet.Page.GetByRole(AriaRole.Link, new() { Name = "People" })).ToHaveCountAsync(0);
    }

    // Every field that is shown; answers to choose from are one field.
    private static Task<int> Fields(IPage page) => page.EvaluateAsync<int>(
        """
        new Set([...document.querySelectorAll("main :is(input, select, textarea)")].filter(field => field.checkVisibility()).map(field => field.name)).size
        """);

    private static async Task SetUp(IPage page, string code)
    {
        await page.GotoAsync("/set-up");
        await page.GetByLabel("Set-up code").FillAsync(code);
        await page.GetByLabel("Your name").FillAsync("Solveig Tarnmoor");
        await page.GetByLabel("Sign-in name").FillAsync("solveig");
        await page.GetByLabel("Passcode", new() { Exact = true }).FillAsync("three wet lanterns");
        await page.GetByLabel("Passcode again").FillAsync("three wet lanterns");
        await page.GetByRole(AriaRole.Button, new() { Name = "Make the first director" }).ClickAsync();
        await page.WaitForURLAsync(url => !url.Contains("set-up", StringComparison.Ordinal));
    }
}
