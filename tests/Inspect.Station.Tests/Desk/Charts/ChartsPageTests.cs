using System.Net;
using System.Text.Json.Nodes;
using AngleSharp.Dom;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Record;

namespace Inspect.Station.Tests.Desk.Charts;

/// <summary>The charts of an event say what the records say: counts are compared with the verdicts that recording answered.</summary>
public sealed class ChartsPageTests
{
    private const string Address = "/desk/events/LANTERN/charts";

    [Fact]
    public async Task Charts_OfSeveralBalls_CountWhatTheRecordsSay()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        using var inspector = await station.Client("inspector");
        var answers = new List<JsonObject>
        {
            await inspector.Recorded(SampleSheets.Legal()),
            await inspector.Recorded(SampleSheets.TooHeavyOnTheLeft(), "102"),
            await director.Recorded(SampleSheets.TooHeavyOnTheLeft(), "103"),
            await director.Recorded(WithoutCircumference(), "104"),
        };

        var page = await director.GetPage(Address);

        Assert.Equal(
            ["4", "4", "1 (25 %)", "2 (50 %)", "1 (25 %)", "0"], page.QuerySelectorAll(".tally dd").Select(each => each.TextContent));
        Assert.Contains("Side weight is not met most often: 2 of 2 failures.", page.Body!.TextContent, StringComparison.Ordinal);
        Assert.Equal(CountOf("fail"), Rows(page, "The rules as a table").Sum(
            row => int.Parse(row[1], System.Globalization.CultureInfo.InvariantCulture)));
        Assert.Equal(["Circumference", "0", "1"], Rows(page, "The rules as a table").Single(row => row[0] == "Circumference"));
        var side = Rows(page, "The readings as a table").Single(row => row[0] == "Side weight");
        Assert.Equal(["Side weight", "at most 3 oz", "4", "-3.25 oz", "-3.25 oz", "0.5 oz", "2", "0"], side);
        Assert.Equal([["1", "2"], ["1", "2"]], Rows(page, "Inspector as a table").Select(row => row[1..3]));
        Assert.Contains("No reading of these inspections names the instrument", page.Body.TextContent, StringComparison.Ordinal);
        Assert.Contains("No ball was inspected again, and no reading was taken twice.", page.Body.TextContent, StringComparison.Ordinal);

