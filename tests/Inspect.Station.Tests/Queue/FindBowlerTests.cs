using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using Inspect.Station.Prepare;
using Inspect.Station.Queue;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Record;
using Microsoft.Extensions.DependencyInjection;

namespace Inspect.Station.Tests.Queue;

/// <summary>From what is typed or scanned at the table to the bowler. Common practice of registration desks, no source.</summary>
public sealed class FindBowlerTests(SharedStation shared) : IClassFixture<SharedStation>
{
    [Theory]
    [InlineData("102", "102")]
    [InlineData(" 0102 ", "102")]
    [InlineData("lucja", "102")]
    [InlineData("wierz", "102")]
    [InlineData("quell tomas", "103")]
    [InlineData("brannock thorne", "101")]
    [InlineData("BRANNOCK-THORNE", "101")]
    [InlineData("o'hall", "122")]
    public async Task Find_OneMatch_GoesStraightToTheEntry(string typed, string entry)
    {
        var station = shared.Station;
        using var inspector = await station.Client("inspector");

        using var answer = await inspector.GetAsync($"/events/LANTERN/find?bowler={Uri.EscapeDataString(typed)}");

        Assert.Equal(HttpStatusCode.Redirect, answer.StatusCode);
        Assert.Equal($"/events/LANTERN/entries/{entry}", answer.Headers.Location!.ToString());
    }

    [Theory]
    [InlineData("ka", "111 Šárka", false)]
    [InlineData("adaku", "115 Ezinne Adaku-Hale", true)]
    public void Find_PartInsideAWord_IsNoMatch(string typed, string bowler, bool isFound)
    {
        var station = shared.Station;
        var found = station.Services.GetRequiredService<BowlerSearch>().Find(Lantern(station), typed);

        Assert.Equal(isFound, found.Matches.Any(entry => $"{entry.Number} {entry.Bowler}".StartsWith(bowler, StringComparison.Ordinal)));
    }

    [Fact]
    public async Task Find_SeveralMatches_ListsThemWithTheirSquads()
    {
        var station = shared.Station;
        using var inspector = await station.Client("inspector");

        using var answer = await inspector.GetAsync("/events/LANTERN/find?bowler=ma");
        var rows = (await answer.Read()).QuerySelectorAll(".found a");

        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Equal(["110 Wendell Marrowby squad A", "114 Matéo Villarrosa squad B"], rows.Select(
            row => string.Join(' ', row.TextContent.Split(' ', StringSplitOptions.RemoveEmptyEntries))));
        Assert.Equal("/events/LANTERN/entries/114", rows[1].GetAttribute("href"));
    }

    [Fact]
    public void Find_BeginningOfANumber_ListsAndNeverGoesStraight()
    {
        var station = shared.Station;
        var found = station.Services.GetRequiredService<BowlerSearch>().Find(Lantern(station), "12");

        Assert.Equal(["120", "121", "122", "123", "124"], found.Matches.Select(entry => entry.Number));
        Assert.False(found.IsSure);
    }

    [Theory]
    [InlineData("mirmebe", "Nobody in Quillhaven Lantern Open has the number or the name \"mirmebe\"; the nearest: 123 Mirembe.")]
    [InlineData("Desmund Okwosa", "Nobody in Quillhaven Lantern Open has the number or the name \"Desmund Okwosa\"; the nearest: 106 "
        + "Desmond Okwuosa-Lyle.")]
    [InlineData("xqzvkj", "Nobody in Quillhaven Lantern Open has the number or the name \"xqzvkj\"; try another part of the name.")]
    [InlineData("!!", "Nobody in Quillhaven Lantern Open has the number or the name \"!!\"; try another part of the name.")]
    public async Task Find_NoMatch_SaysWhoIsNearest(string typed, string sentence)
    {
        var station = shared.Station;
        using var inspector = await station.Client("inspector");

        var page = await inspector.GetPage($"/events/LANTERN/find?bowler={Uri.EscapeDataString(typed)}");

        Assert.Equal(sentence, page.FaultAt("bowler"));
        Assert.Equal(typed, page.QuerySelector<IHtmlInputElement>("#bowler")!.Value);
    }

