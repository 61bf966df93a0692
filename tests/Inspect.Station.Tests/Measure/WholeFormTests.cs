using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using Inspect.Station.Instruments;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Record;

namespace Inspect.Station.Tests.Measure;

/// <summary>What is seldom written down and all the same has its field: pieces, places, pitch, declared
/// figures, the scale's constant.</summary>
/// <remarks>
/// That the bore and each removable piece are held to the limits of a gripping hole: USBC, Equipment Specifications and Certifications
/// Manual, 01/2021. What forward, reverse, left and right pitch mean is common practice, no source.
/// </remarks>
public class WholeFormTests(SharedStation shared) : IClassFixture<SharedStation>
{
    [Fact]
    public async Task Whole_Recorded_IsTheSheetThatAProgramWouldSend_AndIsShownInWordsAndDrawn()
    {
        await using var station = new StationFixture();
        using var client = await station.Client("inspector");

        var recorded = await client.RecordForm(await client.GetPage(TypedBall.Page), TypedBall.Whole);
        var sheet = recorded["sheet"]!;

        Is("""
            [{ "kind": "grip", "digit": "thumb", "diameter": "1 3/8 in", "depth": "3 in", "depthTo": "rim",
               "position": { "arc": "2 1/2 in", "azimuth": "270 deg" }, "pitch": { "south": "3/8 in", "east": "1/8 in" }, "secondaryHole": false,
               "pieces": [{ "diameter": "31/32 in", "depth": "2 3/4 in" }, { "diameter": "1 in", "depth": "2 1/2 in" }] },
             { "kind": "grip", "digit": "middle", "diameter": "7/8 in", "depth": "2 in", "depthTo": "rim",
               "position": { "arc": "2.35 in", "azimuth": "106 deg" }, "pitch": { "south": "-1/4 in", "east": "3/8 in" }, "secondaryHole": false },
             { "kind": "grip", "digit": "ring", "diameter": "27/32 in", "depth": "2 in", "depthTo": "rim",
               "position": { "angle": "31.5 deg", "azimuth": "74 deg" }, "pitch": { "east": "-3/8 in" }, "secondaryHole": false }]
            """, sheet["holes"]);
        Is("""
            { "maker": "Ostrava Kiln", "model": "Nightjar", "serial": "9QF31207", "listed": "yes",
              "declared": { "rg": "2.480 in", "differential": "0.050 in", "intermediate": "0.015 in" },
              "pin": { "arc": "3 in", "azimuth": "45 deg" }, "massBias": { "arc": "4 1/2 in", "azimuth": "330 deg" },
              "gravityMark": { "arc": "1/2 in", "azimuth": "20 deg" } }
            """, sheet["ball"]);
        Assert.Equal("4.25 in", sheet["weights"]!["scaleConstant"]!.GetValue<string>());
        var record = await client.GetPage($"/inspections/{recorded["number"]}");
        var written = record.QuerySelectorAll(".written > div")
            .ToDictionary(row => row.QuerySelector("dt")!.TextContent, row => row.QuerySelector("dd")!.TextContent);
        Assert.Equal("3/8 in reverse, 1/8 in right", written["Thumb: pitch"]);
        Assert.Equal("1/4 in forward, 3/8 in left", written["Middle: pitch"]);
        Assert.Equal("2.35 in at 106 deg", written["Middle: position"]);
        Assert.Empty(record.QuerySelectorAll(".pic-hole.assumed"));
        Assert.Equal(["pin", "mass bias", "mark"], record.QuerySelectorAll(".pic-mark text").Select(each => each.TextContent));
        Assert.Equal(
            ["thumb, piece 1", "thumb, piece 2"], record.QuerySelectorAll(".findings .subject")
                .Select(each => each.TextContent).Where(text => text.Contains("piece", StringComparison.Ordinal)).Distinct());

        static void Is(string expected, JsonNode? found) =>
            Assert.True(JsonNode.DeepEquals(JsonNode.Parse(expected), found), found?.ToJsonString());
    }

