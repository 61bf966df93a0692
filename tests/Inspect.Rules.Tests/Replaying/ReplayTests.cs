using System.Globalization;
using System.Text;
using Inspect.Rules.Judging;
using Inspect.Rules.Replaying;
using Inspect.Rules.Rulesets;
using Inspect.Rules.Tests.NearLimits;
using Inspect.Rules.Tests.Rulesets;
using Inspect.Rules.Tests.Supplements;
using Inspect.Sheets;
using Inspect.Sheets.Json;

namespace Inspect.Rules.Tests.Replaying;

/// <summary>Judging recorded inspections again agrees with judging each by itself; what a report
/// holds is defined by this project.</summary>
public class ReplayTests
{
    private const string Before2020 = "us-national/2018-08-01";

    /// <summary>Ten thousand inspections as they come: weights, balance, holes and grips spread over and beyond what is allowed.</summary>
    private static readonly Lazy<List<RecordedInspection>> TenThousand = new(() => Enumerable.Range(0, 10_000).Select(Recorded).ToList());

    [Theory]
    [InlineData(Before2020)]
    [InlineData("international/2025-10-14")]
    public void Of_TenThousandUnderAnotherEdition_CountsLikeJudgingEachByItself(string other)
    {
        var (edition, report) = (Book.Find(other), Replay.Of(TenThousand.Value, Book.BuiltIn, new ReplayTarget.OneEdition(other)));

        var alone = TenThousand.Value.Select(one => (Then: one.Verdict, Now: Judge.Under(edition, one.Sheet))).ToList();
        var counts = alone.Select(one => (Then: one.Then.Outcome, Now: one.Now.Outcome)).Where(one => one.Then != one.Now)
            .GroupBy(one => one).ToDictionary(group => group.Key, group => group.Count());
        Assert.Equal(10_000, report.Judged);
        Assert.Empty(report.NotJudged);
        Assert.Equal(counts.Values.Sum(), report.VerdictsChanged);
        Assert.Equal(counts, report.ByOutcome.ToDictionary(one => (one.Old, one.New), one => one.Count));
        Assert.True(report.VerdictsChanged is > 100 and < 9_900);
        foreach (var rule in edition.RuleIds)
        {
            var changed = alone.Count(one => Of(one.Then, rule) != Of(one.Now, rule));
            Assert.Equal(changed, report.ByRule.Where(row => row.Change.Rule == rule).Sum(row => row.Count));
        }
    }

    [Fact]
    public void Of_OwnEdition_ChangesNothing()
    {
        var report = Replay.Of(TenThousand.Value.Take(1000), Book.BuiltIn, new ReplayTarget.OwnEdition());

        Assert.Equal((1000, 0, 0), (report.Judged, report.Changes.Count, report.NotJudged.Count));
    }

    [Fact]
    public void Of_AnAuthority_TakesTheEditionOfEachDay()
    {
        var old = Recorded(1) with { Sheet = Recorded(1).Sheet with { Play = new DateOnly(2019, 2, 1) } };
        var early = old with { Number = "EARLY-0001", Sheet = old.Sheet with { Play = new DateOnly(2001, 2, 1) } };

        var report = Replay.Of([early, old], Book.BuiltIn, new ReplayTarget.EditionsOf("international"));

        Assert.Equal((null, Outcome.Hold), (report.Changes[0].Edition, report.Changes[0].New));
        Assert.All(report.Changes.Skip(1), change => Assert.Equal("international/2019-01-01", change.Edition));
    }

    [Fact]
    public void Of_Supplement_NamesTheRulesItAddsAndWhatTheyChange()
    {
        RecordedInspection[] two =
        [
            Own("A-0001", """{ "ball.serial": "71234" }"""),
            Own("A-0002", "{}"),
        ];
        var report = Replay.Of(two, Book.BuiltIn, new ReplayTarget.OwnEdition { Terms = Lantern.Terms });

        Assert.Equal(1, report.VerdictsChanged);
        Assert.Contains(new RuleChange("barred-serials", null, Outcome.Fail), report.Changes[0].Rules);
        Assert.Equal((Outcome.Pass, Outcome.Pass), (report.Changes[1].Old, report.Changes[1].New));
        Assert.Contains((new RuleChange("freeze", null, Outcome.Pass), 2), report.ByRule);
    }

