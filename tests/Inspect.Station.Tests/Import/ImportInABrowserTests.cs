using Inspect.Station.Storage;
using Inspect.Station.Tests.Ground;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Playwright;

namespace Inspect.Station.Tests.Import;

/// <summary>A file dropped, its columns put right, seen and added, in a browser.</summary>
[Collection(BrowserTests.Name)]
public sealed class ImportInABrowserTests(BrowserFixture browser)
{
    [Fact]
    public async Task File_DroppedOnTheCard_IsMatchedSeenAndAdded()
    {
        await using var station = new StationFixture().Listen();
        await using var visit = await browser.Visit(station, width: 820);
        var page = visit.Page;
        await visit.SignIn("director", station.Passcode);
        await page.GotoAsync("/events/LANTERN/entries/add");
        await page.EvaluateAsync(
            """
            text => {
              const dropped = new DataTransfer();
              dropped.items.add(new File([text], "list.csv", { type: "text/csv" }));
              document.querySelector(".drop").dispatchEvent(new DragEvent("drop", { dataTransfer: dropped, bubbles: true, cancelable: true }));
            }
            """,
            System.Text.Encoding.UTF8.GetString(UglyFiles.UnknownHeads));

        await page.GetByLabel("Row with the column heads").SelectOptionAsync("1");
        await page.GetByLabel("Column A is").SelectOptionAsync("ignored");
        await page.GetByLabel("Column B is").SelectOptionAsync("name");
        await page.GetByLabel("Column C is").SelectOptionAsync("squad");
        await page.GetByLabel("Column D is").SelectOptionAsync("number");
        await page.GetByRole(AriaRole.Button, new() { Name = "Use these columns" }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Add 2 entries" }).ClickAsync();

        await Assertions.Expect(page.GetByRole(AriaRole.Status)).ToContainTextAsync("2 entries were added.");
        Assert.Contains(("412", "Petra Ashdown", "B"), station.Entries());
        await visit.AssertAccessible();
    }

    [Fact]
    public async Task Progress_IsFollowedWithoutLoadingThePageAgain()
    {
        await using var station = new StationFixture().Listen();
        await using var visit = await browser.Visit(station, width: 360);
        var page = visit.Page;
        await visit.SignIn("director", station.Passcode);
        await page.GotoAsync("/events/LANTERN/entries/add");
        await page.GetByLabel("Entries", new() { Exact = true }).FillAsync("412, Petra Ashdown, B\n413, Idris Ashdown, B");
        await page.GetByRole(AriaRole.Button, new() { Name = "Show what the list adds" }).ClickAsync();
        using var hold = new ManualResetEventSlim();
        var held = station.Services.GetRequiredService<WriteGate>().Run(write => hold.Wait(TimeSpan.FromMinutes(2)));

        await page.GetByRole(AriaRole.Button, new() { Name = "Add 2 entries" }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Status)).ToContainTextAsync("0 of 2");
        await visit.AssertAccessible(320, 1440);
        hold.Set();
        await held;

        await Assertions.Expect(page.GetByRole(AriaRole.Status)).ToContainTextAsync("2 entries were added.");
        Assert.Contains(("413", "Idris Ashdown", "B"), station.Entries());
    }
}
