using Inspect.Rules.Judging;
using Inspect.Sheets.Readings;
using Inspect.Station.Desk.Charts;
using Inspect.Station.Prepare;
using Inspect.Station.Record;
using Inspect.Station.Storage;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Record;
using Inspect.Station.Web;
using Microsoft.Extensions.DependencyInjection;

namespace Inspect.Station.Tests.Desk.Charts;

/// <summary>What charts count, and where they draw it. Expected figures are counted by hand, no source.</summary>
public class CountingTests
{
    /// <summary>The light reader of bodies against the one that reads all of them.</summary>
    [Fact]
    public async Task BodyReader_ARecordedBody_PicksWhatTheWholeReaderReads()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        var request = SampleSheets.Request(SampleSheets.TooHeavyOnTheLeft());
        request["measuredAt"] = "2026-01-02T03:04:05Z";
        request["observations"] = new System.Text.Json.Nodes.JsonArray(
            System.Text.Json.Nodes.JsonNode.Parse(
                """{ "path": "weights.leftRight", "text": "3 1/4 oz", "instrument": "Scale \"Ö\"", "turned": true, "trial": 2 }"""));
        using var answer = await inspector.Record(request);
        Assert.Equal(System.Net.HttpStatusCode.Created, answer.StatusCode);
        using var connection = station.Services.GetRequiredService<Database>().OpenForReading();
        var body = Register.BodyOf(connection, station.Services.GetRequiredService<WriteGate>().Head.Size)!;

        var picked = new BodyReader().Read(body);
        var whole = InspectionBody.Read(body);

