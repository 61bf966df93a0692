using System.Net;
using System.Text;
using System.Text.Json.Nodes;
using Dapper;
using Inspect.Ledger;
using Inspect.Station.Instruments;
using Inspect.Station.Record;
using Inspect.Station.Storage;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Record;
using Microsoft.Extensions.DependencyInjection;

namespace Inspect.Station.Tests.Instruments;

/// <summary>Checks of instruments and what a failed one calls back (ISO/IEC 17020: what faulty equipment measured is
/// examined again; from memory).</summary>
public sealed class CheckTests(SharedStation shared) : IClassFixture<SharedStation>
{
    [Fact]
    public async Task Check_Good_IsAnEntryOfTheRegisterSignedByTheInspector()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        using var inspector = await station.Client("inspector");
        await director.Added(Bench.Scale);

        using var recorded = await inspector.CheckScale("100.5 g");
        var body = JsonNode.Parse(Lines(await director.GetStringAsync("/api/register.jsonl"))[0])!;

        Assert.Equal(HttpStatusCode.Found, recorded.StatusCode);
        Assert.Equal("check good Scale 1 scale", $"{body["kind"]} {body["outcome"]} {body["instrument"]} {body["instrumentKind"]}");
        Assert.Equal("100.5 g", body["points"]![1]!["shown"]![0]!.GetValue<string>());
        Assert.Equal("0.1 oz", body["points"]![1]!["tolerance"]!.GetValue<string>());
        Assert.Equal(64, body["by"]!["name"]!.GetValue<string>().Length);
        Assert.DoesNotContain("Morrowgate", body.ToJsonString(), StringComparison.Ordinal);
        Assert.Contains(
            "Ida Morrowgate", (await inspector.GetPage("/instruments/Scale%201")).QuerySelector("main")!.TextContent,
            StringComparison.Ordinal);
    }

    [Fact]
    public async Task Check_Failing_IsShownWithWhatItWouldCallBackBeforeItIsRecorded()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        await director.Added(Bench.Scale);
        var number = await director.Weighed("Scale 1");

        using var shown = await director.CheckScale("103 g");
        var page = await shown.Read();
        using var corrected = await director.Send(page, ("points[0].shown", "100 g"));

        Assert.Contains("so this is outside.", page.QuerySelector("main")!.TextContent, StringComparison.Ordinal);
        Assert.Contains(number, page.QuerySelector("main table")!.TextContent, StringComparison.Ordinal);
        Assert.Equal("/instruments/Scale%201", corrected.Headers.Location!.ToString());
        Assert.Equal("stands", (await Slip(director, number))["standing"]!.GetValue<string>());
    }

    [Fact]
    public async Task Paper_MeasuredBeforeAFailedCheck_IsNotRecordedAfterTheNextGoodOne()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        await director.Added(Bench.Scale);
        using var first = await director.CheckScale("100 g");
        var measured = StationClock.Only.GetUtcNow();
        await director.FailScale();
        using var good = await director.CheckScale("100 g");
        var onPaper = Bench.WeighedWith("Scale 1");
        onPaper["measuredAt"] = measured.ToString("o", System.Globalization.CultureInfo.InvariantCulture);
        var since = Bench.WeighedWith("Scale 1");
        since["measuredAt"] = StationClock.Only.GetUtcNow().ToString("o", System.Globalization.CultureInfo.InvariantCulture);

        using var refused = await director.Record(onPaper);
        using var taken = await director.Record(since);

        Assert.Equal(
            "\"Scale 1\" failed its next check after this was measured, on 21 November 2026; measure the ball again.",
            await refused.ProblemAt("observations[0].instrument"));
        Assert.Equal(HttpStatusCode.Created, taken.StatusCode);
    }

    [Fact]
    public async Task Check_Failed_CallsBackEveryBallSinceTheLastGoodOneAndNoOther()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        await director.Added(Bench.Scale);
        await director.Added(("kind", "scale"), ("name", "Scale 2"), ("resolution", "0.1 oz"));
        var before = await director.Weighed("Scale 1", "101");
        using var good = await director.CheckScale("100 g");
        var first = await director.Weighed("Scale 1", "102");
        var other = await director.Weighed("Scale 2", "103");
        var replaced = await director.Weighed("Scale 1", "104");
        var later = await director.Weighed("Scale 2", "104", supersedes: replaced);

        var address = await director.FailScale();
        var page = await director.GetPage(address);

        var listed = page.QuerySelectorAll("main tbody th").Select(cell => cell.TextContent.Trim()).ToList();
        Assert.Equal([first, replaced], listed);
        Assert.Contains("1 of 2 still to be measured again", page.QuerySelector("main")!.TextContent, StringComparison.Ordinal);
        Assert.Equal("ruled", (await Slip(director, first))["standing"]!.GetValue<string>());
        Assert.Equal("superseded", (await Slip(director, replaced))["standing"]!.GetValue<string>());
        Assert.All([before, other, later], number => Assert.Equal("stands", Slip(director, number).Result["standing"]!.GetValue<string>()));
        using var refused = await director.Record(Bench.WeighedWith("Scale 1"));
        Assert.Equal(
            "\"Scale 1\" failed its last check; it cannot be used until a check of it comes out good.",
            await refused.ProblemAt("observations[0].instrument"));

        // Measured again with another scale, the hold ends; a second failure calls nothing back twice.
        var again = await director.Weighed("Scale 2", "102", supersedes: first);
        await director.FailScale();
        Assert.Equal("stands", (await Slip(director, again))["standing"]!.GetValue<string>());
        Assert.Contains(
            "All of these have been measured again", (await director.GetPage(address)).QuerySelector("main")!.TextContent,
            StringComparison.Ordinal);
        using var connection = station.Services.GetRequiredService<Database>().OpenForReading();
        Assert.Equal(1, connection.ExecuteScalar<long>("SELECT count(*) FROM ruling_index"));
    }

    [Fact]
    public async Task Check_GoodAfterAFailedOne_LetsTheInstrumentBackIn()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        await director.Added(Bench.Scale);
        await director.FailScale();

        using var good = await director.CheckScale("100 g");

        await director.Weighed("Scale 1");
    }

    [Theory]
    [InlineData("zero", "", "Enter what it shows when empty.")]
    [InlineData("points[0].shown", "", "Enter what it showed here.")]
    [InlineData("points[0].shown", "heavy", "\"heavy\" is not a number that can be read")]
    [InlineData("points[0].nominal", "", "Choose the standard that was measured, or enter its value.")]
    [InlineData("points[0].nominal", "300 g", "Class M1 has no weight of 300 g")]
    [InlineData("points[0].class", "", "Enter the weight's class, or its tolerance from its certificate.")]
    public async Task Check_WhatCannotBeUsed_IsRefusedInASentence(string field, string value, string sentence)
    {
        var station = await WithAScale();
        using var director = await station.Client("director");
        (string, string)[] answers = [
            ("zero", "0"), ("points[0].nominal", "100 g"), ("points[0].class", "M1"), ("points[0].shown", "100 g")];

        using var refused = await director.Send(
            await director.GetPage("/instruments/Scale%201/check"), [.. answers.Where(answer => answer.Item1 != field), (field, value)]);

        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.StatusCode);
        Assert.Contains(sentence, (await refused.Read()).QuerySelector(".summary")!.TextContent, StringComparison.Ordinal);
    }

    /// <summary>OIML R 76-1, 3.7.1 (from memory): at 5 kg a weight of M3 takes more than a third of what
    /// two divisions of 0.1 oz allow.</summary>
    [Fact]
    public async Task Check_WithAWeightTooCoarse_DecidesNothing()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        await director.Added(Bench.Scale);
        await director.Added(("kind", "check-weight"), ("name", "CW 5"), ("value", "5 kg"), ("class", "M3"));

        using var refused = await director.Send(
            await director.GetPage("/instruments/Scale%201/check"), ("zero", "0"), ("points[0].standard", "CW 5"),
            ("points[0].shown", "5 kg"));

        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.StatusCode);
        Assert.Contains("more than a third of the "
            + "0.2 oz it is to test", (await refused.Read()).QuerySelector(".summary")!.TextContent, StringComparison.Ordinal);
        Assert.DoesNotContain("\"kind\":\"check\"", await director.GetStringAsync("/api/register.jsonl"), StringComparison.Ordinal);
    }

    /// <summary>Five readings of a hardness block of 60, held on average to the point that its certificate
    /// allows (ASTM D2240 takes five).</summary>
    [Theory]
    [InlineData("62", "/instruments/Durometer%20A")]
    [InlineData("62.1", null)]
    public async Task Check_OfADurometer_HoldsTheAverageToTheBlocksCertificate(string fifth, string? address)
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        await director.Added(("kind", "durometer"), ("name", "Durometer A"), ("resolution", "0.5"));
        await director.Added(("kind", "check-block"), ("name", "Block 60"), ("value", "60"), ("tolerance", "0.3"));

        using var answer = await director.Send(
            await director.GetPage("/instruments/Durometer%20A/check"),
            ("points[0].standard", "Block 60"), ("points[0].tolerance", "1"), ("points[0].shown", "60"), ("points[0].shown2", "61"),
            ("points[0].shown3", "61"),
            ("points[0].shown4", "61"), ("points[0].shown5", fifth));

        Assert.Equal(address, answer.Headers.Location?.ToString());
    }

    /// <summary>A ring of 1 in, known to two ten-thousandths, and a gauge that may be a thousandth off.</summary>
    [Fact]
    public async Task Check_OfABoreGaugeInARing_IsHeldToItsLimitOfError()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        await director.Added(("kind", "bore-gauge"), ("name", "Bore 1"), ("resolution", "0.0005 in"), ("tolerance", "0.001 in"));
        await director.Added(("kind", "check-block"), ("name", "Ring 1"), ("value", "1 in"), ("tolerance", "0.0002 in"));
        var form = await director.GetPage("/instruments/Bore%201/check");

        using var outside = await director.Send(form, ("points[0].standard", "Ring 1"), ("points[0].shown", "1.0015 in"));
        using var on = await director.Send(form, ("points[0].standard", "Ring 1"), ("points[0].shown", "1.001 in"));

        Assert.Contains("0.0015 in high; up to 0.001 in either way is allowed, "
            + "so this is outside.", (await outside.Read()).QuerySelector("main")!.TextContent, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Found, on.StatusCode);
    }

    [Fact]
    public async Task Rebuild_FromTheRegister_GivesTheSameIndexes()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        await director.Added(Bench.Scale);
        using var good = await director.CheckScale("100 g");
        await director.Weighed("Scale 1");
        await director.FailScale();
        var (before, gate) = (Dump(), station.Services.GetRequiredService<WriteGate>());
        Assert.Equal(3, before.Count);

        await gate.Run(write =>
        {
            write.Connection.Execute("DELETE FROM inspection_instrument; UPDATE check_index SET outcome = 'good'", null, write.Transaction);
            RegisterIndex.Rebuild(write, InspectionIndex.Index, Checks.Index);
            return 0;
        });

        Assert.Equal(before, Dump());

        List<string> Dump()
        {
            using var connection = station.Services.GetRequiredService<Database>().OpenForReading();
            return
            [
                .. connection.Query<string>("SELECT seq || instrument || outcome || by_person || at FROM check_index ORDER BY seq"),
                .. connection.Query<string>("SELECT instrument || seq FROM inspection_instrument ORDER BY seq"),
            ];
        }
    }

    [Fact]
    public async Task Register_WithChecksInIt_IsSoundToAnOutsider()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        await director.Added(Bench.Scale);
        await director.Weighed("Scale 1");
        await director.FailScale();

        var text = await director.GetStringAsync("/api/register.jsonl");
        using var exported = new MemoryStream(Encoding.UTF8.GetBytes(text));
        var finding = RegisterCheck.Check(exported, station.Services.GetRequiredService<StationKey>().Public);
        var lines = Lines(text);

        Assert.True(finding.IsSound, finding.Sentence);
        Assert.Equal(["inspection", "check", "ruling"], lines.Take(3).Select(line => JsonNode.Parse(line)!["kind"]!.GetValue<string>()));
        Assert.Equal("recall", JsonNode.Parse(lines[2])!["decision"]!.GetValue<string>());
    }

    private static async Task<JsonNode> Slip(HttpClient client, string number)
    {
        var code = JsonNode.Parse(await client.GetStringAsync($"/api/inspections/{number}"))!["code"]!.GetValue<string>();
        return JsonNode.Parse(await client.GetStringAsync($"/api/slips/{code}"))!;
    }

    private static List<string> Lines(string text) => [.. text.Split('\n', StringSplitOptions.RemoveEmptyEntries)];

    private Task<StationFixture> WithAScale() => shared.After(async station =>
    {
        using var director = await station.Client("director");
        await director.Added(Bench.Scale);
    });
}
