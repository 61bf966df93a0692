using Inspect.Station.Queue;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Record;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Playwright;

namespace Inspect.Station.Tests.Queue;

/// <summary>A morning in a browser with keys only: door, wall, next, entry, record, next.</summary>
[Collection(BrowserTests.Name)]
public sealed class QueueInABrowserTests(BrowserFixture browser)
{
    [Fact]
    public async Task Morning_FromTheDoorToTheSecondBowler_NeedsKeysOnly()
    {
        await using var station = new StationFixture().Listen();
        await using var visit = await browser.Visit(station);
        var page = visit.Page;
        await visit.SignIn("inspector", station.Passcode);

        // At the door: a scanner types a number and Enter; a name is picked from the matches with the arrow keys.
        await page.GotoAsync("/events/LANTERN/door");
        await Assertions.Expect(page.GetByRole(AriaRole.Combobox)).ToBeFocusedAsync();
        await page.Keyboard.TypeAsync("103\n");
        await Assertions.Expect(page.Locator(".marked")).ToContainTextAsync("103 Tomás Ibarrondo Quell is in: number 1 of 1.");
        await Assertions.Expect(page.GetByRole(AriaRole.Combobox)).ToBeFocusedAsync();
        await page.Keyboard.TypeAsync("ma");
        var options = page.GetByRole(AriaRole.Listbox, new() { Name = "Bowlers" }).GetByRole(AriaRole.Option);
        await Assertions.Expect(options).ToHaveCountAsync(2);
        await page.Keyboard.PressAsync("ArrowDown");
        await page.Keyboard.PressAsync("ArrowDown");
        await Assertions.Expect(options.Nth(1)).ToHaveAttributeAsync("aria-selected", "true");
        await Assertions.Expect(page.GetByLabel("Mark a bowler in", new() { Exact = true }))
            .ToHaveAttributeAsync("aria-activedescendant", "bowler-match-1");
        await visit.AssertAccessible();
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.Locator(".marked")).ToContainTextAsync("114 Matéo Villarrosa is in: number");
        var first = station.Services.GetRequiredService<BowlerQueue>()
            .Of(station.Services.GetRequiredService<Inspect.Station.Prepare.Events>().Find("LANTERN")!).Waiting[0].Entry;
        var second = first == "103" ? "114" : "103";

        // The wall has no sign-in and follows by itself.
        await station.Services.GetRequiredService<Inspect.Station.Storage.WriteGate>()
            .Run(write => EventTables.SetWall(write, "LANTERN", isOpen: true));
        await using var wall = await browser.Visit(station, 1920);
        await wall.Page.GotoAsync($"/events/LANTERN/wall/{station.Services.GetRequiredService<EventTables>().Of("LANTERN").WallWord}");
        await Assertions.Expect(wall.Page.Locator(".next-up strong")).ToHaveTextAsync([first, second]);

        // A table is opened, and one key calls.
        await page.GotoAsync("/events/LANTERN/queue");
        await page.GetByLabel("Your table").FillAsync("Table 7");
        await page.Keyboard.PressAsync("Enter");

        // The hint of the key shows once the script listens.
        await page.Locator(".next kbd").WaitForAsync();
        await page.Keyboard.PressAsync("n");
        await page.WaitForURLAsync($"**/entries/{first}");
        await Assertions.Expect(page.GetByRole(AriaRole.Link, new() { Name = "Inspect a ball" })).ToBeFocusedAsync();
        await visit.AssertAccessible();
        await Assertions.Expect(wall.Page.Locator(".called .now")).ToContainTextAsync("Table 7");
        await wall.AssertAccessible();

        // A scanner types faster than a hand: the letters of a code are no keys, and Enter presses nothing but looks the code up.
        await Scanner.Attach(page);
        await page.ReloadAsync();
        await page.Locator(".next kbd").WaitForAsync();
        await Scanner.Read(page, "N0N0N0N0N0N0N0");
        await page.WaitForURLAsync("**/find?bowler=N0N0N0N0N0N0N0");
        await page.GoBackAsync();
        await page.Locator(".next kbd").WaitForAsync();
        await Scanner.Read(page, second);
        await page.WaitForURLAsync($"**/entries/{second}");
        await page.GotoAsync($"/events/LANTERN/entries/{first}");
        await Assertions.Expect(page.GetByText("Called to Table 7.")).ToBeVisibleAsync();

        // A ball is recorded, and on its page the same key finishes and calls.
        using var program = await station.Client("inspector");
        await program.Recorded(SampleSheets.Legal(), first);
        var again = SampleSheets.Request(SampleSheets.TooHeavyOnTheLeft(), first);
        again["supersedes"] = "LANTERN-0001";
        again["workDone"] = "Plugged and drilled anew";
        using var recorded = await program.Record(again);
        await page.GotoAsync("/inspections/LANTERN-0002");
        await page.SetViewportSizeAsync(360, 900);
        await visit.AssertAccessible();
        await page.Keyboard.PressAsync("n");
        await page.WaitForURLAsync($"**/entries/{second}");
        await Assertions.Expect(page.GetByText("Called to Table 7.")).ToBeVisibleAsync();

        // The key of the search leads to the field from wherever one is, and in the field it is a letter.
        await page.Keyboard.PressAsync("/");
        await page.WaitForURLAsync("**/find");
        await Assertions.Expect(page.GetByRole(AriaRole.Combobox)).ToBeFocusedAsync();
        await page.Keyboard.TypeAsync("n/lucja\n");
        await Assertions.Expect(page.Locator("#bowler-fault")).ToContainTextAsync("\"n/lucja\"");
        visit.AssertNoComplaints();
    }
}
