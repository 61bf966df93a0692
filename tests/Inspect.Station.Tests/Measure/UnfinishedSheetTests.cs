using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using Inspect.Station.Tests.Ground;

namespace Inspect.Station.Tests.Measure;

/// <summary>Sheets between tables: kept, listed, taken up, merged field by field, recorded once, thrown away only when asked.</summary>
public class UnfinishedSheetTests
{
    private const string List = "/events/LANTERN/unfinished";

    [Fact]
    public async Task Keep_HalfABall_IsListedAndTakenUpElsewhereAndGoneOnceRecorded()
    {
        await using var station = new StationFixture();
        using var scale = await station.Client("inspector");
        using var gauge = await station.Client("director");
        var page = await scale.GetPage(TypedBall.Page);
        await Keep(scale, page, 0, "one", ("ball.serial", "9QF31207"), ("weights.gross", "15-1"), ("table", "Table 2"));

        foreach (var where in new[] { List, "/events/LANTERN/entries/103" })
        {
            var listed = (await gauge.GetPage(where)).QuerySelector(".unfinished li")!.TextContent;
            Assert.All(["Tomás Ibarrondo Quell", "9QF31207", "gross weight", "at Table 2"], words => Assert.Contains(
                words, listed, StringComparison.Ordinal));
        }

        var taken = await gauge.GetPage((await gauge.GetPage(List)).QuerySelector(".unfinished a.button")!.GetAttribute("href")!);
        Assert.Equal("15-1", taken.QuerySelector<IHtmlInputElement>("[name=\"weights.gross\"]")!.Value);
        Assert.Equal(Key(page), Key(taken));

        var number = await Record(gauge, taken, TypedBall.Legal);
        Assert.Empty((await gauge.GetPage(List)).QuerySelectorAll(".unfinished li"));
        Assert.Equal(number, await Record(scale, page, TypedBall.Legal));
        var late = await Keep(scale, page, 1, "one", ("weights.gross", "15-2"));
        Assert.Equal("LANTERN-0001", late["recorded"]!.GetValue<string>());
        Assert.Empty((await gauge.GetPage(List)).QuerySelectorAll(".unfinished li"));
        using var again = await scale.GetAsync($"{TypedBall.Page}?form={Key(page)}");
        Assert.Equal(number, again.Headers.Location!.ToString());
    }

    [Fact]
    public async Task Keep_TwoTablesInDifferentFields_MergesBoth()
    {
        await using var station = new StationFixture();
        using var client = await station.Client("inspector");
        var page = await client.GetPage(TypedBall.Page);
        await Keep(client, page, 0, "one", ("weights.gross", "15-1"));

        var gauged = await Keep(client, page, 0, "two", ("hole.thumb.diameter", "31/32"));

        var other = Assert.Single(gauged["others"]!.AsArray())!;
        Assert.Equal(("weights.gross", "15-1", false), (
            other["name"]!.GetValue<string>(), other["values"]![0]!.GetValue<string>(), other["conflict"]!.GetValue<bool>()));
        var taken = await client.GetPage($"{TypedBall.Page}?form={Key(page)}");
        Assert.Equal("15-1", taken.QuerySelector<IHtmlInputElement>("[name=\"weights.gross\"]")!.Value);
        Assert.Equal("31/32", taken.QuerySelector<IHtmlInputElement>("[name=\"hole.thumb.diameter\"]")!.Value);
    }

    [Fact]
    public async Task Keep_TwoTablesInOneField_ShowsBothAndOverwritesNeither()
    {
        await using var station = new StationFixture();
        using var client = await station.Client("inspector");
        var page = await client.GetPage(TypedBall.Page);
        await Keep(client, page, 0, "one", ("weights.gross", "15-1"), ("table", "Table 2"));

        var other = Assert.Single((await Keep(client, page, 0, "two", ("weights.gross", "15-2")))["others"]!.AsArray())!;
        Assert.True(other["conflict"]!.GetValue<bool>());
        Assert.EndsWith("at Table 2", other["who"]!.GetValue<string>(), StringComparison.Ordinal);
        Assert.Equal("15-1", await Gross());

        // Whoever has seen it may write over it; who wrote it is no stranger to their own text.
        await Keep(client, page, 1, "two", ("weights.gross", "15-2"));
        Assert.Equal("15-2", await Gross());
        Assert.Empty((await Keep(client, page, 0, "two", ("weights.gross", "15-3")))["others"]!.AsArray());
        Assert.Equal("15-3", await Gross());

        async Task<string> Gross() =>
            (await client.GetPage($"{TypedBall.Page}?form={Key(page)}"))
                .QuerySelector<IHtmlInputElement>("[name=\"weights.gross\"]")!.Value;
    }

