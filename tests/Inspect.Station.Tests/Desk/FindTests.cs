using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Record;
using static Inspect.Station.Tests.Desk.DeskRecords;

namespace Inspect.Station.Tests.Desk;

/// <summary>Finding records from the desk over HTTP: every filter alone and mixed, and serials that look alike.
/// The behaviour is defined by this project; look-alikes and spellings are common practice, no source.</summary>
public sealed class FindTests : IAsyncLifetime
{
    private readonly DeskRecords _on = new();

    public Task InitializeAsync() => _on.InitializeAsync();

    public Task DisposeAsync() => _on.DisposeAsync();

    [Fact]
    public async Task EachFilter_Alone_FindsWhatItSays()
    {
        var at = (await _on.Answer($"q={Number(_on.Legal)}"))["inspections"]![0]!["at"]!.GetValue<string>();

        await _on.Finds("", _on.OfCup, _on.Open, _on.Again, _on.Heavy, _on.Legal);
        await _on.Finds("event=LANTERN", _on.Open, _on.Again, _on.Heavy, _on.Legal);
        await _on.Finds("event=cup27", _on.OfCup);
        await _on.Finds("entry=101", _on.OfCup, _on.Legal);
        await _on.Finds("bowler=Quell", _on.OfCup, _on.Again, _on.Heavy);
        await _on.Finds("serial=9QF31207", _on.Legal);
        await _on.Finds("inspector=inspector", _on.Open, _on.Legal);
        await _on.Finds("inspector=director", _on.OfCup, _on.Again, _on.Heavy);
        await _on.Finds("outcome=pass", _on.OfCup, _on.Again, _on.Legal);
        await _on.Finds("outcome=fail", _on.Heavy);
        await _on.Finds("outcome=hold", _on.Open);
        await _on.Finds("standing=stands", _on.OfCup, _on.Open, _on.Again, _on.Legal);
        await _on.Finds("standing=superseded", _on.Heavy);
        await _on.Finds("rule=left-right", _on.Open, _on.Heavy);
        await _on.Finds("rule=left-right&ruleOutcome=fail", _on.Heavy);
        await _on.Finds("rule=left-right&ruleOutcome=hold", _on.Open);
        await _on.Finds("rule=gross-weight&ruleOutcome=hold", _on.Open);
        await _on.Finds("rule=gross-weight", _on.Open);
        await _on.Finds("edition=us-national/2018-08-01", _on.OfCup);
        await _on.Finds($"from={SampleSheets.Today}", _on.OfCup, _on.Open, _on.Again, _on.Heavy, _on.Legal);
        await _on.Finds($"to={Day(-1)}");
        await _on.Finds($"from={Day(1)}");
        await _on.Finds($"recordedTo={at}", _on.Legal);
        await _on.Finds($"recordedFrom={Day(-3)}", _on.OfCup, _on.Open, _on.Again, _on.Heavy, _on.Legal);
        await _on.Finds($"recordedFrom={Day(3)}");
        await _on.Finds($"ball={(await _on.Answer("outcome=fail"))["inspections"]![0]!["ball"]}", _on.Again, _on.Heavy);
    }

    [Fact]
    public async Task Filters_Mixed_EachNarrows()
    {
        await _on.Finds("event=LANTERN&entry=101", _on.Legal);
        await _on.Finds("event=LANTERN&outcome=pass&inspector=director", _on.Again);
        await _on.Finds("rule=left-right&inspector=director&standing=superseded&edition=us-national/2020-08-01.2", _on.Heavy);
        await _on.Finds("rule=left-right&ruleOutcome=fail&inspector=inspector");
        await _on.Finds("bowler=quell&outcome=pass&event=LANTERN", _on.Again);
        await _on.Finds("q=quell&outcome=fail", _on.Heavy);
        await _on.Finds("q=quell&entry=101", _on.OfCup);
        await _on.Finds("serial=7O12SZ88&standing=stands", _on.Again);
        await _on.Finds(
            $"outcome=pass&from={SampleSheets.Today}&to={SampleSheets.Today}&recordedFrom={Day(-2)}&recordedTo={Day(2)}", _on.OfCup,
            _on.Again, _on.Legal);
    }

    [Fact]
    public async Task Standing_AfterRulings_IsFoundAloneAndMixed()
    {
        using var withdrawn = await BallStoryTests.Rule(_on.Director, Number(_on.Legal), "withdraw", "The wrong ball was on the scale");
        using var accepted = await BallStoryTests.Rule(_on.Director, Number(_on.Open), "accept", "The scale of the venue has it at 15 lb");
        Assert.Equal((HttpStatusCode.Created, HttpStatusCode.Created), (withdrawn.StatusCode, accepted.StatusCode));

        await _on.Finds("standing=withdrawn", _on.Legal);
        await _on.Finds("standing=ruled", _on.Open);
        await _on.Finds("standing=stands", _on.OfCup, _on.Again);
        await _on.Finds("standing=superseded", _on.Heavy);
        await _on.Finds("standing=withdrawn&event=LANTERN&outcome=pass", _on.Legal);
        await _on.Finds("standing=ruled&q=104", _on.Open);
        await _on.Finds("standing=ruled&rule=gross-weight&inspector=inspector", _on.Open);
        await _on.Finds("standing=withdrawn&event=CUP27");
        Assert.Equal("accept", (await _on.Answer("standing=ruled"))["inspections"]![0]!["ruling"]!.GetValue<string>());
    }

    [Fact]
    public async Task Instrument_ThatAReadingWasTakenWith_IsFoundAloneAndMixedAndOffered()
    {
        var request = SampleSheets.Request(SampleSheets.Legal());
        request["observations"] = new JsonArray(
            new JsonObject { ["path"] = "weights.leftRight", ["text"] = "0.5 oz", ["instrument"] = "Scale 2", ["trial"] = 1 });
        using var answer = await _on.Director.Record(request);
        var read = (await answer.Content.ReadFromJsonAsync<JsonObject>())!;

        await _on.Finds("instrument=Scale%202", read);
        await _on.Finds("instrument=scale%202&outcome=pass&event=LANTERN", read);
        await _on.Finds("instrument=Scale%202&outcome=fail");
        await _on.Finds("instrument=Scale%202&entry=101", read);
        Assert.NotNull((await _on.Director.GetPage("/desk")).QuerySelector("select[name=instrument] option[value='Scale 2']"));
    }

    [Theory]
    [InlineData("7o125z88")]
    [InlineData("70I2SZBB")]
    [InlineData("701252 8 8")]
    public async Task Serial_LookAlikes_CountAsOne(string typed)
    {
        await _on.Finds($"q={Uri.EscapeDataString(typed)}", _on.Again, _on.Heavy);
        await _on.Finds($"serial={Uri.EscapeDataString(typed)}", _on.Again, _on.Heavy);
    }

    [Fact]
    public async Task Serial_BeginningOfFourCharacters_IsFoundByTheOneFieldOnly()
    {
        await _on.Finds("q=7O12", _on.Again, _on.Heavy);
        await _on.Finds("q=7O1");
        await _on.Finds("serial=7O12");
    }
}
