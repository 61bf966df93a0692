using Inspect.Station.Prepare;
using Inspect.Station.Tests.Ground;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Playwright;

namespace Inspect.Station.Tests.Prepare;

/// <summary>A director puts an event and its entries right in a browser. The behaviour is defined by this project.</summary>
[Collection(BrowserTests.Name)]
public sealed class ChangeInABrowserTests(BrowserFixture browser)
{
    [Fact]
    public async Task Director_ChangesAnEventAndMergesTwoEntries()
    {
        await using var station = new StationFixture().Listen();
        await using var visit = await browser.Visit(station, 390);
        var page = visit.Page;
        await visit.SignIn("director", station.Passcode);
        await page.GotoAsync("/events/LANTERN");
        await page.GetByRole(AriaRole.Link, new() { Name = "Change this event" }).ClickAsync();
        await page.GetByLabel("Name", new() { Exact = true }).FillAsync("Harbour Open");
        await page.GetByRole(AriaRole.Button, new() { Name = "Add a squad" }).ClickAsync();
        await page.Locator("[name='squads[4].name']").FillAsync("E");
        await page.Locator("[name='squads[4].time']").FillAsync("half ten");
        await visit.AssertAccessible();

        // Enter saves, it adds no further squad.
        await page.Locator("[name='squads[4].time']").PressAsync("Enter");
        await Assertions.Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("\"half ten\" is not a time of day");
        await visit.AssertAccessible(390, 820);
        await page.Locator("[name='squads[4].time']").FillAsync("6:30 pm");
        await page.Locator("[name='squads[4].time']").PressAsync("Enter");
        await page.WaitForURLAsync("**/events/LANTERN");
        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToHaveTextAsync("Harbour Open");
        Assert.Equal(4, station.Services.GetRequiredService<Events>().Find("LANTERN")!.Squads.Count);
        await visit.AssertAccessible();

        await page.GotoAsync("/events/LANTERN/entries/102");
        await page.GetByRole(AriaRole.Link, new() { Name = "Change, withdraw or merge" }).ClickAsync();
        await page.GetByLabel("Number of the other entry of this bowler").FillAsync("101");
        await page.GetByRole(AriaRole.Button, new() { Name = "Show both" }).ClickAsync();
        await page.GetByLabel("101, Aoife Brannock-Thorne").CheckAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Merge the two" }).ClickAsync();
        await page.WaitForURLAsync("**/events/LANTERN/entries/101");
        await page.GotoAsync("/events/LANTERN/entries/102");
        await Assertions.Expect(page.GetByRole(AriaRole.Status).First).ToContainTextAsync("Entry 102 was merged into 101");
        await visit.AssertAccessible();
        await page.GotoAsync("/events/LANTERN/entries/102/change");
        await visit.AssertAccessible();
        await page.GotoAsync("/events/LANTERN?find=aoife#entries");
        await Assertions.Expect(page.GetByRole(AriaRole.Row)).ToHaveCountAsync(8);
        await visit.AssertAccessible();
        await page.GotoAsync("/events/LANTERN/delete");
        await Assertions.Expect(page.GetByRole(AriaRole.Button, new() { Name = "Delete the event and its 24 entries" })).ToBeVisibleAsync();
        await visit.AssertAccessible();
    }
}
