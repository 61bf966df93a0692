using System.Text;
using System.Text.RegularExpressions;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Record;
using Microsoft.Playwright;

namespace Inspect.Station.Tests.Desk;

/// <summary>A director's morning in a browser, from a bowler at the desk to the closing report. The
/// behaviour is defined by this project.</summary>
[Collection(BrowserTests.Name)]
public sealed class DirectorWalkTests(BrowserFixture browser)
{
    [Fact]
    public async Task Director_FromAHeldBallToTheClosingReport()
    {
        await using var station = new StationFixture().Listen();
        using var inspector = await station.Client("inspector");
        var sheet = SampleSheets.Legal();
        sheet["size"]!.AsObject().Remove("circumference");
        sheet["size"]!.AsObject().Remove("diameters");
        var number = (await inspector.Recorded(sheet, "102"))["number"]!.GetValue<string>();
        await inspector.Recorded(SampleSheets.TooHeavyOnTheLeft(), "103");
        await using var visit = await browser.Visit(station, 820);
        var page = visit.Page;
        await visit.SignIn("director", station.Passcode);

        // The name as it was heard, and the story of the ball.
        await page.GotoAsync("/desk");
        await page.GetByLabel("Find").FillAsync("wierzbos");
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.Locator(".finds tbody tr")).ToHaveCountAsync(1);
        await page.GetByRole(AriaRole.Link, new() { Name = "the ball's story" }).ClickAsync();
        await Assertions.Expect(page.GetByText("judged under National rules of the United States")).ToBeVisibleAsync();

        // A ruling that lacks its condition comes back as it was typed, and is recorded once it has one.
        await page.GetByRole(AriaRole.Link, new() { Name = $"Latest record {number}" }).ClickAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "Rule", Exact = true }).ClickAsync();
        await page.GetByRole(AriaRole.Radio, new() { Name = "Allow on a condition" }).CheckAsync();
        await page.GetByLabel("Why").FillAsync("The tape is at the other centre");
        await page.GetByRole(AriaRole.Button, new() { Name = "Record the ruling" }).ClickAsync();
        await Assertions.Expect(page.GetByLabel("Why")).ToHaveValueAsync("The tape is at the other centre");
        await page.GetByLabel("On what condition").FillAsync("measured before squad B");
        await page.GetByRole(AriaRole.Button, new() { Name = "Record the ruling" }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Allowed on a condition" })).ToBeVisibleAsync();

        // A photograph from a camera that lay on its side is upright, and the place it was taken at is gone.
        await page.GetByLabel("Add a photograph")
            .SetInputFilesAsync(new FilePayload { Name = "ball.jpg", MimeType = "image/jpeg", Buffer = await Sideways(page) });
        await page.GetByRole(AriaRole.Button, new() { Name = "Add this photograph" }).ClickAsync();
        var image = page.Locator(".photographs img");
        await image.ScrollIntoViewIfNeededAsync();
        await Assertions.Expect(image).ToHaveJSPropertyAsync("naturalWidth", 20);
        Assert.DoesNotContain(
            "GPS", Encoding.Latin1.GetString(await Bytes(page, (await image.GetAttributeAsync("src"))!)), StringComparison.Ordinal);

        // What a phone shows of it, and what is still to be done.
        await page.Locator("a[href^='/s/']").First.ClickAsync();
        await Assertions.Expect(page.Locator("h1")).ToHaveTextAsync("You may bowl with this ball until: measured before squad B");
        await page.GotoAsync("/desk/events/LANTERN/open");
        await Assertions.Expect(page.Locator(".open-list > li").First).ToContainTextAsync("Condition: measured before squad B");
        await visit.AssertAccessible();

        await page.GetByRole(AriaRole.Link, new() { Name = "Desk" }).First.ClickAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "Register" }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Sign and keep one now" }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Link, new() { Name = "checkpoint", Exact = true })).ToHaveCountAsync(1);
        await visit.AssertAccessible();

        await page.GotoAsync("/desk/events/LANTERN/charts");
        await Assertions.Expect(page.GetByRole(AriaRole.Main)).ToContainTextAsync(new Regex("Inspections\\s*2"));

        await page.GotoAsync("/events/LANTERN");
        await page.GetByRole(AriaRole.Link, new() { Name = "Closing reports" }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Issue the report" }).ClickAsync();
        await Assertions.Expect(page.Locator("#issued ~ .open-list li")).ToContainTextAsync("counts");
        await visit.AssertAccessible();
        var report = await page.Locator("#issued ~ .open-list .who a").GetAttributeAsync("href");
        Assert.StartsWith("%PDF-", Encoding.Latin1.GetString(await Bytes(page, report!)), StringComparison.Ordinal);
    }

    /// <summary>A picture 40 wide and 20 high that the browser wrote, with the Exif of a camera held
    /// upright (orientation 6) and a place.</summary>
    private static async Task<byte[]> Sideways(IPage page)
    {
        var url = await page.EvaluateAsync<string>("(() => { const c = document.createElement('canvas'); c.width = 40; c.height = 20; "
            + "c.getContext('2d').fillRect(0, 0, 40, 20); return c.toDataURL('image/jpeg'); })()");
        var drawn = Convert.FromBase64String(url[(url.IndexOf(',', StringComparison.Ordinal) + 1)..]);
        return [.. drawn[..2], .. JpegMetadataTests.Exif(isLittle: true, way: 6), .. drawn[2..]];
    }

    private static async Task<byte[]> Bytes(IPage page, string address)
    {
        var answer = await page.Context.APIRequest.GetAsync(new Uri(new Uri(page.Url), address).ToString());
        Assert.True(answer.Ok, $"{address}: {answer.Status}");
        return await answer.BodyAsync();
    }
}
