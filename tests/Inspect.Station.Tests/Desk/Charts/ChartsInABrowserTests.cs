using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Record;

namespace Inspect.Station.Tests.Desk.Charts;

/// <summary>The charts of a small event on a phone, in both themes: WCAG 2.2 as axe checks it.</summary>
[Collection(BrowserLooks.Name)]
public class ChartsInABrowserTests(BrowserFixture browser)
{
    [Fact]
    public async Task Charts_OnAPhone_AreAccessibleAndAsWideAsTheScreen()
    {
        await using var station = new StationFixture().Listen();
        using var inspector = await station.Client("inspector");
        using var director = await station.Client("director");
        await inspector.Recorded(SampleSheets.Legal());
        await inspector.Recorded(SampleSheets.TooHeavyOnTheLeft(), "102");
        var open = SampleSheets.Legal();
        open["size"]!.AsObject().Remove("circumference");
        await director.Recorded(open, "103");
        await using var visit = await browser.Visit(station, 360);
        await visit.SignIn("director", station.Passcode);

        await visit.Page.GotoAsync("/desk/events/LANTERN/charts");
        await visit.Page.EvaluateAsync("document.querySelectorAll('details').forEach(each => each.open = true)");

        Assert.True(await visit.Page.Locator("svg[role=img]").CountAsync() > 8);
        await visit.AssertAccessible();
    }
}