    [Fact]
    public async Task Pieces_EachIsJudgedByItself_AndWhatIsMissingOrTooDeepLeadsToItsField()
    {
        await using var station = new StationFixture();
        using var client = await station.Client("inspector");
        var page = await client.GetPage(TypedBall.Page);

        var typed = TypedBall.With(
            ("hole.thumb.diameter", "1 3/8"), ("hole.thumb.pieces[0].diameter", "31/32 x 2 3/4"),
            ("hole.thumb.pieces[1].diameter", "1 x 4 3/4"), ("hole.thumb.pieces[3].diameter", "1"));
        using var live = await client.SendLive(page, typed);
        var answer = await live.Read();

        Assert.Equal("Fail", answer.QuerySelector("#live-outcome .verdict strong")!.TextContent);
        Assert.Contains("thumb piece 2", answer.QuerySelector(".reason.fail")!.TextContent, StringComparison.Ordinal);
        // The fourth row is the third piece of the sheet; what is missing leads to the row that was typed into.
        var missing = Assert.Single(answer.QuerySelectorAll(".missing a"));
        Assert.Equal(("Thumb, piece 4 depth", "#hole-thumb-pieces-3--depth"), (missing.TextContent, missing.GetAttribute("href")));
        Assert.NotNull(page.GetElementById("hole-thumb-pieces-3--depth"));
        var advice = await client.SendAdvice(page, typed);
        Assert.Contains("Play without thumb piece 2", advice.QuerySelector(".advice")!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Pieces_UnderRulesWithoutACap_AreNotJudged()
    {
        await using var station = new StationFixture();
        using var client = await station.Client();

        async Task<int> Findings(string edition)
        {
            var sheet = SampleSheets.Legal();
            (sheet["edition"], sheet["play"]) = (edition, "2016-05-01");
            sheet["holes"]![0]!["pieces"] = JsonNode.Parse("""[{ "diameter": "1 in", "depth": "5 in" }]""");
            using var judged = await client.PostAsJsonAsync("/api/judge", sheet);
            return (await judged.Content.ReadFromJsonAsync<JsonNode>())!["findings"]!
                .AsArray().Count(finding => finding!["subject"]!.GetValue<string>() == "thumb, piece 1");
        }

        Assert.Equal(0, await Findings("us-national/2014-05-07"));
        Assert.Equal(2, await Findings("us-national/2020-08-01"));
    }

    // A ball with holes for a right and for a left thumb, and three vents.
    [Fact]
    public async Task FurtherHoles_OfADigitThatHasOne_AreRecordedAndFailTheirRule_AndComeBack()
    {
        await using var station = new StationFixture();
        using var client = await station.Client("inspector");
        var typed = TypedBall.With(
            ("holes.other", "listed"), ("hole.more1.kind", "grip"), ("hole.more1.digit", "thumb"), ("hole.more1.diameter", "1 x 2 1/2"),
            ("hole.vent1.in", "thumb"), ("hole.vent1.diameter", "1/8"), ("hole.vent2.in", "middle"), ("hole.vent2.diameter", "1/8"),
            ("hole.more2.kind", "vent"), ("hole.more2.digit", "ring"), ("hole.more2.diameter", "5/16"));

        var record = await client.RecordForm(await client.GetPage(TypedBall.Page), typed);

        var failed = record["verdict"]!["findings"]!.AsArray().Where(finding => finding!["outcome"]!.GetValue<string>() == "fail")
            .Select(finding => $"{finding!["rule"]} {finding["subject"]}");
        Assert.Equal(["one-hole-per-digit thumb", "vent-hole ring vent"], failed);
        var page = await client.GetPage($"/inspections/{record["number"]}");
        using var taken = await client.Send(page.QuerySelector<IHtmlFormElement>("details.undo form")!, ("reason", "Typed twice"));
        var form = await client.GetPage(taken.Headers.Location!.ToString());
        Assert.Equal(("grip", "thumb", "vent", "5/16 in"),
            (form.Typed("hole.more1.kind"), form.Typed("hole.more1.digit"), form.Typed("hole.more2.kind"), form.Typed(
                "hole.more2.diameter")));

        using var unnamed = await client.SendLive(form, TypedBall.With(("hole.more1.diameter", "1")));
        Assert.Equal("Choose what kind of hole this is.", (await unnamed.Read()).LiveFault("hole.more1.kind"));
        using var odd = await client.SendLive(form, TypedBall.With(
            ("holes.other", "listed"), ("hole.more1.kind", "mill"), ("hole.more1.digit", "ring"), ("hole.more1.diameter", "1/2")));
        Assert.Equal("A hole of the kind \"mill\" has no \"digit\"; leave it out.", (await odd.Read()).LiveFault("hole.more1.digit"));
    }

    [Theory]
    [InlineData("hole.thumb.pieces[1].depth", "2,5", "hole.thumb.pieces[1].depth", "\"2,5\" has a comma")]
    [InlineData(
        "hole.thumb.pitch.south", "-3/8", "hole.thumb.pitch.south",
        "\"-3/8\" has a minus sign; write the size and choose reverse or forward.")]
    [InlineData("hole.ring.pitch.east", "1/4", "hole.ring.pitch.east", "\"1/4\" does not say which way the bottom of the hole leans; "
        + "choose left or right.")]
    [InlineData("hole.middle.position.arc", "2 1/4", "hole.middle.position.azimuth", "\"2 1/4\" needs a direction too")]
    [InlineData("hole.middle.position.azimuth", "106", "hole.middle.position.arc", "\"106\" is a direction and needs a distance too")]
    [InlineData("ball.pin.arc", "-2", "ball.pin.arc", "\"-2 in\" is negative")]
    [InlineData("ball.declared.rg", "2.48 oz", "ball.declared.rg", "\"2.48 oz\"")]
    [InlineData("weights.scaleConstant", "four", "weights.scaleConstant", "\"four\"")]
    public async Task Live_UnusableEntry_IsSaidAtItsFieldAndTheFieldIsThere(string field, string typed, string at, string sentence)
    {
        var station = shared.Station;
        using var client = await station.Client("inspector");
        var page = await client.GetPage(TypedBall.Page);

        (string, string)[] beside = field == "ball.pin.arc" ? [(field, typed), ("ball.pin.azimuth", "45")] : [(field, typed)];
        using var live = await client.SendLive(page, TypedBall.With(beside));

        Assert.Contains(sentence, (await live.Read()).LiveFault(at), StringComparison.Ordinal);
        Assert.NotNull(page.QuerySelector($"[name='{at}']"));
    }

    [Fact]
    public async Task Pitch_OfAHoleStraightBesideTheCentre_HasNoLeftAndRight()
    {
        await using var station = new StationFixture();
        using var client = await station.Client("inspector");
        var page = await client.GetPage(TypedBall.Page);

        using var live = await client.SendLive(page, TypedBall.With(
            ("hole.thumb.position.arc", "2"), ("hole.thumb.position.azimuth", "182"), ("hole.thumb.pitch.east", "1/4 l")));

        Assert.Contains(
            "left and right are forward and reverse", (await live.Read()).LiveFault("hole.thumb.pitch.east"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Folds_AreClosedUntilTheyHoldSomethingOrAreAskedFor()
    {
        await using var station = new StationFixture();
        using var client = await station.Client("inspector");
        var page = await client.GetPage(TypedBall.Page);
        Assert.Empty(page.QuerySelectorAll(".readings details[open]"));

        using var pieces = await client.Send(page, [.. TypedBall.With(("hole.thumb.pieces[0].diameter", "31/32")), ("act", "judge")]);
        Assert.Equal(["More", "Interchangeable pieces"], Open(await pieces.Read()));
        using var places = await client.Send(page, [
            .. TypedBall.With(("ball.pin.arc", "3"), ("ball.declared.rg", "2.48"), ("weights.scaleConstant", "4.25")), ("act", "judge")]);
        Assert.Equal(
            ["More", "Places of holes and marks, and pitch", "Figures declared for this model", "Constant of the balance scale"],
            Open(await places.Read()));
        using var asked = await client.Send(page, ("holes.other", "none"), ("weights.gross", "15-1"), ("act", "judge"));
        Assert.Equal(["One by one", "More", "A ball without holes"], Open(await asked.Read()));

        static IEnumerable<string> Open(IDocument page) =>
            page.QuerySelectorAll(".readings details[open] > summary").Select(each => each.TextContent);
    }

    [Fact]
    public async Task HouseBall_SaidToBeOneAndNothingElse_IsAskedAbout()
    {
        await using var station = new StationFixture();
        using var client = await station.Client("inspector");
        var page = await client.GetPage(TypedBall.Page);

        using var live = await client.SendLive(
            page, TypedBall.With(("ball.house", "yes"), ("grip.digits", "middle"), ("ball.listed", "no")));

        var answer = await live.Read();
        Assert.Equal("Hold", answer.QuerySelector("#live-outcome .verdict strong")!.TextContent);
        Assert.Contains("House ball", answer.QuerySelectorAll(".missing a").Select(each => each.TextContent));
    }

    // Top and side readings swapped, which alone is legal: without places nothing can be told of it, with them it can.
    [Fact]
    public async Task Hints_OnceHolesAndMarkAreInTheirPlaces_FindSwappedReadings()
    {
        await using var station = new StationFixture();
        using var client = await station.Client("inspector");
        var page = await client.GetPage(TypedBall.Page);
        (string, string)[] shallow = [("hole.middle.depth", "1 1/2"), ("hole.ring.depth", "1 1/2")];
        (string, string)[] swapped = TypedBall.With([("weights.topBottom", "0"), ("weights.leftRight", "2 1/2"), .. shallow]);
        (string, string)[] placed = [.. TypedBall.Whole.Where(
            field =>
                field.Name.Contains(".position.", StringComparison.Ordinal) || field.Name.Contains(".pitch.", StringComparison.Ordinal)
                    || field.Name.StartsWith("ball.gravityMark", StringComparison.Ordinal)), ("weights.scaleConstant", "4.25")];

        using var silent = await client.SendLive(page, swapped);
        using var telling = await client.SendLive(page, [.. swapped, .. placed]);
        using var sound = await client.SendLive(page, [.. TypedBall.With(shallow), .. placed]);

        var deep = await client.SendAdvice(page, [.. TypedBall.With(("hole.ring.depth", "9"), ("sure.hole.ring.depth", "9")), .. placed]);
        Assert.Equal("#hole-ring-depth", deep.QuerySelector(".hints a")!.GetAttribute("href"));
        Assert.Equal("", (await silent.Read()).QuerySelector(".hints")?.TextContent ?? "");
        Assert.Contains("were swapped", (await telling.Read()).QuerySelector(".hints")!.TextContent, StringComparison.Ordinal);
        Assert.Equal("", (await sound.Read()).QuerySelector(".hints")?.TextContent ?? "");
    }

    [Fact]
    public async Task Remedies_OnceAllIsMeasured_RestOnItAndNoLongerOnAnOrdinaryGrip()
    {
        await using var station = new StationFixture();
        using var client = await station.Client("inspector");
        var page = await client.GetPage(TypedBall.Page);
        const string Assumed =
            "The places of the holes were not measured", Uncalibrated =
                "The scale's constant is not known", Illustration = "an illustration for a ball of even density";

        var bare = await client.SendAdvice(page, TypedBall.With(("weights.topBottom", "3 1/4")));
        var whole = await client.SendAdvice(
            page, [.. TypedBall.Whole.Where(field => field.Name != "weights.topBottom"), ("weights.topBottom", "3 1/4")]);

        var guessed = bare.QuerySelector(".advice")!.TextContent;
        var known = whole.QuerySelector(".advice")!.TextContent;
        Assert.All([Assumed, Uncalibrated, Illustration], words => Assert.Contains(words, guessed, StringComparison.Ordinal));
        Assert.All([Assumed, Uncalibrated, Illustration], words => Assert.DoesNotContain(words, known, StringComparison.Ordinal));
        Assert.Contains("estimates from the declared figures", known, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("4.25", null)]
    [InlineData("4.4", "\"4.4\" is not the constant of the scale in use, which is 4.25 in; leave it out, or change the instrument.")]
    public async Task ScaleConstant_BesideAScaleThatHasOne_AgreesOrIsRefused(string typed, string? sentence)
    {
        var station = shared.Station;
        using var client = await station.Client("inspector");
        var page = await client.GetPage(TypedBall.Page);

        using var live = await client.SendLive(
            page, TypedBall.With(("weights.scaleConstant", typed), (InUse.ScaleConstantField, "4.25 in")));

        Assert.Equal(sentence, (await live.Read()).LiveFault("weights.scaleConstant"));
    }

    [Fact]
    public async Task Pieces_NameTheGaugeTheyWereReadWith_AndItsReadingsAreKept()
    {
        await using var station = new StationFixture();
        using var client = await station.Client("inspector");
        var sheet = SampleSheets.Legal();
        sheet["holes"]![0]!["pieces"] = JsonNode.Parse("""[{ "diameter": "1 in", "depth": "2 1/2 in" }]""");
        var request = SampleSheets.Request(sheet);

        InUse.Name(request, (_, kind) => $"{kind} 1");

        var named = request["observations"]!
            .AsArray().ToDictionary(one => one!["path"]!.GetValue<string>(), one => one!["instrument"]!.GetValue<string>());
        Assert.Equal(("BoreGauge 1", "DepthGauge 1"), (named["holes[0].pieces[0].diameter"], named["holes[0].pieces[0].depth"]));
        foreach (var observation in request["observations"]!.AsArray())
        {
            observation!.AsObject().Remove("instrument");
        }

        using var recorded = await client.Record(request);
        Assert.Equal(HttpStatusCode.Created, recorded.StatusCode);
        request["observations"]!.AsArray().Add(JsonNode.Parse("""{ "path": "holes[0].pieces[1].depth", "text": "2 in" }"""));
        using var refused = await client.Record(request);
        Assert.StartsWith("The sheet has no reading at \"holes[0].pieces[1].depth\"", await refused.ProblemAt(
            $"observations[{request["observations"]!.AsArray().Count - 1}].path"), StringComparison.Ordinal);
    }
}