        int CountOf(string outcome) => answers.Sum(answer => answer["verdict"]!["findings"]!.AsArray()
            .Count(finding => finding!["outcome"]!.GetValue<string>() == outcome));
    }

    /// <summary>Three of seventeen are 17.6 %: drawn on an axis that ends at 20 %.</summary>
    [Fact]
    public async Task Charts_ThreeOfSeventeen_AreDrawnOnAnAxisThatFitsThem()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        using var inspector = await station.Client("inspector");
        for (var i = 0; i < 17; i++)
        {
            await inspector.Recorded(i < 3 ? SampleSheets.TooHeavyOnTheLeft() : SampleSheets.Legal(), $"{101 + i}");
        }

        var page = await director.GetPage(Address);

        var rules = page.QuerySelector("[aria-labelledby=rules] figure > svg")!;
        var (grid, bar) = (rules.QuerySelectorAll(".pic-grid"), rules.QuerySelector("rect.pic-fail")!);
        Assert.Equal(["0 %", "5 %", "10 %", "15 %", "20 %"], rules.QuerySelectorAll(".pic-tick").Select(tick => tick.TextContent));
        Assert.Equal(
            3 / 17.0 / 0.2,
            Number(bar.GetAttribute("width")!) / (Number(grid[^1].GetAttribute("d")!) - Number(grid[0].GetAttribute("d")!)), 3);
    }

    [Fact]
    public async Task Charts_OfALookTwice_TellWhatFlippedAndWhichInstrument()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        using var director = await station.Client("director");
        var heavy = SampleSheets.Legal();
        heavy["weights"]!["leftRight"] = "3.01 oz";
        var request = SampleSheets.Request(heavy);
        request["observations"] = JsonNode.Parse(
            """
            [{ "path": "weights.leftRight", "text": "3.04 oz", "instrument": "Scale A", "trial": 1 },
             { "path": "weights.leftRight", "text": "2.98 oz", "instrument": "Scale A", "trial": 2 },
             { "path": "weights.topBottom", "text": "1.25 oz", "instrument": "Scale B", "trial": 1 },
             { "path": "weights.topBottom", "text": "1.25 oz", "instrument": "Scale B", "trial": 2 }]
            """);
        using var first = await inspector.Record(request);
        var number = JsonNode.Parse(await first.Content.ReadAsStringAsync())!["number"]!.GetValue<string>();
        var again = SampleSheets.Request(SampleSheets.Legal());
        again["supersedes"] = number;
        using var second = await inspector.Record(again);
        Assert.Equal(HttpStatusCode.Created, second.StatusCode);

        var page = await director.GetPage(Address);

        Assert.Contains("1 ball was inspected again, and 1 gave another result. 2 readings were taken twice, and "
            + "1 crossed the limit.", page.Body!.TextContent, StringComparison.Ordinal);
        Assert.Equal(["Ball: fail", "pass", "1"], Rows(page, "What the second look said")[0]);
        Assert.Equal([["Scale A", "1", "1"], ["Scale B", "0", "1"]], Rows(page, "Instrument as a table").Select(row => row[..3]));
        Assert.Equal(
            ["2", "1", "1 (50 %)", "1 (50 %)", "0 (0 %)", "1"], page.QuerySelectorAll(".tally dd").Select(each => each.TextContent));
    }

    [Fact]
    public async Task Charts_OfNothingOneBallOrNoFit_SaySoInASentence()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");

        var nothing = await director.GetPage(Address);
        await director.Recorded(SampleSheets.Legal());
        var one = await director.GetPage(Address);
        var noFit = await director.GetPage(Address + "?squad=B");
        var fit = await director.GetPage($"{Address}?squad=A&day={SampleSheets.Today}");

        Assert.Contains("No ball was inspected at this event yet.", nothing.Body!.TextContent, StringComparison.Ordinal);
        Assert.Null(nothing.QuerySelector("svg[role=img]"));
        Assert.Contains("Every rule that was checked was met.", one.Body!.TextContent, StringComparison.Ordinal);
        Assert.Contains("so there is nobody to compare with: 0 of 1: 0 to 98 % failed", one.Body.TextContent, StringComparison.Ordinal);
        Assert.Contains("No inspection of this event fits what is chosen above.", noFit.Body!.TextContent, StringComparison.Ordinal);
        Assert.Equal("1", fit.QuerySelector(".tally dd")!.TextContent);
        Assert.Equal("A", fit.QuerySelector<AngleSharp.Html.Dom.IHtmlSelectElement>("#squad")!.Value);
    }

    [Fact]
    public async Task Charts_OfOpenPointsOnly_SayThatNothingFailed()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        await director.Recorded(JsonNode.Parse($$"""{ "play": "{{SampleSheets.Today}}" }""")!.AsObject());

        var page = await director.GetPage(Address);

        Assert.Contains("No rule was failed. What stayed open is drawn.", page.Body!.TextContent, StringComparison.Ordinal);
        Assert.Contains(
            "No reading of these inspections was compared with a limit in figures.", page.Body.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Charts_OfAnUnknownChoice_SayItAtItsField()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        using var inspector = await station.Client("inspector");

        using var answer = await director.GetAsync(Address + "?day=2001-01-01&squad=Z&inspector=nobody");
        using var forInspector = await inspector.GetAsync(Address);
        using var unknown = await director.GetAsync("/desk/events/NOSUCH/charts");
        var page = await answer.Read();

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        Assert.Equal("\"2001-01-01\" is not a day of play of this event; choose one from the list.", page.FaultAt("day"));
        Assert.Equal("\"Z\" is not a squad of this event; choose one from the list.", page.FaultAt("squad"));
        Assert.Equal("\"nobody\" has recorded nothing at this event; choose one from the list.", page.FaultAt("inspector"));
        Assert.NotEqual(HttpStatusCode.OK, forInspector.StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, unknown.StatusCode);
    }

    // The first number of an attribute, such as the 4 of "M4 18V60".
    private static double Number(string text) => double.Parse(
        System.Text.RegularExpressions.Regex.Match(text, @"[0-9.]+").Value, System.Globalization.CultureInfo.InvariantCulture);

    private static JsonObject WithoutCircumference()
    {
        var sheet = SampleSheets.Legal();
        sheet["size"]!.AsObject().Remove("circumference");
        return sheet;
    }

    private static List<string[]> Rows(IDocument page, string table) =>
        page.QuerySelector($"[aria-label='{table}'] tbody")!.QuerySelectorAll("tr")
        .Select(row => row.Children.Select(cell => cell.TextContent.Trim()).ToArray()).ToList();
}
