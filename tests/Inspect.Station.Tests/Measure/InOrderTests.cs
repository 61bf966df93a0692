using System.Net.Http.Json;
using System.Text.Json.Nodes;
using AngleSharp.Dom;
using Inspect.Sheets.Form;
using Inspect.Station.Tests.Ground;

namespace Inspect.Station.Tests.Measure;

/// <summary>One answer for all that is looked at, with and without script; each is a rule of the editions.</summary>
public sealed class InOrderTests
{
    private static readonly (string Name, string Value)[] Asked =
        [.. TypedBall.Legal.Where(field => FormFields.LookedAt.All(each => each.Field != field.Name))];

    [Fact]
    public async Task Unanswered_IsOneQuestionThatLeadsToItsField()
    {
        await using var station = new StationFixture();
        using var client = await station.Client("inspector");
        var page = await client.GetPage(TypedBall.Page);

        using var live = await client.SendLive(page, Asked);
        var answer = await live.Read();

        var missing = Assert.Single(answer.QuerySelectorAll(".missing a"));
        Assert.Equal(("Surface and markings", "#marks-inOrder"), (missing.TextContent, missing.GetAttribute("href")));
        Assert.NotNull(page.GetElementById("marks-inOrder"));
        Assert.Contains("once surface and markings are answered", answer.QuerySelector("#live-outcome")!.Words(), StringComparison.Ordinal);
        Assert.Null(answer.QuerySelector("#record"));
    }

    [Fact]
    public async Task InOrder_WithoutScript_AnswersEachAndIsRecordedAsEach()
    {
        await using var station = new StationFixture();
        using var client = await station.Client("inspector");

        using var judged = await client.Send(await client.GetPage(TypedBall.Page), [.. Asked, ("marks.inOrder", "yes"), ("act", "judge")]);
        var page = await judged.Read();
        using var recorded = await client.Send(page, ("act", "record"));
        var record = (await client.GetFromJsonAsync<JsonNode>($"/api{recorded.Headers.Location}"))!;

        Assert.Equal("Pass", page.QuerySelector(".verdict strong")!.TextContent);
        Assert.All(FormFields.LookedAt, each => Assert.Equal(each.Good, Answer(page, each.Field)));
        Assert.Equal("yes", Answer(page, "marks.inOrder"));
        Assert.True(JsonNode.DeepEquals(
            JsonNode.Parse("""{ "modelReadable": true, "serialReadable": true, "foreignMaterial": false, "surfacePattern": false }"""),
            record["sheet"]!["marks"]));
        Assert.All(record["sheet"]!["holes"]!.AsArray(), hole => Assert.False((bool)hole!["secondaryHole"]!));
    }

    [Fact]
    public async Task AnAnswerThatIsNotInOrder_CountsMoreAndOpensTheQuestions()
    {
        await using var station = new StationFixture();
        using var client = await station.Client("inspector");

        using var judged = await client.Send(
            await client.GetPage(TypedBall.Page),
            [.. Asked, ("marks.inOrder", "yes"), ("marks.foreignMaterial", "yes"), ("act", "judge")]);
        var page = await judged.Read();

        Assert.Equal("Fail", page.QuerySelector(".verdict strong")!.TextContent);
        Assert.Equal(
            ("no", "yes", "no"),
            (Answer(page, "marks.inOrder"), Answer(page, "marks.foreignMaterial"), Answer(page, "marks.surfacePattern")));
        Assert.True(page.QuerySelector(".each-looked")!.HasAttribute("open"));
    }

    private static string? Answer(IDocument page, string name) =>
        page.QuerySelector($"[name='{name}'][checked]")?.GetAttribute("value");
}