    [Fact]
    public void Of_DecisionRule_HoldsWhatLiesNearTheLimit()
    {
        var terms = new JudgingTerms { DecisionRule = DecisionRule.GuardedAcceptance(2), Uncertainties = [Side.Uncertainty] };
        var report = Replay.Of(
            [Own("A-0001", """{ "weights.leftRight": "2.95 oz" }""")], Book.BuiltIn, new ReplayTarget.OwnEdition { Terms = terms });

        Assert.Equal([new RuleChange("left-right", Outcome.Pass, Outcome.Hold)], Assert.Single(report.Changes).Rules);
    }

    [Fact]
    public void Of_WhatCannotBeJudgedAgain_IsNamedWithTheReason()
    {
        var one = Own("A-0001", "{}");
        var other = one with
        {
            Number = "A-0002",
            Verdict = one.Verdict with { Edition = new EditionMark(Lantern.Edition.Id, new string('0', 64)) },
        };
        var unknown = one with
        {
            Number = "A-0003",
            Verdict = one.Verdict with { Edition = new EditionMark("us-national/1999-01-01", new string('0', 64)) },
        };
        var loose = Lantern.Of("""{"rule":"left-right","kind":"limit","quantity":"leftRight","atMost":"5 oz"}""");

        var report = Replay.Of(
            [one, other, unknown], Book.BuiltIn, new ReplayTarget.OwnEdition { Terms = new JudgingTerms { Supplements = [loose] } });

        Assert.Equal((0, 3), (report.Judged, report.NotJudged.Count));
        Assert.Contains("never loosen it", report.NotJudged[0].Reason, StringComparison.Ordinal);
        Assert.Contains("other bytes here", report.NotJudged[1].Reason, StringComparison.Ordinal);
        Assert.Contains("not known here", report.NotJudged[2].Reason, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => Replay.Of([one], Book.BuiltIn, new ReplayTarget.OneEdition("us-national/1999-01-01")));
        Assert.Throws<ArgumentException>(() => Replay.Of([one], Book.BuiltIn, new ReplayTarget.EditionsOf("atlantis")));
    }

    /// <summary>Quotes, commas and line ends as in RFC 4180.</summary>
    [Fact]
    public void Write_Csv_QuotesAsRfc4180Says()
    {
        var report = new ReplayReport(2, [
            new ReplayChange("He said \"no\", twice", Outcome.Pass, Outcome.Fail, "a/2020-01-01", [
                new RuleChange("left-right", Outcome.Pass, Outcome.Fail), new RuleChange("vent-hole", null, Outcome.Hold)]),
            new ReplayChange("A-2", Outcome.Hold, Outcome.Pass, null, [])], []);

        Assert.Equal(
            "inspection,edition,verdict then,verdict now,rule,rule then,rule now\r\n"
            + "\"He said \"\"no\"\", twice\",a/2020-01-01,pass,fail,left-right,pass,fail\r\n"
            + "\"He said \"\"no\"\", twice\",a/2020-01-01,pass,fail,vent-hole,none,hold\r\n"
            + "A-2,,hold,pass,,none,none\r\n",
            ReplayCsv.Write(report));
    }

    /// <summary>A register to replay may come from anywhere. Source: OWASP, CSV Injection.</summary>
    [Fact]
    public void Write_CsvOfANumberThatASpreadsheetWouldRun_MarksItAsText()
    {
        var report = new ReplayReport(1, [new ReplayChange("=1+2", Outcome.Pass, Outcome.Fail, null, [])], []);

        Assert.EndsWith("\r\n'=1+2,,pass,fail,,none,none\r\n", ReplayCsv.Write(report), StringComparison.Ordinal);
    }

