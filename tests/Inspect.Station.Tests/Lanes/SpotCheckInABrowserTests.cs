using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Record;
using Microsoft.Playwright;

namespace Inspect.Station.Tests.Lanes;

/// <summary>A spot check on a phone, with a thumb and with the keys alone.</summary>
[Collection(BrowserTests.Name)]
public sealed class SpotCheckInABrowserTests(BrowserFixture browser)
{
    [Fact]
    public async Task OnAPhone_TwoTapsSayThatItIsTheBall_AndKeysThatItIsNot()
    {
        await using var station = new StationFixture().Listen();
        using var inspector = await station.Client("inspector");
        var recorded = await inspector.Recorded(SampleSheets.Legal());
        await using var visit = await browser.Visit(station, 390, hasTouch: true);
        await visit.SignIn("inspector", station.Passcode);
        var page = visit.Page;
        await page.GotoAsync($"/s/{recorded["code"]}");
        await page.GetByRole(AriaRole.Link, new() { Name = "Spot check this ball" }).TapAsync();
        await Assertions.Expect(page.GetByLabel("Remark")).ToBeHiddenAsync();

        await page.GetByLabel("It is the ball", new() { Exact = true }).TapAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Send" }).TapAsync();

        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToHaveTextAsync("Recorded: it is the ball");

        await page.GetByRole(AriaRole.Link, new() { Name = "Compare again" }).PressAsync("Enter");
        await page.GetByLabel("It is the ball", new() { Exact = true }).PressAsync("ArrowRight");
        await page.Keyboard.PressAsync("Tab");
        await page.Keyboard.PressAsync("Tab");
        await page.Keyboard.PressAsync("Space");
        await Assertions.Expect(page.GetByLabel("Serial")).ToBeCheckedAsync();
        await page.GetByLabel("Remark").FillAsync("Another number");
        await page.GetByRole(AriaRole.Button, new() { Name = "Send" }).PressAsync("Enter");

        await Assertions.Expect(page.GetByRole(AriaRole.Main)).ToContainTextAsync("Differs: serial. Another number.");
        await visit.AssertAccessible(390);
    }
}