    [Fact]
    public async Task Record_WhatAnotherTableChangedMeanwhile_IsShownFirst()
    {
        await using var station = new StationFixture();
        using var client = await station.Client("inspector");
        var page = await client.GetPage(TypedBall.Page);
        await Keep(client, page, 0, "two", ("weights.gross", "15-2"));
        using var live = await client.SendLive(page, TypedBall.Legal);
        var seen = (await live.Read()).QuerySelector("[name=seen]")!.GetAttribute("value")!;

        using var answer = await client.Send(page, [.. TypedBall.Legal, ("seen", seen), ("act", "record")]);
        var shown = await answer.Read();

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        Assert.Contains("wrote \"15-2\" here", shown.FaultAt("weights-gross"), StringComparison.Ordinal);
        Assert.Equal("15-1", shown.QuerySelector<IHtmlInputElement>("[name=\"weights.gross\"]")!.Value);

        using var judged = await client.Send(shown, ("act", "judge"));
        using var recorded = await client.Send(await judged.Read(), ("act", "record"));
        Assert.Equal(HttpStatusCode.Redirect, recorded.StatusCode);
    }

    [Fact]
    public async Task PutAside_WithoutScript_KeepsWhatWasTypedAndDiscardingAsks()
    {
        await using var station = new StationFixture();
        using var client = await station.Client("inspector");
        var page = await client.GetPage(TypedBall.Page);

        using var aside = await client.Send(
            page, ("weights.gross", "15-1"), ("grip.digits", "thumb"), ("grip.digits", "ring"), ("act", "aside"));
        Assert.Equal("/events/LANTERN/entries/103", aside.Headers.Location!.ToString());
        var taken = await client.GetPage(
            (await client.GetPage("/events/LANTERN/entries/103")).QuerySelector(".unfinished a.button")!.GetAttribute("href")!);
        Assert.Equal(["thumb", "ring"], taken.QuerySelectorAll<IHtmlInputElement>("[name=\"grip.digits\"]").Where(
            box => box.IsChecked).Select(box => box.Value));

        var ask = await client.GetPage($"{List}/{Key(page)}");
        Assert.Contains("gross weight", ask.QuerySelector("main")!.TextContent, StringComparison.Ordinal);
        Assert.Single((await client.GetPage(List)).QuerySelectorAll(".unfinished li"));
        using var discarded = await client.Send(ask.QuerySelector<IHtmlFormElement>("main form")!);
        using var still = await client.PostAsync($"{List}/{Key(page)}", new FormUrlEncodedContent(Token(ask)));
        Assert.Empty((await client.GetPage(List)).QuerySelectorAll(".unfinished li"));
    }

    [Fact]
    public async Task Record_AReadingThatWasNotTaken_StandsInTheRecordWithItsReason()
    {
        await using var station = new StationFixture();
        using var client = await station.Client("inspector");
        var page = await client.GetPage(TypedBall.Page);
        var left = TypedBall.With(
            ("weights.gross", ""), ("left.0.path", "weights.gross"), ("left.0.reason", "The scale at this table is being repaired."));

        using var live = await client.SendLive(page, left);
        var outcome = (await live.Read()).QuerySelector("#live-outcome")!;
        Assert.Equal("Hold", outcome.QuerySelector(".verdict strong")!.TextContent);
        Assert.Empty(outcome.QuerySelectorAll(".missing li"));
        using var none = await client.SendLive(page, TypedBall.With(("left.0.path", "weights.gross"), ("left.0.reason", "Forgotten.")));
        Assert.Contains("\"15-1\" is entered in Gross weight", (await none.Read()).LiveFault("left.0.path"), StringComparison.Ordinal);

        var record = await client.GetPage(await Record(client, page, left));
        Assert.Contains("The scale at this table is being repaired.", record.QuerySelector("main")!.TextContent, StringComparison.Ordinal);
    }

    private static string Key(IDocument page) => page.QuerySelector<IHtmlInputElement>("[name=key]")!.Value;

    private static IEnumerable<KeyValuePair<string, string>> Token(IDocument page) =>
        [KeyValuePair.Create(
            "__RequestVerificationToken", page.QuerySelector("main [name=__RequestVerificationToken]")!.GetAttribute("value")!)];

    private static async Task<JsonNode> Keep(
        HttpClient client, IDocument page, long revision, string from, params (string Name, string Value)[] typed)
    {
        var sent = Token(page).Append(KeyValuePair.Create("key", Key(page)))
            .Append(KeyValuePair.Create("revision", $"{revision}")).Append(KeyValuePair.Create("page", from))
            .Append(KeyValuePair.Create("changed", string.Join(' ', typed.Select(field => field.Name))))
            .Concat(typed.Select(field => KeyValuePair.Create(field.Name, field.Value)));
        using var answer = await client.PostAsync(
            TypedBall.Page.Replace("new", "keep", StringComparison.Ordinal), new FormUrlEncodedContent(sent));
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        return (await answer.Content.ReadFromJsonAsync<JsonNode>())!;
    }

    /// <summary>Judges and records a form, and gives the address of the record.</summary>
    private static async Task<string> Record(HttpClient client, IDocument page, (string, string)[] typed)
    {
        using var live = await client.SendLive(page, typed);
        var seen = (await live.Read()).QuerySelector("[name=seen]")!.GetAttribute("value")!;
        using var recorded = await client.Send(page, [.. typed, ("revision", "99"), ("seen", seen), ("act", "record")]);
        Assert.Equal(HttpStatusCode.Redirect, recorded.StatusCode);
        return recorded.Headers.Location!.ToString();
    }
}
