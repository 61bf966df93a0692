using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Record;
using Microsoft.Playwright;

namespace Inspect.Station.Tests.Measure;

/// <summary>A scanner is a keyboard, and types a slip's code and Enter into whatever has the focus.
/// Behaviour defined by this project.</summary>
[Collection(BrowserTests.Name)]
public sealed class ScannerTests(BrowserFixture browser)
{
    [Fact]
    public async Task SlipScannedOverAMeasuringForm_IsTakenOutAgainAndLeadsToItsBowler()
    {
        await using var station = new StationFixture().Listen();
        using var program = await station.Client("inspector");
        var code = (await program.Recorded(SampleSheets.Legal(), "117"))["code"]!.ToString();
        await using var visit = await browser.Visit(station, width: 360);
        var page = visit.Page;
        await visit.SignIn("inspector", station.Passcode);
        await Scanner.Attach(page);
        await page.GotoAsync(TypedBall.Page);
        await page.Locator(".table.lively").WaitForAsync();
        var maker = page.GetByLabel("Maker");
        await maker.FillAsync("Ostrava Kiln");

        // In a field: the reading that stood there stands again, and the focus stays.
        await Scanner.Read(page, code);
        await Assertions.Expect(page.Locator(".slip-code")).ToContainTextAsync("the code of a slip");
        await Assertions.Expect(maker).ToHaveValueAsync("Ostrava Kiln");
        await Assertions.Expect(maker).ToBeFocusedAsync();
        await visit.AssertAccessible();
        await Scanner.LayDown(page);
        await page.Keyboard.TypeAsync("s");
        await Assertions.Expect(page.Locator(".slip-code")).ToHaveCountAsync(0);

        // On a question, where letters are answers: none is given. YNYNYNYNYNYNYN has the shape of a code.
        await page.Locator("[name=\"ball.listed\"]").First.FocusAsync();
        await Scanner.Read(page, "YNYNYNYNYNYNYN");
        await Assertions.Expect(page.Locator(".slip-code")).ToHaveCountAsync(1);
        await Assertions.Expect(page.Locator("[name=\"ball.listed\"]:checked")).ToHaveCountAsync(0);

        // The address as the QR code of a slip has it.
        await page.GetByRole(AriaRole.Button, new() { Name = "Size" }).ClickAsync();
        await page.GetByLabel("Circumference", new() { Exact = true }).FocusAsync();
        await Scanner.Read(page, $"{station.ClientOptions.BaseAddress}s/{code}");
        await Assertions.Expect(page.GetByLabel("Circumference", new() { Exact = true })).ToHaveValueAsync("");
        await page.GetByRole(AriaRole.Link, new() { Name = "Go to the slip's bowler" }).ClickAsync();
        await page.WaitForURLAsync("**/entries/117");
        visit.AssertNoComplaints();
    }
}
