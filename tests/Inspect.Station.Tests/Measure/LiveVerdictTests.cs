using System.Net;
using System.Text.Json;
using System.Text.Json.Nodes;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using Inspect.Rules.Judging;
using Inspect.Station.Judge;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Record;

namespace Inspect.Station.Tests.Measure;

/// <summary>What the measuring form is answered while it is typed, and that recording it records what was seen.</summary>
public class LiveVerdictTests(SharedStation shared) : IClassFixture<SharedStation>
{
    [Fact]
    public async Task Live_WholeLegalBall_AnswersPassAndWhatOnePressRecords()
    {
        await using var station = new StationFixture();
        using var client = await station.Client("inspector");
        var page = await client.GetPage(TypedBall.Page);

        using var live = await client.SendLive(page, TypedBall.Legal);
        var answer = await live.Read();
        Assert.Equal("Pass", answer.QuerySelector("#live-outcome .verdict strong")!.TextContent);
        Assert.Empty(answer.QuerySelectorAll("#live-faults [data-field], .missing li"));
        var seen = answer.QuerySelector<IHtmlInputElement>("[name=seen]")!.Value;

        using var recorded = await client.Send(page, [.. TypedBall.Legal, ("seen", seen), ("act", "record")]);
        Assert.Equal(HttpStatusCode.Redirect, recorded.StatusCode);
        Assert.Equal("/inspections/LANTERN-0001", recorded.Headers.Location!.ToString());
    }

