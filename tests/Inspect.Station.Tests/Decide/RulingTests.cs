using System.Net;
using System.Net.Http.Json;
using System.Text;
using System.Text.Json.Nodes;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using Dapper;
using Inspect.Station.Record;
using Inspect.Station.Storage;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Record;
using Microsoft.Extensions.DependencyInjection;
using static Inspect.Station.Tests.Decide.RulingSteps;

namespace Inspect.Station.Tests.Decide;

/// <summary>Rulings: entries of their own that never change what was measured. Common practice of officiating,
/// no source, except where named.</summary>
public sealed class RulingTests
{
    [Fact]
    public async Task Accept_OfAnOpenVerdict_StandsOnScanPageAndRecordAndLeavesTheVerdictAsItWas()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        using var director = await station.Client("director");
        var recorded = await inspector.Recorded(Undecided());
        var number = recorded["number"]!.GetValue<string>();
        var code = recorded["code"]!.GetValue<string>();

        using var answer = await Rule(director, number, "accept", "The maker's letter settles it");
        Assert.Equal(HttpStatusCode.Created, answer.StatusCode);

        var slip = (await inspector.GetFromJsonAsync<JsonObject>($"/api/slips/{code}"))!;
        Assert.Equal("ruled", slip["standing"]!.GetValue<string>());
        Assert.StartsWith("Accepted by the director on ", slip["ruling"]!.GetValue<string>(), StringComparison.Ordinal);
        Assert.EndsWith(": The maker's letter settles it.", slip["ruling"]!.GetValue<string>(), StringComparison.Ordinal);
        Assert.Equal(recorded["verdict"]!.ToJsonString(), slip["verdict"]!.ToJsonString());
        var record = (await director.GetFromJsonAsync<JsonObject>($"/api/inspections/{number}"))!;
        Assert.Equal(recorded["verdict"]!.ToJsonString(), record["verdict"]!.ToJsonString());
        Assert.Equal("Hollis Vantreight", record["rulings"]![0]!["by"]!.GetValue<string>());
        var scan = await inspector.GetPage($"/s/{code}");
        Assert.Equal("You may bowl with this ball", scan.QuerySelector("h1")!.Words());
        Assert.DoesNotContain("Hollis", scan.QuerySelector("main")!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Accept_OfAFail_IsRefusedAndTheAppealNamed()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        using var director = await station.Client("director");
        var number = (await inspector.Recorded(SampleSheets.TooHeavyOnTheLeft()))["number"]!.GetValue<string>();

        foreach (var (decision, condition) in new[] { ("accept", null), ("allow", "measured after the block") })
        {
            using var refused = await Rule(director, number, decision, "It was close", condition);
            Assert.Equal(HttpStatusCode.BadRequest, refused.StatusCode);
            Assert.Equal(
                $"{number} was measured outside a limit, which no ruling sets aside; the appeal is a second measurement on "
                    + "another instrument.",
                await refused.ProblemAt("decision"));
        }

        using var appeal = await Rule(director, number, "remeasure", "The bowler appeals");
        Assert.Equal(HttpStatusCode.Created, appeal.StatusCode);
    }

    [Fact]
    public async Task Rule_OnWhatOneMeasured_IsRefusedUnlessTheEventHasOneOfficial()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        var number = (await director.Recorded(Undecided()))["number"]!.GetValue<string>();

        using var refused = await Rule(director, number, "withdraw", "The wrong ball was on the scale");
        Assert.Equal($"You measured {number} yourself; another director has to rule on it.", await refused.ProblemAt("decision"));

