using System.Text;
using Inspect.Rules.Judging;
using Inspect.Rules.Replaying;
using Inspect.Rules.Rulesets;
using Inspect.Sheets;
using Inspect.Sheets.Json;

namespace Inspect.Rules.Tests.Rulesets;

/// <summary>A revision is in force in place of what it corrects, and what it corrects can still be named, read and judged by.</summary>
/// <remarks>The plus mark is for a ball that has no thumb hole: USBC Equipment Specifications and
/// Certifications Manual, January 2021.</remarks>
public class RevisionTests
{
    private const string First = "us-national/2020-08-01";
    private const string Second = "us-national/2020-08-01.2";

    [Theory]
    [MemberData(nameof(Book.Revisions), MemberType = typeof(Book))]
    public void InForceOn_DayOfARevision_IsTheRevision(string id)
    {
        var revision = Book.Find(id);

        Assert.Equal(id, Book.BuiltIn.InForceOn(revision.Authority, revision.From)!.Id);
        Assert.Equal(id, Book.BuiltIn.RevisionOf(Book.Find(revision.Corrects!))!.Id);
        Assert.Null(Book.BuiltIn.RevisionOf(revision));
        Assert.NotEqual(Book.Find(revision.Corrects!).Title, revision.Title);
    }

    [Theory]
    [InlineData(null, "grip-hole-use", Second)]
    [InlineData(First, "grip-hole-use palm-mark", First)]
    [InlineData(Second, "grip-hole-use", Second)]
    public void Judge_SheetThatNamesAnEdition_IsJudgedByThatOne(string? named, string fails, string under)
    {
        var verdict = SheetJudge.Judge(Book.BuiltIn, ThumbOut(named), [])!;

        Assert.Equal(under, verdict.Edition!.Id);
        Assert.Equal(fails.Split(' '), verdict.Findings.Where(finding => finding.Outcome == Outcome.Fail).Select(
            finding => finding.Rule).Distinct());
    }

    [Fact]
    public void Replay_UnderRevisions_SaysWhichRecordedVerdictsTheyChange()
    {
        var recorded = new RecordedInspection("LANTERN-0001", ThumbOut(First), SheetJudge.Judge(Book.BuiltIn, ThumbOut(First), [])!);
        var uncorrected = Sheet("""{ "play": "2026-03-01", "edition": "japan/2020-08-01" }""");
        var other = new RecordedInspection("LANTERN-0002", uncorrected, SheetJudge.Judge(Book.BuiltIn, uncorrected, [])!);

        var report = Replay.Of([recorded, other], Book.BuiltIn, new ReplayTarget.Revised());

        var change = Assert.Single(report.Changes);
        Assert.Equal(("LANTERN-0001", Second), (change.Number, change.Edition));
        Assert.Equal([new RuleChange("palm-mark", Outcome.Fail, null)], change.Rules);
        Assert.Equal((2, 0), (report.Judged, report.NotJudged.Count));
    }

    [Fact]
    public void Library_TwoOfOneRevision_AreRefused() =>
        Assert.Throws<ArgumentException>(() => new EditionLibrary([Book.Find(Second), Book.Find(Second)]));

    /// <summary>A supplement settles what a rule leaves to the director, in the words of why it was left.</summary>
    [Theory]
    [InlineData("allow", Outcome.Pass, "allows it at this event")]
    [InlineData("bar", Outcome.Fail, "bars it at this event")]
    public void Decides_UnreadableSerialOfAHouseBall_IsSettledBySupplement(string word, Outcome outcome, string said)
    {
        var faults = new List<Fault>();
        var supplement = SupplementLoader.Load(Encoding.UTF8.GetBytes($$"""
            { "supplement": "harbour-open", "version": "2026-03-01", "title": "Rules of the Harbour Open", "authority": "us-national",
              "sources": { "rules": { "title": "Invented", "basis": "official" } },
              "decides": [{ "rule": "serial-number", "discretion": "{{word}}", "source": "rules" }] }
            """), faults)!;
        var sheet = Sheet("""
            { "play": "2026-03-01", "authority": "us-national", "marks": { "serialReadable": false }, "plan": ["serial-number"],
              "ball": { "houseBall": { "suppliedByCentre": true, "shell": "polyester", "differential": "0.020 in", "drilledForBowler": false } } }
            """);

        Assert.Empty(SupplementCheck.Against(Book.Find(Second), supplement));
        var finding = Assert.Single(Judge.Under(Book.Find(Second), sheet, new JudgingTerms { Supplements = [supplement] }).Findings);
        Assert.Equal((outcome, "serial-number"), (finding.Outcome, finding.Rule));
        Assert.Contains("No serial number can be read.", finding.Reason, StringComparison.Ordinal);
        Assert.Contains(said, finding.Reason, StringComparison.Ordinal);
    }

    private static Sheet ThumbOut(string? edition) => Sheet($$"""
        { "play": "2026-03-01", {{(edition is null ? "\"authority\": \"us-national\"" : $"\"edition\": \"{edition}\"")}}, "grip": { "digits": ["middle", "ring"] },
          "marks": { "palmMarks": 0 }, "plan": ["grip-hole-use", "palm-mark"],
          "holes": [{ "kind": "grip", "digit": "thumb" }, { "kind": "grip", "digit": "middle" }, { "kind": "grip", "digit": "ring" }] }
        """);

    private static Sheet Sheet(string text)
    {
        var faults = new List<Fault>();
        var sheet = SheetReader.Read(Encoding.UTF8.GetBytes(text), faults);
        Assert.Empty(faults);
        return sheet!;
    }
}