    [Fact]
    public async Task Record_WithTheSeenOfOtherReadings_ShowsTheNewVerdictAndRecordsNothing()
    {
        await using var station = new StationFixture();
        using var client = await station.Client("inspector");
        var page = await client.GetPage(TypedBall.Page);
        using var live = await client.SendLive(page, TypedBall.Legal);
        var seen = (await live.Read()).QuerySelector<IHtmlInputElement>("[name=seen]")!.Value;

        using var answer = await client.Send(page, [.. TypedBall.With(("weights.leftRight", "3 1/4")), ("seen", seen), ("act", "record")]);

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        Assert.Contains(
            "readings were changed", (await answer.Read()).QuerySelector("[role=alert]")!.TextContent, StringComparison.Ordinal);
        Assert.Contains(
            "None yet", (await client.GetPage("/events/LANTERN/entries/103")).QuerySelector("main")!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Live_MissingReadings_AreAShortListThatLeadsToTheirFields()
    {
        var station = shared.Station;
        using var client = await station.Client("inspector");
        var page = await client.GetPage(TypedBall.Page);

        using var live = await client.SendLive(
            page, TypedBall.With(("weights.topBottom", ""), ("hole.middle.depth", ""), ("marks.serialReadable", "")));
        var missing = (await live.Read()).QuerySelectorAll(".missing a");

        Assert.Equal(
            ["Middle depth", "Serial readable", "Top or bottom"], missing.Select(each => each.TextContent).Order(StringComparer.Ordinal));
        Assert.All(missing, link => Assert.NotNull(page.QuerySelector(link.GetAttribute("href")!)));
    }

    [Fact]
    public async Task Live_NothingMeasured_IsCalmAndOffersNoRecordUntilTheBallIsNamed()
    {
        var station = shared.Station;
        using var client = await station.Client("inspector");
        var page = await client.GetPage(TypedBall.Page);

        using var blank = await client.SendLive(page, []);
        using var named = await client.SendLive(page, [("ball.serial", "9QF31207")]);
        using var begun = await client.SendLive(page, [("ball.serial", "9QF31207"), ("weights.gross", "15-1")]);
        using var refused = await client.SendLive(page, [("ball.listed", "no"), ("ball.made", "2022-05")]);

        Assert.Equal("Nothing measured yet", page.QuerySelector(".calm")!.TextContent);
        Assert.Equal(("Nothing measured yet", null), Shown(await blank.Read()));
        Assert.Equal(("Nothing measured yet", "Record as Hold, 6 still to measure"), Shown(await named.Read()));
        Assert.Equal(("Hold", "Record as Hold, 5 still to measure"), Shown(await begun.Read()));
        Assert.Equal(("Fail", "Record as Fail"), Shown(await refused.Read()));

        static (string?, string?) Shown(IDocument answer) =>
            (answer.QuerySelector(".calm, .verdict strong")?.TextContent, answer.QuerySelector("#record")?.TextContent);
    }

    [Fact]
    public async Task Live_HoldThatOnlyLacksReadings_IsAQuieterButtonThanAPass()
    {
        var station = shared.Station;
        using var client = await station.Client("inspector");
        var page = await client.GetPage(TypedBall.Page);

        using var lacking = await client.SendLive(page, TypedBall.With(("marks.serialReadable", "")));
        using var whole = await client.SendLive(page, TypedBall.Legal);

        var quiet = (await lacking.Read()).QuerySelector("#record")!;
        Assert.Equal("Record as Hold, 1 still to measure", quiet.TextContent);
        Assert.True(quiet.ClassList.Contains("second"));
        Assert.False((await whole.Read()).QuerySelector("#record")!.ClassList.Contains("second"));
    }

    [Fact]
    public async Task Live_ImbalanceToTheOtherSide_NamesTheSideAndNoSign()
    {
        var station = shared.Station;
        using var client = await station.Client("inspector");
        var page = await client.GetPage(TypedBall.Page);

        using var live = await client.SendLive(page, TypedBall.With(("weights.fingerThumb", "1/4"), ("weights.fingerThumb.side", "thumb")));

        var row = (await live.Read())
            .QuerySelectorAll(".findings tr").Single(each => each.QuerySelector("th")!.TextContent == "Finger or thumb weight");
        Assert.Equal("1/4 oz thumb", row.QuerySelector("td")!.TextContent);
    }

    [Fact]
    public async Task Live_SidesLetterAndHoleInOneGo_AreTheSameReadingsAsTheirFields()
    {
        var station = shared.Station;
        using var client = await station.Client("inspector");
        var page = await client.GetPage(TypedBall.Page);
        using var plain = await client.SendLive(page, TypedBall.Legal);
        using var quick = await client.SendLive(page, TypedBall.With(
            ("weights.topBottom", "1 1/4 t"), ("weights.topBottom.side", ""), ("weights.fingerThumb", "1/4T"),
            ("weights.fingerThumb.side", ""),
            ("hole.thumb.diameter", "31/32 x 2 3/4"), ("hole.thumb.depth", "")));

        Assert.Equal(Seen(await plain.Read()), Seen(await quick.Read()));

        using var inWords = await client.SendLive(page, TypedBall.With(
            ("weights.topBottom", "1 1/4 oz Top"), ("weights.topBottom.side", ""), ("weights.fingerThumb", "1/4 thumb"),
            ("weights.fingerThumb.side", "")));
        Assert.Equal("1 1/4 oz top", Row(await inWords.Read(), "Top or bottom weight"));
        Assert.Equal("1/4 oz thumb", Row(await inWords.Read(), "Finger or thumb weight"));
        using var wrong = await client.SendLive(page, TypedBall.With(("weights.topBottom", "1 1/4 tip")));
        Assert.EndsWith("write 1 1/4 oz or 35.4 g.", (await wrong.Read()).LiveFault("weights.topBottom"), StringComparison.Ordinal);

        using var torn = await client.SendLive(page, TypedBall.With(("weights.leftRight", "1/2 l")));
        Assert.Contains("\"1/2 l\"", (await torn.Read()).LiveFault("weights.leftRight"), StringComparison.Ordinal);

        static string Row(IDocument answer, string rule) => answer.QuerySelectorAll(".findings tr")
            .Single(each => each.QuerySelector("th")!.TextContent == rule).QuerySelector("td")!.TextContent;
        static string Seen(IDocument answer) => answer.QuerySelector<IHtmlInputElement>("[name=seen]")!.Value;
    }

    [Theory]
    [InlineData("s 0042", "is on the ball of LANTERN-0001")]
    [InlineData("--", "has no letter or digit")]
    [InlineData("123456789012345678901", "is 21 characters long")]
    [InlineData("S-0043", null)]
    public async Task Live_TagThatCannotBeGiven_IsSaidWhileItIsTyped(string tag, string? part)
    {
        await using var station = new StationFixture();
        using var client = await station.Client("inspector");
        var tagged = SampleSheets.Request(SampleSheets.Legal());
        tagged["tag"] = "S-0042";
        using var recorded = await client.Record(tagged);
        var page = await client.GetPage(TypedBall.Page);

        using var live = await client.SendLive(page, TypedBall.With(("ball.serial", "4TN88812"), ("tag", tag)));
        var answer = await live.Read();

        Assert.Contains(part ?? "", answer.LiveFault("tag") ?? "", StringComparison.Ordinal);
        Assert.Equal("Pass", answer.QuerySelector("#live-outcome .verdict strong")!.TextContent);
        Assert.Equal((part is null, part is null), (answer.LiveFault("tag") is null, answer.QuerySelector("#record") is not null));
    }

    [Fact]
    public async Task Live_TagOfTheSameBallMeasuredAgain_IsItsOwn()
    {
        await using var station = new StationFixture();
        using var client = await station.Client("inspector");
        var tagged = SampleSheets.Request(SampleSheets.Legal(), "103");
        tagged["tag"] = "S-0042";
        using var recorded = await client.Record(tagged);
        var page = await client.GetPage($"{TypedBall.Page}?supersedes=LANTERN-0001");

        using var live = await client.SendLive(page, TypedBall.With(("tag", "S-0042")));

        Assert.Null((await live.Read()).LiveFault("tag"));
    }

    [Fact]
    public async Task Live_SignedOut_Is401AndNoPageToSignInOn()
    {
        var station = shared.Station;
        using var client = await station.Client("inspector");
        var page = await client.GetPage(TypedBall.Page);
        using var stranger = station.CreateClient();

        using var answer = await stranger.SendLive(page, TypedBall.Legal);

        Assert.Equal(HttpStatusCode.Unauthorized, answer.StatusCode);
    }

    [Theory]
    [InlineData("weights.leftRight", "at most 3 oz", "1 1/4 oz", "1 3/4 oz", Outcome.Pass, 0.416667)]
    [InlineData("weights.leftRight", "at most 3 oz", "3 1/4 oz", "-1/4 oz", Outcome.Fail, 1.083333)]
    [InlineData("weights.gross", "at most 16 lb", "15 lb 1 oz", "15 oz", Outcome.Pass, 0.941406)]
    [InlineData("size.circumference", "26.704 in to 27.002 in", "26.853 in", "0.149 in", Outcome.Pass, 0)]
    [InlineData("size.circumference", "at least 72 in", "76 in", "4 in", Outcome.Pass, 0.944444)]
    [InlineData("weights.leftRight", "under 3 oz", "3 oz", "0 oz", Outcome.Fail, 1)]
    public void MarginShare_OfAFinding_IsHowMuchOfTheLimitIsUsed(
        string path, string limit, string measured, string margin, Outcome outcome, double used)
    {
        var share = MarginShare.Of(Finding(path, limit, measured, margin, outcome))!.Value;

        Assert.Equal(used, share.Used, 1e-6);
        Assert.Equal(outcome == Outcome.Fail, share.IsOutside);
        Assert.True(share.IsOutside ? share.At > 100 : share.At < 100, "The mark stands on its own side of the limit.");
    }

    [Fact]
    public void MarginShare_OfACount_IsNone() => Assert.Null(MarginShare.Of(Finding("holes", "at most 5", "3", "2", Outcome.Pass)));

    private static Finding Finding(string path, string limit, string measured, string margin, Outcome outcome) =>
        VerdictReader.Read(JsonSerializer.SerializeToElement(new JsonObject
        {
            ["outcome"] = "pass",
            ["findings"] = new JsonArray(new JsonObject
            {
                ["rule"] = "rule",
                ["subject"] = "ball",
                ["path"] = path,
                ["outcome"] = VerdictJson.WordOf(outcome),
                ["measured"] = measured,
                ["limit"] = limit,
                ["margin"] = margin,
                ["reason"] = "",
                ["reference"] = new JsonObject { ["title"] = "", ["basis"] = "official" },
            }),
        }), VerdictJson.WordsOnly).Findings[0];
}
