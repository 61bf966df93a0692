using Inspect.Station.Tests.Ground;
using Microsoft.Playwright;

namespace Inspect.Station.Tests.BeforeDrilling;

/// <summary>The page in Chromium: nothing for axe to find in either theme, nothing wider than the screen, and a depth that is
/// dragged.</summary>
[Collection(BrowserLooks.Name)]
public class BeforeDrillingInABrowserTests(BrowserFixture browser)
{
    private const string Full =
        "/before-drilling?size=8.5&gross=15-0&top=3.5&hand=left&edition=us-national/2020-08-01&chart=middle&thumb.diameter=1+1/16"
        + "&thumb.depth=2+3/4&middle.diameter=31/32&middle.depth=2&middle.sideways=3/8&ring.diameter=15/16&ring.depth=4+5/8&ring.sideways=3/8&rg=2.48&diff=0.05"
        + "&pin.arc=3&pin.direction=75&mark.arc=0.75&mark.direction=10&scale=4.1";

    [Fact]
    public async Task Page_EmptyFullAndWithAFault_IsAccessible()
    {
        await using var station = new StationFixture().Listen();
        await using var visit = await browser.Visit(station);
        await Look("/before-drilling", 360, 820);
        await Look(Full, 360, 1440);
        await Look("/before-drilling?size=8,5&gross=15-0", 360);

        async Task Look(string address, params int[] widths)
        {
            await visit.Page.GotoAsync(address);
            await visit.Page.EvaluateAsync("document.querySelectorAll('details').forEach(each => each.open = true)");
            await visit.AssertAccessible(widths);
        }
    }

    [Fact]
    public async Task Depth_Dragged_ShowsAtOnceWhatItDoesAndKeepsThePlanInTheAddress()
    {
        await using var station = new StationFixture().Listen();
        await using var visit = await browser.Visit(station);
        await visit.Page.GotoAsync("/before-drilling");
        var weight = visit.Page.Locator(".compare tbody tr").First.Locator("td").First;
        var before = await weight.TextContentAsync();

        await visit.Page.GetByRole(AriaRole.Slider).FillAsync("3.5");

        await Assertions.Expect(visit.Page.GetByLabel("thumb depth, inches")).ToHaveValueAsync("3 1/2");
        await Assertions.Expect(weight).Not.ToHaveTextAsync(before!);
        await Assertions.Expect(visit.Page).ToHaveURLAsync(new System.Text.RegularExpressions.Regex("thumb.depth=3\\+1%2F2"));
        var after = await weight.TextContentAsync();
        await visit.Page.ReloadAsync();
        await Assertions.Expect(weight).ToHaveTextAsync(after!);
        visit.AssertNoComplaints();
    }

    [Fact]
    public async Task Field_ThatCannotBeRead_GreysTheAnswerAndSaysWhy()
    {
        await using var station = new StationFixture().Listen();
        await using var visit = await browser.Visit(station);
        await visit.Page.GotoAsync("/before-drilling");
        var (depth, outcome) = (visit.Page.GetByLabel("thumb depth, inches"), visit.Page.Locator("#outcome"));
        await Assertions.Expect(outcome).ToContainTextAsync("as far as holes can tell");
        await Assertions.Expect(outcome).Not.ToHaveClassAsync("outcome waits");

        await depth.FillAsync("2 3/");

        await Assertions.Expect(outcome).ToHaveClassAsync("outcome waits");
        await Assertions.Expect(outcome.Locator(".no-verdict")).ToContainTextAsync("No answer: \"2 3/\"");
        await visit.AssertAccessible();
        await depth.FillAsync("2 3/4");
        await Assertions.Expect(outcome).Not.ToHaveClassAsync("outcome waits");
        await Assertions.Expect(outcome.Locator(".no-verdict")).ToHaveCountAsync(0);

        await visit.Page.Context.SetOfflineAsync(true);
        await depth.FillAsync("2 1/4");
        await Assertions.Expect(outcome.Locator(".no-verdict")).ToHaveTextAsync("No answer: the station is not reached.");
        await Assertions.Expect(outcome).ToHaveClassAsync("outcome waits");
    }
}
