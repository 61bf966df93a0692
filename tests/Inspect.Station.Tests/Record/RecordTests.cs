using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using Inspect.Ledger;
using Inspect.Station.Storage;
using Inspect.Station.Tests.Ground;
using Microsoft.Extensions.DependencyInjection;

namespace Inspect.Station.Tests.Record;

/// <summary>Recording inspections over HTTP: judged again, appended once, and never anonymously. The
/// behaviour is defined by this project.</summary>
public sealed class RecordTests
{
    [Fact]
    public async Task Record_LegalBall_AnswersNumberCodeVerdictAndLinks()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");

        using var answer = await inspector.Record(SampleSheets.Request(SampleSheets.Legal()));

        Assert.Equal(HttpStatusCode.Created, answer.StatusCode);
        var recorded = (await answer.Content.ReadFromJsonAsync<JsonObject>())!;
        Assert.Equal("LANTERN-0001", recorded["number"]!.GetValue<string>());
        Assert.Equal("pass", recorded["verdict"]!["outcome"]!.GetValue<string>());
        Assert.Equal("us-national/2020-08-01.2", recorded["verdict"]!["edition"]!["id"]!.GetValue<string>());
        Assert.Equal("/api/inspections/LANTERN-0001/slip.pdf", recorded["links"]!["slip"]!.GetValue<string>());
        Assert.Equal($"/s/{recorded["code"]}", recorded["links"]!["scan"]!.GetValue<string>());
    }

    [Fact]
    public async Task Record_ClientSendsAVerdict_IsRefused()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        var request = SampleSheets.Request(SampleSheets.TooHeavyOnTheLeft());
        request["verdict"] = new JsonObject { ["outcome"] = "pass" };

        using var answer = await inspector.Record(request);

        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Contains("not a member known here", await answer.ProblemAt("verdict"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Record_NobodySignedIn_Is401AndNothingIsRecorded()
    {
        await using var station = new StationFixture();
        using var nobody = await station.Client();

        using var answer = await nobody.Record(SampleSheets.Request(SampleSheets.Legal()));

        Assert.Equal(HttpStatusCode.Unauthorized, answer.StatusCode);
        Assert.Equal(0, station.Services.GetRequiredService<WriteGate>().Head.Size);
    }

    [Fact]
    public async Task Record_EveryFaultAtOnce_NamesEachPath()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        var sheet = SampleSheets.Legal();
        sheet["weights"]!["gross"] = "15 lbs 17 oz";
        sheet["holes"]![0]!["depth"] = "-2 in";
        sheet["hardness"]!["readings"]![1] = "120";
        sheet["colour"] = "blue";

        using var answer = await inspector.Record(SampleSheets.Request(sheet));

        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        var errors = (await answer.Content.ReadFromJsonAsync<JsonObject>())!["errors"]!.AsObject();
        Assert.Equal(
            ["sheet.colour", "sheet.hardness.readings[1]", "sheet.holes[0].depth", "sheet.weights.gross"],
            errors.Select(error => error.Key).Order(StringComparer.Ordinal));
        Assert.Contains("\"15 lbs 17 oz\"", errors["sheet.weights.gross"]![0]!.GetValue<string>(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Record_UnknownEventEntryOrDay_IsRefusedAtItsPath()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        var elsewhere = SampleSheets.Request(SampleSheets.Legal());
        elsewhere["event"] = "NOWHERE";
        var nobody = SampleSheets.Request(SampleSheets.Legal(), entry: "999");
        var never = SampleSheets.Request(SampleSheets.Legal());
        never["sheet"]!["play"] = "2019-11-05";
        var otherRules = SampleSheets.Request(SampleSheets.Legal());
        otherRules["sheet"]!["authority"] = "international";

        Assert.Contains("NOWHERE", await (await inspector.Record(elsewhere)).ProblemAt("event"), StringComparison.Ordinal);
        Assert.Contains("999", await (await inspector.Record(nobody)).ProblemAt("entry"), StringComparison.Ordinal);
        Assert.Contains("5 November 2019", await (await inspector.Record(never)).ProblemAt("sheet.play"), StringComparison.Ordinal);
        Assert.Contains("international", await (await inspector.Record(otherRules)).ProblemAt("sheet.authority"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Record_SameKeySameBody_IsAnswered200WithTheSameBytes()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        var request = SampleSheets.Request(SampleSheets.Legal()).ToJsonString();

        using var first = await inspector.RecordText(request, "table-1/ball-7");
        using var again = await inspector.RecordText(request, "table-1/ball-7");

        Assert.Equal(HttpStatusCode.Created, first.StatusCode);
        Assert.Equal(HttpStatusCode.OK, again.StatusCode);
        Assert.Equal(await first.Content.ReadAsByteArrayAsync(), await again.Content.ReadAsByteArrayAsync());
        Assert.Equal(1, station.Services.GetRequiredService<WriteGate>().Head.Size);
    }

    [Fact]
    public async Task Record_SameKeyOtherBody_Is422()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");

        using var first = await inspector.Record(SampleSheets.Request(SampleSheets.Legal()), "one");
        using var other = await inspector.Record(SampleSheets.Request(SampleSheets.TooHeavyOnTheLeft()), "one");

        Assert.Equal(HttpStatusCode.Created, first.StatusCode);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, other.StatusCode);
        Assert.Equal(1, station.Services.GetRequiredService<WriteGate>().Head.Size);
    }

    [Fact]
    public async Task Record_SameKeyOfAnotherPerson_IsAnotherRecording()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        using var director = await station.Client("director");

        using var one = await inspector.Record(SampleSheets.Request(SampleSheets.Legal()), "one");
        using var two = await director.Record(SampleSheets.Request(SampleSheets.Legal()), "one");

        Assert.Equal(HttpStatusCode.Created, one.StatusCode);
        Assert.Equal(HttpStatusCode.Created, two.StatusCode);
    }

    [Fact]
    public async Task Record_FailureFirst_DoesNotUseTheKeyUp()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        var wrong = SampleSheets.Request(SampleSheets.Legal(), entry: "999");

        using var refused = await inspector.Record(wrong, "one");
        using var accepted = await inspector.Record(SampleSheets.Request(SampleSheets.Legal()), "one");

        Assert.Equal(HttpStatusCode.BadRequest, refused.StatusCode);
        Assert.Equal(HttpStatusCode.Created, accepted.StatusCode);
    }

    [Fact]
    public async Task Record_WithoutKey_Is400NamingTheHeader()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");

        using var answer = await inspector.RecordText(SampleSheets.Request(SampleSheets.Legal()).ToJsonString(), "");

        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.NotNull(await answer.ProblemAt("Idempotency-Key"));
    }

    [Fact]
    public async Task Record_KeyKeptOverARestart_GivesTheSameBytes()
    {
        var folder = StationFixture.NewFolder();
        try
        {
            var request = SampleSheets.Request(SampleSheets.Legal()).ToJsonString();
            byte[] first;
            await using (var station = new StationFixture(folder: folder))
            {
                using var inspector = await station.Client("inspector");
                using var answer = await inspector.RecordText(request, "before-the-restart");
                first = await answer.Content.ReadAsByteArrayAsync();
            }

            await using (var station = new StationFixture(folder: folder))
            {
                using var inspector = await station.Client("inspector");
                using var answer = await inspector.RecordText(request, "before-the-restart");
                Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
                Assert.Equal(first, await answer.Content.ReadAsByteArrayAsync());
            }
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    [Fact]
    public async Task Record_Superseding_KeepsTheBallAndMarksTheOldOne()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        var failed = await inspector.Recorded(SampleSheets.TooHeavyOnTheLeft());
        var again = SampleSheets.Request(SampleSheets.Legal());
        again["supersedes"] = failed["number"]!.GetValue<string>();

        using var answer = await inspector.Record(again);
        using var third = await inspector.Record(again);

        Assert.Equal(HttpStatusCode.Created, answer.StatusCode);
        var old = (await inspector.GetFromJsonAsync<JsonObject>("/api/inspections/LANTERN-0001"))!;
        var now = (await inspector.GetFromJsonAsync<JsonObject>("/api/inspections/LANTERN-0002"))!;
        Assert.Equal("superseded", old["standing"]!.GetValue<string>());
        Assert.Equal("stands", now["standing"]!.GetValue<string>());
        Assert.Equal(old["ball"]!.GetValue<string>(), now["ball"]!.GetValue<string>());
        Assert.Equal(["LANTERN-0001", "LANTERN-0002"], now["history"]!.AsArray().Select(number => number!.GetValue<string>()));
        Assert.Contains("LANTERN-0002", await third.ProblemAt("supersedes"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Record_Body_IsCanonicalAndNamesNobody()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        var request = SampleSheets.Request(SampleSheets.Legal(), entry: "102");
        request["notMeasured"] = new JsonArray(
            new JsonObject { ["path"] = "weights.anyHalves", ["reason"] = "Quillon asked me to leave it" });
        request["observations"] = new JsonArray(
            new JsonObject
            {
                ["path"] = "weights.leftRight",
                ["text"] = "0.5 oz",
                ["instrument"] = "scale 2",
                ["turned"] = false,
                ["trial"] = 1,
            });
        using var answer = await inspector.Record(request);
        Assert.Equal(HttpStatusCode.Created, answer.StatusCode);

        using var connection = station.Services.GetRequiredService<Database>().OpenForReading();
        var body = Register.BodyOf(connection, 1)!;

        Assert.True(CanonicalJson.IsCanonical(body));
        var text = System.Text.Encoding.UTF8.GetString(body);
        Assert.DoesNotContain("Wierzbosz", text, StringComparison.Ordinal);
        Assert.DoesNotContain("Quillon", text, StringComparison.Ordinal);
        Assert.Contains("\"-1/4 oz\"", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Record_ObservationThatIsNotTheSheetsReading_IsRefused()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        var request = SampleSheets.Request(SampleSheets.Legal());
        request["observations"] = new JsonArray(new JsonObject { ["path"] = "weights.leftRight", ["text"] = "0.75 oz" });

        using var answer = await inspector.Record(request);

        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Contains("0.75 oz", await answer.ProblemAt("observations[0].text"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Record_ManyAtOnce_NumbersRunWithoutGap()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");

        var answers = await Task.WhenAll(Enumerable.Range(0, 60).Select(_ => inspector.Record(SampleSheets.Request(SampleSheets.Legal()))));

        var numbers = new List<string>();
        foreach (var answer in answers)
        {
            Assert.Equal(HttpStatusCode.Created, answer.StatusCode);
            numbers.Add((await answer.Content.ReadFromJsonAsync<JsonObject>())!["number"]!.GetValue<string>());
        }

        Assert.Equal(Enumerable.Range(1, 60).Select(i => $"LANTERN-{i:0000}"), numbers.Order(StringComparer.Ordinal));
    }
}