        await station.Services.GetRequiredService<WriteGate>().Run(write => write.Connection.Execute(
            "UPDATE event SET single_official = 1", null, write.Transaction));
        using var allowed = await Rule(director, number, "withdraw", "The wrong ball was on the scale");
        Assert.Equal(HttpStatusCode.Created, allowed.StatusCode);
    }

    [Theory]
    [InlineData("inspector")]
    [InlineData(null)]
    public async Task Rule_ByAnyoneButADirector_IsRefused(string? signIn)
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        var number = (await inspector.Recorded(Undecided()))["number"]!.GetValue<string>();
        using var other = await station.Client(signIn);

        using var answer = await Rule(other, number, "withdraw", "Because");

        Assert.Equal(signIn is null ? HttpStatusCode.Unauthorized : HttpStatusCode.Forbidden, answer.StatusCode);
    }

    [Fact]
    public async Task Rule_Nonsense_NamesEachMemberAndRecordsNothing()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        using var director = await station.Client("director");
        var number = (await inspector.Recorded(Undecided()))["number"]!.GetValue<string>();
        var size = station.Services.GetRequiredService<WriteGate>().Head.Size;

        foreach (var (body, path) in new[]
        {
            ("""{"reason":"x"}""", "decision"),
            ("""{"decision":"pardon","reason":"x"}""", "decision"),
            ("""{"decision":"undo","reason":"x"}""", "decision"),
            ("""{"decision":"recall","reason":"x"}""", "decision"),
            ("""{"decision":"accept"}""", "reason"),
            ("""{"decision":"accept","reason":"  "}""", "reason"),
            ("""{"decision":"accept","reason":"x","condition":"y"}""", "condition"),
            ("""{"decision":"allow","reason":"x"}""", "condition"),
            ("""{"decision":"accept","reason":"x","verdict":"pass"}""", "verdict"),
            ("{", "$"),
        })
        {
            using var answer = await Send(director, number, body);
            Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
            Assert.NotNull(await answer.ProblemAt(path));
        }

        Assert.Equal(size, station.Services.GetRequiredService<WriteGate>().Head.Size);
    }

    [Fact]
    public async Task Rule_TheSameTwiceUnderOneKey_IsRecordedOnceAndAnsweredTheSame()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        using var director = await station.Client("director");
        var number = (await inspector.Recorded(Undecided()))["number"]!.GetValue<string>();
        const string Body = """{"decision":"allow","reason":"The tape is at the other centre","condition":"measured after the block"}""";

        using var first = await Send(director, number, Body, "one");
        using var second = await Send(director, number, Body, "one");
        using var other = await Send(director, number, """{"decision":"withdraw","reason":"x"}""", "one");

        Assert.Equal((HttpStatusCode.Created, HttpStatusCode.OK), (first.StatusCode, second.StatusCode));
        Assert.Equal(await first.Content.ReadAsStringAsync(), await second.Content.ReadAsStringAsync());
        Assert.Equal(HttpStatusCode.UnprocessableEntity, other.StatusCode);
        Assert.Single((await director.GetFromJsonAsync<JsonObject>($"/api/inspections/{number}"))!["rulings"]!.AsArray());
    }

    // Faulty equipment is withdrawn and what was measured is examined again: ISO/IEC 17020:2012, 6.2, from memory.
    [Fact]
    public async Task Remeasure_Ordered_IsMetOnlyOnAnotherInstrument()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        using var director = await station.Client("director");
        var request = SampleSheets.Request(SampleSheets.TooHeavyOnTheLeft());
        request["observations"] = Observed("-3.25 oz", "scale-1");
        using var first = await inspector.Record(request);
        var number = (await first.Content.ReadFromJsonAsync<JsonObject>())!["number"]!.GetValue<string>();
        using var ordered = await Rule(director, number, "remeasure", "The bowler appeals");

        var again = SampleSheets.Request(SampleSheets.Legal());
        again["supersedes"] = number;
        again["observations"] = Observed("0.5 oz", "scale-1");
        using var refused = await inspector.Record(again);
        again["observations"] = Observed("0.5 oz", "scale-2");
        using var taken = await inspector.Record(again);

        Assert.Equal(
            $"\"scale-1\" measured this the first time; the second measurement that was ordered on {number} is made on another instrument.",
            await refused.ProblemAt("observations[0].instrument"));
        Assert.Equal(HttpStatusCode.Created, taken.StatusCode);

        static JsonArray Observed(string text, string instrument) =>
            [new JsonObject { ["path"] = "weights.leftRight", ["text"] = text, ["instrument"] = instrument }];
    }

    [Fact]
    public async Task Withdraw_ByADirector_VoidsSlipAndIsFinal()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        using var director = await station.Client("director");
        var recorded = await inspector.Recorded(SampleSheets.Legal());
        var number = recorded["number"]!.GetValue<string>();

        using var done = await Rule(director, number, "withdraw", "Entered under the wrong bowler");
        using var again = await Rule(director, number, "remeasure", "Once more");

        Assert.Equal(HttpStatusCode.Created, done.StatusCode);
        Assert.Equal(
            $"{number} was withdrawn, and nothing more is ruled on it: the ball is measured again.", await again.ProblemAt("decision"));
        var slip = (await inspector.GetFromJsonAsync<JsonObject>($"/api/slips/{recorded["code"]}"))!;
        Assert.Equal("withdrawn", slip["standing"]!.GetValue<string>());
        var scan = await inspector.GetPage($"/s/{recorded["code"]}");
        Assert.Equal("This slip was withdrawn", scan.QuerySelector("h1")!.Words());
        Assert.DoesNotContain("You may bowl", scan.QuerySelector("main")!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Form_WithNothingChosen_SaysWhatIsMissingAndKeepsWhatWasTyped()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        using var director = await station.Client("director");
        var number = (await inspector.Recorded(Undecided()))["number"]!.GetValue<string>();
        var page = await director.GetPage($"/inspections/{number}/rule");

        using var refused = await director.Send(page, ("reason", "Because the tape broke"));
        var shown = await refused.Read();
        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.StatusCode);
        Assert.Equal("Choose a decision.", shown.FaultAt("decision"));
        Assert.Equal("Because the tape broke", shown.QuerySelector<IHtmlTextAreaElement>("textarea[name=reason]")!.Value.Trim());

        using var recorded = await director.Send(shown, ("decision", "allow"), ("condition", "measured after the block"));
        Assert.Equal($"/inspections/{number}", recorded.Headers.Location!.ToString());
    }

    // Two directors look at one ball, or one has it open in two tabs: the second is shown what the
    // first decided before anything is recorded.
    [Fact]
    public async Task Form_OpenWhileSomebodyElseRuled_ShowsTheirRulingFirst()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        using var director = await station.Client("director");
        var number = (await inspector.Recorded(Undecided()))["number"]!.GetValue<string>();
        var first = await director.GetPage($"/inspections/{number}/rule");
        var second = await director.GetPage($"/inspections/{number}/rule");

        using var accepted = await director.Send(first, ("decision", "accept"), ("reason", "Known ball"));
        using var pressedTwice = await director.Send(first, ("decision", "accept"), ("reason", "Known ball"));
        using var refused = await director.Send(second, ("decision", "withdraw"), ("reason", "Wrong entry"));
        Assert.Equal((HttpStatusCode.Redirect, HttpStatusCode.Redirect), (accepted.StatusCode, pressedTwice.StatusCode));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.StatusCode);
        var shown = await refused.Read();
        Assert.Contains($"Somebody ruled on {number} while this form was open.", shown.Body!.TextContent, StringComparison.Ordinal);
        Assert.Contains("Known ball", shown.QuerySelector(".rulings")!.TextContent, StringComparison.Ordinal);
        Assert.Single((await director.GetFromJsonAsync<JsonObject>($"/api/inspections/{number}"))!["rulings"]!.AsArray());

        using var still = await director.Send(shown, ("decision", "withdraw"), ("reason", "Wrong entry"));
        Assert.Equal(HttpStatusCode.Redirect, still.StatusCode);
        Assert.Equal(2, (await director.GetFromJsonAsync<JsonObject>($"/api/inspections/{number}"))!["rulings"]!.AsArray().Count);
    }

    [Fact]
    public async Task Rebuild_FromTheRegister_GivesTheSameIndexAndTheExportChecks()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        using var director = await station.Client("director");
        var number = (await inspector.Recorded(Undecided()))["number"]!.GetValue<string>();
        using var allow = await Rule(director, number, "allow", "No tape here", "measured after the block");
        using var accept = await Rule(director, number, "accept", "Measured by hand");
        var gate = station.Services.GetRequiredService<WriteGate>();
        var before = await gate.Run(Dump);

        await gate.Run(write => write.Connection.Execute("UPDATE ruling_index SET decision = 'withdraw'", null, write.Transaction));
        Assert.NotEqual(before, await gate.Run(Dump));
        await gate.Run(write =>
        {
            RegisterIndex.Rebuild(write, RulingIndex.Index);
            return 0;
        });

        Assert.Equal(before, await gate.Run(Dump));
        var export = await director.GetByteArrayAsync("/api/register.jsonl");
        Assert.DoesNotContain("No tape here", Encoding.UTF8.GetString(export), StringComparison.Ordinal);
        Assert.DoesNotContain("Vantreight", Encoding.UTF8.GetString(export), StringComparison.Ordinal);
        using var stream = new MemoryStream(export);
        Assert.True(Inspect.Ledger.RegisterCheck.Check(stream).IsSound);

        static string Dump(WriteTransaction write) =>
            string.Join('\n', write.Connection.Query("SELECT * FROM ruling_index ORDER BY seq", null, write.Transaction)
            .Select(row => string.Join('|', (IEnumerable<KeyValuePair<string, object>>)row)));
    }
}
