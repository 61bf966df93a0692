using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using Inspect.Station.Instruments;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Record;
using Microsoft.Extensions.DependencyInjection;

namespace Inspect.Station.Tests.Instruments;

/// <summary>The register of instruments, and what readings that name one are refused for. Common practice, no
/// source but where one is named.</summary>
public sealed class InstrumentPagesTests(SharedStation shared) : IClassFixture<SharedStation>
{
    [Fact]
    public async Task Add_ByADirector_IsListedWithItsStepAndUncertainty()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");

        await director.Added([
            .. Bench.Scale, ("repeatability", "0.03 oz"), ("serial", "K-7731"), ("calibrated", "2026-01-10"), ("due", "2999-01-10"),
            ("constant", "3.75 in")]);
        var list = await director.GetPage("/instruments");
        var page = await director.GetPage("/instruments/Scale%201");

        Assert.Contains("Scale 1", list.QuerySelector("table.instruments")!.TextContent, StringComparison.Ordinal);
        Assert.Contains("never checked", list.QuerySelector("table.instruments")!.TextContent, StringComparison.Ordinal);
        // 0.1/(2 sqrt 3), 0.03 and 0.03 oz: 0.051316 oz, arithmetic after GUM 5.1.2 and F.2.2.1.
        Assert.Contains("0.051316 oz", page.QuerySelector("main")!.TextContent, StringComparison.Ordinal);
        Assert.Contains("3.75 in", page.QuerySelector("main")!.TextContent, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("scale", "name", "", "Give the short name that readings will use, such as Scale 1.")]
    [InlineData("scale", "name", "a/b", "\"a/b\" cannot be a name; use letters, digits, spaces, hyphens and full stops, 40 at most, a "
        + "letter or digit first.")]
    [InlineData("scale", "name", "New", "\"New\" cannot be a name; give one that tells which it is, such as Scale 1.")]
    [InlineData("scale", "resolution", "", "Give the smallest step it shows, such as 0.1 oz.")]
    [InlineData("caliper", "resolution", "0,001", "\"0,001\" has a comma, which can mean two things; write a point for decimals and "
        + "nothing between thousands, as in 31/32 in, 2.75 in or 24.6 mm.")]
    [InlineData("scale", "due", "soon", "\"soon\" is not a date; write it as 2027-03-14.")]
    [InlineData("check-weight", "value", "", "Enter its certified value, with its unit.")]
    [InlineData(
        "check-weight", "class", "M1", "Class M1 has no weight of 300 g; give how far it may be off instead, from its certificate.")]
    [InlineData("check-block", "value", "1", "Enter its tolerance, from its certificate.")]
    public async Task Add_WhatCannotBeUsed_IsRefusedAtItsField(string kind, string field, string value, string sentence)
    {
        var station = shared.Station;
        using var director = await station.Client("director");
        (string, string)[] answers = [
            ("kind", kind), ("name", "One"), ("resolution", kind == "scale" ? "0.1 oz" : "1/64 in"), ("value", "300 g")];

        using var refused = await director.Add([.. answers.Where(answer => answer.Item1 != field), (field, value)]);

        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.StatusCode);
        Assert.Contains(sentence, (await refused.Read()).QuerySelector(".summary")!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Add_ByAnInspectorOrUnderATakenName_AddsNothing()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        using var inspector = await station.Client("inspector");
        await director.Added(Bench.Scale);

        using var again = await director.Add(("kind", "scale"), ("name", "SCALE 1"), ("resolution", "0.1 oz"));
        using var forbidden = await inspector.GetAsync("/instruments/new");

        Assert.Equal(HttpStatusCode.UnprocessableEntity, again.StatusCode);
        Assert.Equal(HttpStatusCode.Forbidden, forbidden.StatusCode);
        Assert.Single(station.Services.GetRequiredService<InstrumentBook>().All());
    }

    [Fact]
    public async Task Change_OfADueDay_KeepsWhatStoodBefore()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        await director.Added([.. Bench.Scale, ("due", "2999-01-10")]);
        var form = await director.GetPage("/instruments/Scale%201/change");

        using var changed = await director.Send(form, ("due", "2999-06-30"));
        using var stale = await director.Send(form, ("due", "2999-07-31"));
        var page = await director.GetPage("/instruments/Scale%201");

