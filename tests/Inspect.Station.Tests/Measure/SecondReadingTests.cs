using System.Net;
using System.Text.Json.Nodes;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Record;

namespace Inspect.Station.Tests.Measure;

/// <summary>Values worked out of several readings: the ball turned on the scale, and a second look
/// where the first was near a limit.</summary>
public class SecondReadingTests(SharedStation shared) : IClassFixture<SharedStation>
{
    [Fact]
    public async Task TwoPositions_HalfTheDifference_IsRecordedWithBothReadingsAndTheScalesZeroError()
    {
        await using var station = new StationFixture();
        using var client = await station.Client("inspector");
        var page = await client.GetPage(TypedBall.Page);
        var typed = TypedBall.With(("weights.topBottom", "1 1/4"), ("weights.topBottom.turned", "1 t"));

        using var live = await client.SendLive(page, typed);
        var outcome = (await live.Read()).QuerySelector("#live-outcome")!;

        // The scale showed 1 1/4 oz as the ball lay, and -1 oz turned.
        Assert.Contains("Top or bottom: 1 1/8 oz, of 1 1/4 oz, -1 oz turned; zero error "
            + "of the scale 1/8 oz.", outcome.QuerySelector(".several")!.TextContent, StringComparison.Ordinal);

        var seen = outcome.QuerySelector("[name=seen]")!.GetAttribute("value")!;
        using var recorded = await client.Send(page, [.. typed, ("seen", seen), ("act", "record")]);
        var record = await client.GetPage(recorded.Headers.Location!.ToString());
        Assert.Contains("zero error of the scale 1/8 oz", record.QuerySelector(".several")!.TextContent, StringComparison.Ordinal);
        var row = record.QuerySelectorAll(".findings tbody tr")
            .Single(each => each.TextContent.Contains("Top or bottom", StringComparison.Ordinal));
        Assert.Contains("1 1/8 oz", row.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task SecondReading_NearALimit_IsAskedForAndTheSheetHasTheMean()
    {
        var station = shared.Station;
        using var client = await station.Client("inspector");
        var page = await client.GetPage(TypedBall.Page);
        Assert.NotNull(page.QuerySelector(".again[data-of=\"weights.leftRight\"][hidden]"));

        using var plain = await client.SendLive(page, TypedBall.Legal);
        Assert.Empty((await plain.Read()).QuerySelectorAll("[data-again]"));
        using var near = await client.SendLive(page, TypedBall.With(("weights.leftRight", "2 7/8"), ("hole.thumb.depth", "4 1/4")));
        Assert.Equal(["weights.leftRight", "hole.thumb.depth"], (await near.Read()).QuerySelectorAll("[data-again]").Select(
            each => each.GetAttribute("data-again")).OrderDescending());

        using var again = await client.SendLive(page, TypedBall.With(
            ("weights.leftRight", "2 7/8"), ("weights.leftRight.again", "3 1/8 r"), ("hole.thumb.depth", "4 1/4"),
            ("hole.thumb.depth.again", "4 1/2")));
        var outcome = (await again.Read()).QuerySelector("#live-outcome")!;
        Assert.Empty(outcome.QuerySelectorAll("[data-again]"));
        Assert.Equal("Pass", outcome.QuerySelector(".verdict strong")!.TextContent);
        Assert.Contains("Left or right: 3 oz, of 2 7/8 oz, 3 1/8 oz at the second look; the "
            + "readings differ by 1/4 oz.", outcome.QuerySelector(".several")!.TextContent, StringComparison.Ordinal);
        Assert.Contains("Thumb depth: 4 3/8 in", outcome.QuerySelector(".several")!.TextContent, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("1/2", "14.2 g", "enter both in the same unit")]
    [InlineData("", "1/2", "enter the first reading as well")]
    public async Task SecondReading_WithNothingExactToWorkOut_IsRefusedAtItsField(string first, string second, string sentence)
    {
        var station = shared.Station;
        using var client = await station.Client("inspector");
        var page = await client.GetPage(TypedBall.Page);

        using var live = await client.SendLive(page, TypedBall.With(
            ("weights.leftRight", first), ("weights.leftRight.again", second), ("weights.leftRight.again.side", "right")));

        Assert.Contains(sentence, (await live.Read()).LiveFault("weights.leftRight.again"), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("1.125 oz", null)]
    [InlineData("1.2 oz", "it is half their difference, \"1.125 oz\"")]
    public async Task Observations_InTwoPositions_LeadToTheSheetsValueExactly(string value, string? refusal)
    {
        await using var station = new StationFixture();
        using var client = await station.Client("inspector");
        var sheet = SampleSheets.Legal();
        sheet["weights"]!["topBottom"] = value;
        var request = SampleSheets.Request(sheet);
        request["observations"] = JsonNode.Parse(
            """[{ "path": "weights.topBottom", "text": "1.25 oz", "turned": false }, { "path": "weights.topBottom", "text": "-1 oz", "turned": true }]""");

        using var answer = await client.Record(request);

        Assert.Equal(refusal is null ? HttpStatusCode.Created : HttpStatusCode.BadRequest, answer.StatusCode);
        if (refusal is not null)
        {
            Assert.Contains(refusal, await answer.ProblemAt("observations[1].text"), StringComparison.Ordinal);
        }
    }
}