    [Fact]
    public void Write_Json_HasCountsAndChanges()
    {
        var report = Replay.Of(
            [Own("A-0001", """{ "weights.leftRight": "2 oz" }""")], Book.BuiltIn, new ReplayTarget.OneEdition("us-national/2014-05-07"));
        var written = ReplayJson.Write(report);

        Assert.Equal(["judged", "verdictsChanged", "outcomes", "rules", "changes", "notJudged"], written.Select(member => member.Key));
        Assert.Equal("""[{"then":"pass","now":"fail","count":1}]""", written["outcomes"]!.ToJsonString());
        Assert.Contains(
            """{"rule":"left-right","then":"pass","now":"fail","count":1}""", written["rules"]!.ToJsonString(), StringComparison.Ordinal);
        Assert.Equal("us-national/2014-05-07", (string?)written["changes"]![0]!["edition"]);
    }

    private static RecordedInspection Own(string number, string changes)
    {
        var sheet = Lantern.Sheet(changes);
        return new RecordedInspection(number, sheet, Judge.Under(Lantern.Edition, sheet));
    }

    private static Outcome? Of(Verdict verdict, string rule) =>
        verdict.Findings.Where(finding => finding.Rule == rule).ToList() is { Count: > 0 } findings ? Verdict.Of(findings) : null;

    private static RecordedInspection Recorded(int index)
    {
        // A plain generator with a fixed start: the same ten thousand every time.
        var state = unchecked((uint)(index + 1) * 2654435761u);
        int Next(int below) => (int)((state = unchecked((state * 1664525u) + 1013904223u)) / 65536 % (uint)below);
        string Hundredths(int number) => (number / 100m).ToString("0.00", CultureInfo.InvariantCulture);
        var thumb = Next(4) > 0;
        var sheet = $$"""
            { "play": "2024-03-10", "authority": "us-national",
              "grip": { "hand": "right", "digits": [{{(thumb ? "\"thumb\"," : "")}}"middle","ring"], "demonstrated": true },
              "ball": { "listed": "{{(Next(20) > 0 ? "yes" : "no")}}", "made": "{{1985 + Next(40)}}" },
              "marks": { "modelReadable": true, "serialReadable": true, "palmMarks": {{Next(2)}}, "foreignMaterial": false, "surfacePattern": false },
              "weights": { "gross": "{{8 + Next(8)}} lb {{Next(16)}} oz", "topBottom": "{{Hundredths(Next(400))}} oz", "leftRight": "{{Hundredths(Next(400) - 200)}} oz",
                "fingerThumb": "{{Hundredths(Next(300) - 150)}} oz" },
              "size": { "diameters": ["8.580 in", "8.58{{Next(10)}} in"], "circumference": "26.95 in" },
              "hardness": { "readings": ["{{70 + Next(8)}}"], "temperature": "72 F" },
              "holes": [ { "kind": "grip", "digit": "thumb", "diameter": "31/32 in", "depth": "2 3/4 in", "secondaryHole": false },
                { "kind": "grip", "digit": "middle", "diameter": "7/8 in", "depth": "2 in", "secondaryHole": false },
                { "kind": "grip", "digit": "ring", "diameter": "7/8 in", "depth": "2 in", "secondaryHole": false }
                {{(Next(4) > 0 ? "" : ", { \"kind\": \"balance\", \"diameter\": \"1 in\", \"depth\": \"3 in\", \"device\": \"none\" }")}} ] }
            """;
        var faults = new List<Fault>();
        var read = SheetReader.Read(Encoding.UTF8.GetBytes(sheet), faults);
        Assert.Empty(faults);
        return new RecordedInspection(
            FormattableString.Invariant($"OPEN-{index:0000}"), read!, SheetJudge.Judge(Book.BuiltIn, read!, faults)!);
    }
}
