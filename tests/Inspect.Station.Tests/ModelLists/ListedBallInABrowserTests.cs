using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Measure;
using Microsoft.Playwright;

namespace Inspect.Station.Tests.ModelLists;

/// <summary>A list of models brought in, and then read at the table while somebody types, in a browser.</summary>
[Collection(BrowserTests.Name)]
public sealed class ListedBallInABrowserTests(BrowserFixture browser)
{
    [Fact]
    public async Task List_IsBroughtInByHand_AndAnswersAtTheTable()
    {
        await using var station = new StationFixture().Listen();
        await using var visit = await browser.Visit(station, width: 820);
        var page = visit.Page;
        await visit.SignIn("director", station.Passcode);
        await page.GotoAsync("/lists");
        await page.GetByLabel("What it is called").FillAsync("Approved balls");
        await Press("Add the list");
        await page.GetByLabel("Models", new() { Exact = true }).FillAsync(
            "Werk;Modell;Status;RG 15;Diff 15\nOstrava Kiln;Nightjar;approved;2,480;0,050\nVellum Works;Knot;revoked;;");
        await Press("Show what the list changes");
        await page.GetByLabel("Column A has").SelectOptionAsync("maker");
        await Press("Use these columns");
        await visit.AssertAccessible(320, 1440);
        await page.GetByLabel("Day of the list").FillAsync("2026-01-01");
        await page.GetByLabel("Source").FillAsync("A letter of the body");
        await Press("Bring in 2 models");
        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Name = "2 models, of 1 January 2026" })).ToBeVisibleAsync();
        await page.GotoAsync("/events/LANTERN/lists");
        await page.GetByLabel("List of approved balls").SelectOptionAsync("1");
        await Press("Save");

        await page.SetViewportSizeAsync(1366, 768);
        await page.GotoAsync(TypedBall.Page);
        await page.Locator(".table.lively").WaitForAsync();
        await page.GetByLabel("Maker", new() { Exact = true }).FocusAsync();
        foreach (var typed in (string[])["Ostrava Kiln", "Nightjar", "9QF31207"])
        {
            await page.Keyboard.TypeAsync(typed);
            await page.Keyboard.PressAsync("Enter");
        }

        await Assertions.Expect(page.Locator("#lists-say")).ToContainTextAsync("Nightjar of Ostrava Kiln, approved");
        await page.Locator("[name='weights.gross']").FillAsync("15-1");
        await Assertions.Expect(page.Locator("#lists-say")).ToContainTextAsync("at 15 lb in \"Approved balls\": RG 2.480 in");
        var reason = page.GetByLabel("Why otherwise than the list says");
        await Assertions.Expect(reason).ToBeHiddenAsync();
        await page.Locator("[name='ball.listed'][value='no']").CheckAsync(new() { Force = true });
        await Assertions.Expect(reason).ToBeVisibleAsync();
        await visit.AssertAccessible(320, 820, 1366);
        await page.Locator("[name='ball.listed'][value='']").CheckAsync(new() { Force = true });
        await Assertions.Expect(reason).ToBeHiddenAsync();
        await page.GetByLabel("Model", new() { Exact = true }).FillAsync("Knot");
        await Assertions.Expect(page.Locator("#lists-say")).ToContainTextAsync(
            "has no Knot of Ostrava Kiln. Near it: Knot of Vellum Works.");

        Task Press(string name) =>
            page.GetByRole(AriaRole.Main).GetByRole(AriaRole.Button, new() { Name = name, Exact = true }).ClickAsync();
    }
}