        Assert.Equal(whole.Verdict.Edition, new EditionMark(picked.Under.Edition!.Id, picked.Under.Edition.Sha256));
        Assert.Equal(new DateTimeOffset(2026, 1, 2, 3, 4, 5, TimeSpan.Zero), picked.At);
        Assert.Equal(
            whole.Verdict.Findings.Select(
                finding => new CountedFinding(finding.Rule, finding.Path, finding.Outcome, finding.Measured?.Measure, finding.Limit)),
            picked.Findings);
        Assert.Equal(
            whole.Observations.Select(each => new CountedObservation(
                each.Path, each.Text, each.Instrument, each.Turned == true, each.Trial)), picked.Observations);
    }

    [Theory]
    [InlineData("3 oz", 0, 1)]
    [InlineData("-3 oz", 0, 1)]
    [InlineData("3.01 oz", 1, 0)]
    [InlineData("-3.01 oz", 1, 0)]
    [InlineData("2.85 oz", 0, 1)]
    [InlineData("2.84 oz", 0, 0)]
    public void LimitReadings_OneEnd_AreNearWithinATwentiethOfTheLimit(string measured, int outside, int near)
    {
        var readings = Assert.Single(LimitReadings.Of([Ball(Finding("left-right", "weights.leftRight", measured, "at most 3 oz"))]));

        Assert.Equal((outside, near), (readings.Outside, readings.Near));
    }

    [Theory]
    [InlineData("8.5 in", 0, 1)]
    [InlineData("8.504 in", 0, 1)]
    [InlineData("8.505 in", 0, 0)]
    [InlineData("8.595 in", 0, 1)]
    [InlineData("8.499 in", 1, 0)]
    public void LimitReadings_TwoEnds_AreNearWithinATwentiethOfTheWayBetween(string measured, int outside, int near)
    {
        var readings = Assert.Single(LimitReadings.Of([Ball(Finding("diameter", "size.diameters[1]", measured, "8.500 in to 8.595 in"))]));

        Assert.Equal((outside, near), (readings.Outside, readings.Near));
        Assert.Equal(Unit.Inch, readings.Unit);
    }

    [Fact]
    public void LimitReadings_HolesUnderTwoLimits_AreTwoGroupsAndCountsAreNone()
    {
        var groups = LimitReadings.Of([Ball(
            Finding("grip-hole-depth", "holes[0].depth", "2 in", "at most 4 1/2 in"),
            Finding("grip-hole-depth", "holes[3].depth", "63.5 mm", "at most 4 1/2 in"),
            Finding("balance-hole", "holes[1].depth", "2 in", "at most 1 in"),
            Finding("grip-hole-count", "holes", "3", "at most 5"))]);

        Assert.Equal([("grip-hole-depth", 2, 0), ("balance-hole", 1, 1)], groups.Select(group => (group.Rule, group.Count, group.Outside)));
    }

    [Fact]
    public void RuleCount_SeveralHolesOfOneBall_CountOnceAndFailuresComeFirst()
    {
        var counts = RuleCount.In([
            Ball(Finding("a", outcome: Outcome.Hold), Finding("a", outcome: Outcome.Fail), Finding("a", outcome: Outcome.Fail), Finding(
                "b", outcome: Outcome.Hold)),
            Ball(Finding("b", outcome: Outcome.Hold), Finding("c"))]);

        Assert.Equal([new RuleCount("a", 1, 0, 1), new RuleCount("b", 0, 2, 2)], counts);
    }

    [Fact]
    public void RuleDrawing_Bars_AreAsLongAsTheirSharesOfTheInspections()
    {
        var drawing = RuleDrawing.Of(
            [new RuleCount("left-right", 6, 2, 50), new RuleCount("hardness", 2, 0, 50), new RuleCount("circumference", 0, 4, 50)], 50);

        // The longest has 8 of 50, so the axis ends at 20 %.
        Assert.Equal(["0 %", "5 %", "10 %", "15 %", "20 %"], drawing.Ticks.Select(tick => tick.Words));
        Assert.Equal([344 * .6, 344 * .2, 0], drawing.Bars.Select(bar => Math.Round(bar.FailWidth, 6)));
        Assert.Equal([344 * .2, 0, 344 * .4], drawing.Bars.Select(bar => Math.Round(bar.HoldWidth, 6)));
        Assert.Equal(["6 not met, 2 open", "2 not met", "4 open"], drawing.Bars.Select(bar => bar.Words));
    }

    [Fact]
    public void StripDrawing_TwoLimitsCloseTogether_HaveTheirWordsApartAndInTheBox()
    {
        var readings = Assert.Single(LimitReadings.Of([Ball(
            Finding("diameter", "size.diameters[1]", "8.55 in", "8.500 in to 8.595 in"),
            Finding("diameter", "size.diameters[2]", "60 in", "8.500 in to 8.595 in"))]));

        var lines = StripDrawing.Of(readings).Limits;

        var half = Svg.Width("8.500 in", Svg.LabelSize) / 2;
        Assert.InRange(lines[0].LabelX - half, 0, 5);
        Assert.InRange(lines[1].LabelX - lines[0].LabelX, 2 * half, StripDrawing.Width);
        Assert.True(lines[1].X - lines[0].X < 2);
    }

    [Fact]
    public void HourCounts_ADayWithASquad_RunFromTheFirstToTheLastWithoutAGap()
    {
        var day = new DateTime(2027, 3, 14);
        var days = HourCounts.Of(
            [
                Ball() with { At = day.AddHours(8.5) }, Ball() with { At = day.AddHours(8.9), Outcome = Outcome.Fail },
                Ball() with { At = day.AddHours(11) }],
            [new Squad("A", day.AddHours(13.5)), new Squad("B", day.AddDays(1))]);
        var drawing = DayDrawing.Of(Assert.Single(days));

        Assert.Equal([(8, 2), (9, 0), (10, 0), (11, 1), (12, 0), (13, 0)], days[0].Hours.Select(hour => (hour.Hour, hour.All)));
        var mark = Assert.Single(drawing.Squads);
        Assert.Equal("squad A, 13:30", Assert.Single(drawing.SquadLabels).Words);
        Assert.Null(drawing.SquadWords);
        Assert.Equal(DayDrawing.Left + ((DayDrawing.Right - DayDrawing.Left) * 5.5 / 6), mark.X, 6);
    }

    [Fact]
    public void StripDrawing_AReadingOnItsLimit_StandsOnTheSideOnWhichItCounts()
    {
        var readings = Assert.Single(LimitReadings.Of([Ball(
            new[] { "3 oz", "-3 oz", "3.0001 oz", "-3.1 oz", "0 oz" }.Select(
                text => Finding("left-right", "weights.leftRight", text, "at most 3 oz")).ToArray())]));

        var drawing = StripDrawing.Of(readings);

        var (left, right) = (drawing.Limits[0].X, drawing.Limits[1].X);
        Assert.Equal(5, drawing.Bars.Sum(bar => bar.Count));
        Assert.All(drawing.Bars.Where(bar => bar.Side != LimitSide.Outside), bar => Assert.InRange(bar.Middle, left, right));
        Assert.All(drawing.Bars.Where(bar => bar.Side == LimitSide.Outside), bar => Assert.True(bar.Middle < left || bar.Middle > right));
        Assert.True(drawing.HasDots);
    }

    [Fact]
    public void ShareDrawing_FiveOfSeventeen_SpansTenToFiftySixPerCent()
    {
        var share = new FailureShare("Ida", 5, 17);
        var drawing = ShareDrawing.Of([share], share);

        Assert.Equal("5 of 17: 10 to 56 %", drawing.Rows[0].Words);
        Assert.InRange(drawing.Rows[0].ShareX, drawing.Rows[0].LowX, drawing.Rows[0].HighX);
        Assert.Equal(drawing.Rows[0].ShareX, drawing.All!.Value.X);
    }

    /// <summary>The axis ends at the first round share that holds the whole interval.</summary>
    [Theory]
    [InlineData(3, 17, "0 %, 10 %, 20 %, 30 %, 40 %, 50 %")]
    [InlineData(5, 17, "0 %, 20 %, 40 %, 60 %")]
    [InlineData(5, 100, "0 %, 5 %, 10 %, 15 %")]
    [InlineData(1, 1, "0 %, 20 %, 40 %, 60 %, 80 %, 100 %")]
    [InlineData(0, 300, "0 %, 1 %, 2 %")]
    public void ShareDrawing_Axis_FitsTheIntervalInRoundSteps(int failed, int of, string ticks) => Assert.Equal(
        ticks, string.Join(", ", ShareDrawing.Of([new FailureShare("Ida", failed, of)], null).Ticks.Select(tick => tick.Words)));

    [Theory]
    [InlineData(10, 5, 2)]
    [InlineData(11, 5, 2.5)]
    [InlineData(0.037, 6, 0.01)]
    [InlineData(74, 4, 20)]
    public void Scale_Step_IsRoundAndSmallEnough(double span, int most, double step) => Assert.Equal(step, Scale.Step(span, most), 9);

    private static CountedFinding Finding(
        string rule, string? path = null, string? measured = null, string? limit = null, Outcome outcome = Outcome.Pass) =>
        new(
            rule, path, outcome, measured is null ? null : FirstVersion.Measured(measured, path).Measure,
            limit is null ? null : FirstVersion.Allowed(limit, path));

    private static CountedInspection Ball(params CountedFinding[] findings) => new()
    {
        Number = "OPEN-0001",
        Entry = "101",
        Ball = null,
        At = new DateTime(2027, 3, 14, 9, 26, 0),
        Outcome = Outcome.Pass,
        By = "p",
        Before = null,
        SupersededBy = null,
        Play = new DateOnly(2027, 3, 14),
        Under = JudgedUnder.Nothing,
        Findings = findings,
        Observations = [],
    };
}
