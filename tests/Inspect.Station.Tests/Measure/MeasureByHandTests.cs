using Inspect.Station.Tests.Ground;
using Microsoft.Playwright;

namespace Inspect.Station.Tests.Measure;

/// <summary>A ball entered by hand in a browser: the keyboard only, the verdict seen, recorded, the slip opened, the scan read on a phone.</summary>
[Collection(BrowserTests.Name)]
public sealed class MeasureByHandTests(BrowserFixture browser)
{
    [Fact]
    public async Task Inspector_WithKeyboardOnly_RecordsALegalBallAndReadsItsScanOnAPhone()
    {
        await using var station = new StationFixture().Listen();
        await using var visit = await browser.Visit(station);
        var page = visit.Page;
        await visit.SignIn("inspector", station.Passcode);
        await visit.AssertAccessible();
        await page.GotoAsync("/events/LANTERN/entries/103/balls/new");
        await visit.AssertAccessible();

        await TypeLegalBall(page);
        await page.GetByRole(AriaRole.Button, new() { Name = "Judge", Exact = true }).FocusAsync();
        await page.Keyboard.PressAsync("Enter");
        await page.GetByRole(AriaRole.Button, new() { Name = "Record as Pass" }).WaitForAsync();
        await visit.AssertAccessible();
        await page.GetByRole(AriaRole.Button, new() { Name = "Record as Pass" }).FocusAsync();
        await page.Keyboard.PressAsync("Enter");

        await page.WaitForURLAsync("**/inspections/LANTERN-0001");
        await visit.AssertAccessible();
        var slip = await page.APIRequest.GetAsync(await Href(page, "Print the slip"));
        Assert.Equal("application/pdf", slip.Headers["content-type"]);

        await using var phone = await browser.Visit(station, width: 360);
        await phone.Page.GotoAsync(await page.GetByRole(AriaRole.Main).Locator("a[href^='/s/']").GetAttributeAsync("href") ?? "");
        Assert.Equal("Pass", await phone.Page.Locator(".scanned .verdict strong").TextContentAsync());
        await phone.AssertAccessible();
    }

    [Fact]
    public async Task Inspector_ChangesAReadingAfterTheVerdict_IsShownTheNewVerdictBeforeItIsRecorded()
    {
        await using var station = new StationFixture().Listen();
        await using var visit = await browser.Visit(station);
        var page = visit.Page;
        await visit.SignIn("inspector", station.Passcode);
        await page.GotoAsync("/events/LANTERN/entries/103/balls/new");
        await TypeLegalBall(page);
        await page.GetByRole(AriaRole.Button, new() { Name = "Judge", Exact = true }).ClickAsync();

        await page.GetByLabel("Left or right", new() { Exact = true }).FillAsync("3 1/4");
        await page.GetByRole(AriaRole.Button, new() { Name = "Record as Pass" }).ClickAsync();

        await page.GetByRole(AriaRole.Button, new() { Name = "Record as Fail" }).WaitForAsync();
        Assert.Contains("readings were changed", await page.GetByRole(AriaRole.Alert).TextContentAsync(), StringComparison.Ordinal);
        Assert.Equal("3 1/4", await page.GetByLabel("Left or right", new() { Exact = true }).InputValueAsync());
        await visit.AssertAccessible();
    }

    [Fact]
    public async Task Inspector_TypesNonsense_SeesTheSentenceAtTheFieldAndLosesNothing()
    {
        await using var station = new StationFixture().Listen();
        await using var visit = await browser.Visit(station, width: 360);
        var page = visit.Page;
        await visit.SignIn("inspector", station.Passcode);
        await page.GotoAsync("/events/LANTERN/entries/103/balls/new");
        await TypeLegalBall(page);

        await page.GetByLabel("Gross weight").FillAsync("15,1");
        await page.GetByLabel("thumb depth, inches").FillAsync("deep");
        await page.GetByRole(AriaRole.Button, new() { Name = "Judge", Exact = true }).ClickAsync();

        var summary = page.GetByRole(AriaRole.Alert);
        Assert.Contains("\"15,1\" has a comma", await summary.TextContentAsync(), StringComparison.Ordinal);
        Assert.Contains("\"deep\" is not", await page.Locator("#hole-thumb-depth-fault").TextContentAsync(), StringComparison.Ordinal);
        Assert.Equal("15,1", await page.GetByLabel("Gross weight").InputValueAsync());
        Assert.Equal("7/8", await page.GetByLabel("middle diameter, inches").InputValueAsync());
        await visit.AssertAccessible();
    }

    /// <summary>Tabs through the form from its first field, typing as it goes: no pointer is used.</summary>
    private static async Task TypeLegalBall(IPage page)
    {
        await Type(page, "Maker", "Ostrava Forge");
        await Type(page, "Model", "Nightjar");
        await Type(page, "Serial number", "9QF31207");
        await Choose(page, "ball-listed");
        await Choose(page, "grip-hand");
        await Choose(page, "grip-demonstrated");
        foreach (var digit in new[] { "grip-digits", "grip-digits-middle", "grip-digits-ring" })
        {
            await Choose(page, digit);
        }

        await Type(page, "Gross weight", "15-1");
        await TypeSide(page, "Top or bottom", "1 1/4", "top");
        await TypeSide(page, "Left or right", "1/2", "right");
        await TypeSide(page, "Finger or thumb", "1/4", "thumb");
        foreach (var (hole, diameter, depth) in new[] { ("thumb", "31/32", "2 3/4"), ("middle", "7/8", "2"), ("ring", "27/32", "2") })
        {
            await Type(page, $"{hole} diameter, inches", diameter);
            await Type(page, $"{hole} depth, inches", depth);
        }

        await Choose(page, "holes-second");
        await Choose(page, "holes-other");
        await Type(page, "Diameter", "8.580");
        await Type(page, "Diameter, turned", "8.582");
        await Type(page, "Circumference", "26.95");
        await Choose(page, "marks-modelReadable");
        await Choose(page, "marks-serialReadable");
        await Choose(page, "marks-foreignMaterial");
        await Choose(page, "marks-surfacePattern");
    }

    private static async Task Type(IPage page, string label, string text)
    {
        await page.GetByLabel(label, new() { Exact = true }).FocusAsync();
        await page.Keyboard.PressAsync("Control+A");
        await page.Keyboard.TypeAsync(text);
    }

    private static async Task TypeSide(IPage page, string label, string text, string side)
    {
        await Type(page, label, text);
        await page.GetByRole(AriaRole.Group, new() { Name = $"{label}: heavier side" }).GetByLabel(side).FocusAsync();
        await page.Keyboard.PressAsync("Space");
    }

    private static async Task Choose(IPage page, string id)
    {
        await page.Locator($"#{id}").FocusAsync();
        await page.Keyboard.PressAsync("Space");
    }

    private static async Task<string> Href(IPage page, string link) =>
        await page.GetByRole(AriaRole.Link, new() { Name = link }).GetAttributeAsync("href") ?? throw new InvalidOperationException($"The link {link} leads nowhere.");
}