        Assert.Equal(HttpStatusCode.Found, changed.StatusCode);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, stale.StatusCode);
        Assert.Contains("alibration valid until from 10 January "
            + "2999 to 30 June 2999", page.QuerySelector("main")!.TextContent, StringComparison.Ordinal);
        Assert.Equal(2, station.Services.GetRequiredService<InstrumentBook>().History("Scale 1").Count);
    }

    [Fact]
    public async Task Record_NamesNoInstrumentKnows_TakesThemUntilOneIsRegistered()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");

        await director.Weighed("old scale");
        await director.Added(Bench.Scale);
        using var unknown = await director.Record(Bench.WeighedWith("old scale"));
        using var wrongKind = await director.Record(DepthBy("Scale 1"));
        using var stillFree = await director.Record(DepthBy("some gauge"));

        Assert.Equal(
            "\"old scale\" is not an instrument of this station; name \"Scale 1\", spelled like this, or have it added under Instruments.",
            await unknown.ProblemAt("observations[0].instrument"));
        Assert.Equal(
            "\"Scale 1\" is a scale, which gives no reading at holes[0].depth; name the instrument that was used.",
            await wrongKind.ProblemAt("observations[0].instrument"));
        Assert.Equal(HttpStatusCode.Created, stillFree.StatusCode);

        static JsonObject DepthBy(string instrument)
        {
            var request = SampleSheets.Request(SampleSheets.Legal());
            request["observations"] = new JsonArray(
                new JsonObject { ["path"] = "holes[0].depth", ["text"] = "2 3/4 in", ["instrument"] = instrument });
            return request;
        }
    }

    [Fact]
    public async Task Record_WithARetiredInstrument_IsRefusedUntilItIsTakenBack()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        await director.Added(Bench.Scale);

        using var retired = await director.Send((await director.GetPage("/instruments/Scale%201")).FormTo("/instruments/Scale%201/retire"));
        using var refused = await director.Record(Bench.WeighedWith("Scale 1"));
        using var back = await director.Send((await director.GetPage("/instruments/Scale%201")).FormTo("/instruments/Scale%201/retire"));

        Assert.Equal("\"Scale 1\" is retired; use another scale.", await refused.ProblemAt("observations[0].instrument"));
        await director.Weighed("Scale 1");
    }

    [Fact]
    public async Task Record_WithAnOverdueInstrument_IsRefusedUntilCalibratedAndChecked()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        await director.Added([.. Bench.Scale, ("calibrated", "2020-01-10"), ("due", "2021-01-10")]);

        using var overdue = await director.Record(Bench.WeighedWith("Scale 1"));
        using var renewed = await director.Send(
            await director.GetPage("/instruments/Scale%201/change"), ("calibrated", "2026-01-10"), ("due", "2999-01-10"));
        using var notChecked = await director.Record(Bench.WeighedWith("Scale 1"));
        using var check = await director.CheckScale("100 g");

        Assert.StartsWith("The calibration of \"Scale 1\" was due "
            + "on 10 January 2021;", await overdue.ProblemAt("observations[0].instrument"), StringComparison.Ordinal);
        Assert.StartsWith("\"Scale 1\" was overdue and has "
            + "been calibrated again;", await notChecked.ProblemAt("observations[0].instrument"), StringComparison.Ordinal);
        await director.Weighed("Scale 1");
    }

    [Fact]
    public async Task MeasuringForm_WithInstrumentsInUse_NamesThemWithEachReading()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        using var inspector = await station.Client("inspector");
        await director.Added(Bench.Scale);
        await director.Added(("kind", "depth-gauge"), ("name", "Depth 2"), ("resolution", "1/64 in"));
        await inspector.Uses(("scale", "Scale 1"), ("depth-gauge", "Depth 2"));

        var form = await inspector.GetPage("/events/LANTERN/entries/102/balls/new");
        using var shown = await inspector.Send(
            form, ("play", SampleSheets.Today), ("weights.gross", "15-1 1/2"), ("hole.thumb.depth", "2 3/4"), ("holes.other", "none"),
            ("act", "judge"));
        using var recorded = await inspector.Send(await shown.Read(), ("act", "record"));
        var body = JsonNode.Parse((await director.GetStringAsync("/api/register.jsonl")).Split('\n')[0])!;

        Assert.Contains("Measured with Scale 1, Depth 2.", form.QuerySelector(".instruments-line")!.TextContent, StringComparison.Ordinal);
        Assert.Contains("\"Scale 1\" has no check that counts now.", form.QuerySelector("main")!.TextContent, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Found, recorded.StatusCode);
        Assert.Equal(2, body["observations"]!.AsArray().Count);
        var observation = body["observations"]![0]!;
        Assert.Equal("weights.gross 15 lb 1 1/2 oz Scale 1", $"{observation["path"]} {observation["text"]} {observation["instrument"]}");
        Assert.Equal("Depth 2", body["observations"]![1]!["instrument"]!.GetValue<string>());
    }

    // A balance scale divides the moment it weighs by a length of its own; no verdict rests on it, what is said about a cure does.
    [Fact]
    public async Task MeasuringForm_WithABalanceScaleInUse_WritesItsConstantBesideTheWeights()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        using var inspector = await station.Client("inspector");
        await director.Added(("kind", "balance-scale"), ("name", "Balance 4"), ("resolution", "1/16 oz"), ("constant", "3.39 in"));
        await inspector.Uses(("balance-scale", "Balance 4"));

        var form = await inspector.GetPage("/events/LANTERN/entries/102/balls/new");
        using var shown = await inspector.Send(
            form, ("play", SampleSheets.Today), ("weights.leftRight", "1"), ("weights.leftRight.side", "left"), ("act", "judge"));
        using var recorded = await inspector.Send(await shown.Read(), ("act", "record"));

        var sheet = (await inspector.GetFromJsonAsync<JsonObject>($"/api{recorded.Headers.Location}"))!["sheet"]!;
        Assert.Equal("3.39 in", sheet["weights"]!["scaleConstant"]!.GetValue<string>());
        Assert.Equal("-1 oz", sheet["weights"]!["leftRight"]!.GetValue<string>());
    }

    // Weighed at one table and gauged at another: each reading names the instrument of the table where it was typed.
    [Fact]
    public async Task MeasuringForm_TakenUpAtAnotherTable_NamesTheInstrumentsOfBoth()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        using var inspector = await station.Client("inspector");
        await director.Added(Bench.Scale);
        await director.Added(("kind", "scale"), ("name", "Scale 2"), ("resolution", "0.1 oz"));
        await director.Added(("kind", "depth-gauge"), ("name", "Depth 2"), ("resolution", "1/64 in"));
        await inspector.Uses(("scale", "Scale 1"));
        await director.Uses(("scale", "Scale 2"), ("depth-gauge", "Depth 2"));

        var weighing = await inspector.GetPage("/events/LANTERN/entries/102/balls/new");
        using var aside = await inspector.Send(
            weighing, ("play", SampleSheets.Today), ("weights.gross", "15-1 1/2"), ("weights.anyHalves", "1"), ("act", "aside"));
        var key = weighing.QuerySelector("[name=key]")!.GetAttribute("value");
        var gauging = await director.GetPage($"/events/LANTERN/entries/102/balls/new?form={key}");
        using var shown = await director.Send(
            gauging, ("hole.thumb.depth", "2 3/4"), ("holes.other", "none"), ("weights.anyHalves", "1 1/4"), ("act", "judge"));
        using var recorded = await director.Send(await shown.Read(), ("act", "record"));

        Assert.Equal(HttpStatusCode.Found, recorded.StatusCode);
        var body = JsonNode.Parse((await director.GetStringAsync("/api/register.jsonl")).Split('\n')[0])!;
        Assert.Equal(
            ["holes[0].depth Depth 2", "weights.anyHalves Scale 2", "weights.gross Scale 1"],
            body["observations"]!.AsArray().Select(one => $"{one!["path"]} {one["instrument"]}").Order(StringComparer.Ordinal));
    }

    [Fact]
    public async Task MeasuringForm_WithAnInstrumentThatFailed_SaysSoOnceAtItsTop()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        await director.Added(Bench.Scale);
        await director.Uses(("scale", "Scale 1"));
        await director.FailScale();

        var form = await director.GetPage("/events/LANTERN/entries/102/balls/new");
        using var shown = await director.Send(
            form, ("play", SampleSheets.Today), ("weights.gross", "15-1 1/2"), ("weights.topBottom", "1"),
            ("weights.topBottom.side", "top"), ("act", "judge"));
        using var refused = await director.Send(await shown.Read(), ("act", "record"));
        var page = await refused.Read();

        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.StatusCode);
        Assert.Contains(
            "\"Scale 1\" failed its last check", Assert.Single(page.QuerySelectorAll(".summary li")).TextContent, StringComparison.Ordinal);
    }
}