    [Fact]
    public async Task Find_ScannedSlip_GoesToTheEntryItWasPrintedFor()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        var recorded = await inspector.Recorded(SampleSheets.Legal(), "117");
        var code = recorded["code"]!.GetValue<string>();
        var search = station.Services.GetRequiredService<BowlerSearch>();

        // As a slip carries it, as typed by hand, as a keyboard of another language writes an address, and by the number.
        foreach (var scan in (string[])[
            $"HTTP://127.0.0.1:5210/S/{code}", code, $"{code[..4]}-{code[4..8]}-{code[8..13]}-{code[13..]}".ToLowerInvariant(),
            $"httpÖ&&127.0.0.1&S&{code}", "lantern-0001"])
        {
            var found = search.Find(Lantern(station), scan);
            Assert.True(found.IsSure, $"{scan}: {found.Sentence}");
            Assert.Equal("117", Assert.Single(found.Matches).Number);
        }

        Assert.StartsWith(
            "No slip or card of this station has \"HTTP://127.0.0.1:5210/S/",
            search.Find(Lantern(station), "HTTP://127.0.0.1:5210/S/00000000000000").Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Find_SlipOfAnotherEvent_SaysSo()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        var recorded = await inspector.Recorded(SampleSheets.Legal(), "117");
        var other = Lantern(station) with { Id = "OTHER", Name = "Other Cup" };

        var found = station.Services.GetRequiredService<BowlerSearch>().Find(other, recorded["code"]!.GetValue<string>());

        Assert.Empty(found.Matches);
        Assert.EndsWith("belongs to another event; scan a slip of Other Cup.", found.Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public async Task ListEntries_WithBowler_GivesTheMatchesToPrograms()
    {
        var station = shared.Station;
        using var inspector = await station.Client("inspector");

        var found = (await inspector.GetFromJsonAsync<JsonArray>("/api/events/LANTERN/entries?bowler=thord"))!;

        Assert.Equal("""[{"entry":"105","bowler":"Þórdís Eldhamar","squad":"B"}]""", found.ToJsonString(
            new() { Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping }));
    }

    [Fact]
    public async Task Entry_WithACap_SaysHowManyBallsOfHowMany()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        using var set = await director.Send(await director.GetPage("/events/LANTERN/table"), ("mostBalls", "1"));
        Assert.Equal("/events/LANTERN/table", set.Headers.Location!.ToString());

        await director.Recorded(SampleSheets.Legal());
        Assert.Equal("1 of 1", await BallsOf(director));

        // Measured again it is the same ball; another ball is one too many, and recorded all the same.
        var again = SampleSheets.Request(SampleSheets.Legal());
        again["supersedes"] = "LANTERN-0001";
        using var replaced = await director.Record(again);
        Assert.Equal("1 of 1", await BallsOf(director));
        var other = SampleSheets.Legal();
        other["ball"]!["serial"] = "4TN88812";
        await director.Recorded(other);
        Assert.Equal("2, and this event takes 1", await BallsOf(director));
    }

    [Fact]
    public async Task Cap_ThatIsNoNumber_IsRefusedInASentence()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");

        using var answer = await director.Send(await director.GetPage("/events/LANTERN/table"), ("mostBalls", "six"));
        var page = await answer.Read();

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        Assert.Equal("\"six\" is not a number of balls; enter 1 to 99, or leave it empty for no limit.", page.FaultAt("mostBalls"));
        Assert.Equal("six", page.QuerySelector<IHtmlInputElement>("#mostBalls")!.Value);
    }

    [Fact]
    public async Task Cap_ByAnInspector_IsForbidden()
    {
        var station = shared.Station;
        using var inspector = await station.Client("inspector");

        using var answer = await inspector.GetAsync("/events/LANTERN/table");

        Assert.Equal(HttpStatusCode.Forbidden, answer.StatusCode);
    }

    private static Event Lantern(StationFixture station) => station.Services.GetRequiredService<Events>().Find("LANTERN")!;

    private static async Task<string> BallsOf(HttpClient client) =>
        (await client.GetPage("/events/LANTERN/entries/101")).QuerySelector(".facts dd")!.TextContent;
}
