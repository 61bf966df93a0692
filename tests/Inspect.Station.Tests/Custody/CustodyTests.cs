using System.Net;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using Inspect.Station.Prepare;
using Inspect.Station.Record;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Record;
using Microsoft.Extensions.DependencyInjection;

namespace Inspect.Station.Tests.Custody;

/// <summary>Balls that the venue keeps, and what bowlers say of their inspected balls. Common practice of venues, no source.</summary>
public sealed class CustodyTests
{
    private const string Custody = "/events/LANTERN/custody";

    [Fact]
    public async Task Ball_ScannedByItsSlipOrTag_IsTakenInOnceAndGivenOut()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        using var director = await station.Client("director");
        var request = SampleSheets.Request(SampleSheets.Legal(), "103");
        request["tag"] = "S-0042";
        using var recorded = await inspector.Record(request);
        var found = station.Services.GetRequiredService<InspectionLookup>().ByNumber(new InspectionNumber("LANTERN", 1))!;

        var asked = await inspector.GetPage($"{Custody}?ball=HTTP://X.EXAMPLE/S/{found.Inspection.Code}");
        using var takenIn = await inspector.Send(TakeIn(asked), ("place", "rack 3"));
        using var again = await inspector.Send(TakeIn(asked), ("place", "rack 4"));

        Assert.Equal("/events/LANTERN/custody?done=1", takenIn.Headers.Location!.ToString());
        Assert.Equal(takenIn.Headers.Location, again.Headers.Location);
        var here = await inspector.GetPage(takenIn.Headers.Location.ToString());
        Assert.Equal("LANTERN-0001 of entry 103 is taken in, rack 3.", here.QuerySelector("[role=status]")!.Words());
        Assert.Equal("One ball is here", here.QuerySelector("#here")!.Words());
        Assert.Contains("LANTERN-0001, rack 3", (await inspector.GetPage("/events/LANTERN/entries/103")).QuerySelector(".facts")!.Words(),
            StringComparison.Ordinal);

        // By its tag it is found again, and given out to whoever comes for it.
        var tagged = await director.GetPage($"{Custody}?ball=s0042");
        var giveOut = tagged.QuerySelector<IHtmlFormElement>("form[action$='/custody/1']")!;
        Assert.Equal("103", tagged.QuerySelector<IHtmlInputElement>("#to")!.Value);
        using var nobody = await director.Send(giveOut, ("to", "9999"));
        Assert.Equal("There is no entry \"9999\" in Quillhaven Lantern Open.", (await nobody.Read()).FaultAt("to"));
        using var given = await director.Send(giveOut, ("to", "117"));
        var after = await director.GetPage(given.Headers.Location!.ToString());
        Assert.Equal("LANTERN-0001 of entry 103 is given to entry 117.", after.QuerySelector("[role=status]")!.Words());
        Assert.Equal("No ball is here", after.QuerySelector("#here")!.Words());
        Assert.Matches(
            "^LANTERN-0001 of entry 103 to entry 117 .* by Hollis Vantreight$", after.QuerySelector("ul.plain li")!.Words());

        // Later it comes back, as another stay.
        using var back = await inspector.Send(TakeIn(await inspector.GetPage($"{Custody}?ball=LANTERN-0001")));
        Assert.Equal("/events/LANTERN/custody?done=2", back.Headers.Location!.ToString());
    }

    [Theory]
    [InlineData("", "Scan the slip or the tag of the ball, or type the number of its inspection.")]
    [InlineData("LANTERN-0777", "No inspected ball of Quillhaven Lantern Open has \"LANTERN-0777\" as slip, tag or number.")]
    [InlineData("no such tag", "No inspected ball of Quillhaven Lantern Open has \"no such tag\" as slip, tag or number.")]
    public async Task Ball_ThatIsNotKnown_IsRefusedInASentence(string typed, string sentence)
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");

        var page = await inspector.GetPage($"{Custody}?ball={Uri.EscapeDataString(typed)}");

        Assert.Equal(sentence, page.FaultAt("ball"));
        Assert.Null(page.QuerySelector("form[method=post][action^='/events']"));
    }

    /// <summary>A ball that was measured again since is known by its latest inspection, whichever slip is shown.</summary>
    [Fact]
    public async Task Ball_WithAnOldSlip_IsKnownByItsLatestInspection()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        await inspector.Recorded(SampleSheets.TooHeavyOnTheLeft(), "103");
        var again = SampleSheets.Request(SampleSheets.Legal(), "103");
        again["supersedes"] = "LANTERN-0001";
        using var replaced = await inspector.Record(again);

        var page = await inspector.GetPage($"{Custody}?ball=LANTERN-0001");

        Assert.Equal("LANTERN-0002", page.QuerySelector(".facts a")!.Words());
    }

    [Fact]
    public async Task Bowler_SaysOfAFailedBall_ThatItIsSeenAndNotUsed()
    {
        await using var station = new StationFixture();
        using var bowler = await station.Client();
        using var inspector = await station.Client("inspector");
        await inspector.Recorded(SampleSheets.TooHeavyOnTheLeft(), "103");
        await inspector.Recorded(SampleSheets.Legal(), "117");
        var events = station.Services.GetRequiredService<Events>();
        var cards = await station.Services.GetRequiredService<EntryCards>().Of(events.Find("LANTERN")!, events.EntriesOf("LANTERN"));
        var page = await bowler.GetPage($"/e/{cards["103"]}");
        var said = page.QuerySelector<IHtmlFormElement>("form[action$='/said']")!;

        using var seen = await bowler.Send(said, ("said", "seen"));
        using var twice = await bowler.Send(said, ("said", "seen"));
        using var notUsed = await bowler.Send(said, ("said", "not-used"));
        using var others = await bowler.Send(said, ("number", "LANTERN-0002"), ("said", "seen"));
        using var nonsense = await bowler.Send(said, ("said", "passed"));

        Assert.All([seen, twice, notUsed], answer => Assert.Equal(HttpStatusCode.Redirect, answer.StatusCode));
        Assert.All([others, nonsense], answer => Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode));
        Assert.Matches(
            "You have seen this .* You said .* that you do not use it.",
            (await bowler.GetPage($"/e/{cards["103"]}")).QuerySelector("#inspected + ul p")!.Words());
        Assert.Contains(
            "stands, seen by the bowler, not used, says the bowler",
            (await inspector.GetPage("/events/LANTERN/entries/103")).QuerySelector(".stacks")!.Words(), StringComparison.Ordinal);
        Assert.Contains(
            "The bowler has seen what was found, ",
            (await inspector.GetPage("/inspections/LANTERN-0001")).QuerySelector("main")!.Words(), StringComparison.Ordinal);

        // A passed ball needs no such word, and can be left at home.
        Assert.Equal(
            ["I do not use it: LANTERN-0002"],
            (await bowler.GetPage($"/e/{cards["117"]}")).QuerySelectorAll("form[action$='/said'] button").Select(Html.Words));
    }

    private static IHtmlFormElement TakeIn(IDocument page) =>
        page.QuerySelector<IHtmlFormElement>("form[method=post][action$='/custody']")!;
}
