using Inspect.Station.Tests.Desk.Charts;
using Inspect.Station.Tests.Ground;
using Microsoft.Playwright;

namespace Inspect.Station.Tests.Instruments;

/// <summary>A whole walk in a browser: a scale is added, put in use, checked, studied, and fails; each page is accessible on the way. The
/// behaviour is defined by this project.</summary>
[Collection(BrowserTests.Name)]
public class InstrumentsByHandTests(BrowserFixture browser)
{
    [Fact]
    public async Task Scale_FromAddingToItsFailure_CanBeWorkedByHandOnAPhone()
    {
        await using var station = new StationFixture().Listen();
        await using var visit = await browser.Visit(station, 360);
        var page = visit.Page;
        await visit.SignIn("director", station.Passcode);

        await page.GotoAsync("/instruments");
        await Press("Add an instrument", AriaRole.Link);
        await Press("Scale", AriaRole.Link);
        await page.GetByLabel("Short name").FillAsync("Scale 1");
        await page.GetByLabel("Smallest step shown").FillAsync("0.1");
        await Press("Add this instrument");
        await visit.AssertAccessible();

        await page.GotoAsync("/instruments");
        await page.GetByLabel("Scale", new() { Exact = true }).SelectOptionAsync("Scale 1");
        await Press("Use these");
        await visit.AssertAccessible();

        await page.GotoAsync("/instruments/Scale%201/studies/new?parts=3&inspectors=2&trials=2");
        await visit.AssertAccessible();
        await page.GetByLabel("What was studied").FillAsync("Three balls");
        for (var cell = 0; cell < 12; cell++)
        {
            await page.Locator($"[name='cell[{cell / 4}][{cell % 4}]']")
                .FillAsync(FormattableString.Invariant($"{(cell / 4) + 1}.{cell % 3}"));
        }

        await page.GetByLabel("Name of inspector 1").FillAsync("Bartholomew Quince-Marrowby");
        await page.GetByLabel("Name of ball 2").FillAsync("Nightjar 9QF31207, second grip");
        await page.GetByLabel("Name of ball 3").FillAsync("Nightjar 9QF31208, second grip");
        await Press("Calculate and save");
        await Assertions.Expect(page.GetByRole(AriaRole.Img)).ToHaveCountAsync(2);
        Assert.Equal("", string.Join('\n', await page.EvaluateAsync<string[]>(Labels.ThatTouch)));
        await visit.AssertAccessible();

        await page.GotoAsync("/instruments/Scale%201/check");
        await visit.AssertAccessible();
        await page.GetByLabel("Shows when empty").FillAsync("0");
        await page.Locator("[name='points[0].nominal']").FillAsync("100 g");
        await page.Locator("[name='points[0].class']").SelectOptionAsync("M1");
        await page.Locator("[name='points[0].shown']").FillAsync("103 g");
        await Press("Check and sign");
        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Name = "This check fails" })).ToBeVisibleAsync();
        await visit.AssertAccessible();
        await Press("Record that it failed");
        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToHaveTextAsync("Failed check of Scale 1");
        await visit.AssertAccessible();

        Task Press(string name, AriaRole role = AriaRole.Button) =>
            page.GetByRole(AriaRole.Main).GetByRole(role, new() { Name = name, Exact = true }).ClickAsync();
    }
}
