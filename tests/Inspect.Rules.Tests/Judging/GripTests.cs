using Inspect.Rules.Judging;
using Inspect.Rules.Rulesets;
using Inspect.Rules.Tests.Supplements;

namespace Inspect.Rules.Tests.Judging;

/// <summary>Legality belongs to ball and grip together; limits of the national edition of 2020-08-01, the pieces' place in a
/// verdict defined by this project.</summary>
public class GripTests
{
    private const string Pieces = """
        { "holes[0].pieces": [ { "diameter": "1 in", "depth": "2 3/4 in" }, { "diameter": "1 5/8 in", "depth": "4 1/2 in" }, { "depth": "2 in" } ] }
        """;

    [Fact]
    public void Under_InterchangeablePieces_AreEachJudged()
    {
        var verdict = Lantern.Judged(Pieces, JudgingTerms.None);
        var wide = verdict.Findings.Where(
            finding => finding.Rule == "grip-hole-diameter" && finding.Subject.StartsWith("thumb", StringComparison.Ordinal)).ToList();

        Assert.Equal(
            [
                ("thumb", "holes[0].diameter", Outcome.Pass),
                ("thumb, piece 1", "holes[0].pieces[0].diameter", Outcome.Pass),
                ("thumb, piece 2", "holes[0].pieces[1].diameter", Outcome.Fail),
                ("thumb, piece 3", "holes[0].pieces[2].diameter", Outcome.Hold),
            ],
            wide.Select(finding => (finding.Subject, finding.Path!, finding.Outcome)));
        Assert.Equal("The thumb piece 2 hole is 1 5/8 in wide, 1/16 in too wide; at most 1 9/16 in is allowed.", wide[2].Reason);
        Assert.Equal(4, verdict.Findings.Count(
            finding => finding.Rule == "grip-hole-depth" && finding.Subject.StartsWith("thumb", StringComparison.Ordinal)));
        Assert.Equal(Outcome.Fail, verdict.Outcome);
    }

    [Fact]
    public void Under_BallWithoutPieces_HasTheFindingsItAlwaysHad() =>
        Assert.DoesNotContain(Lantern.Judged("{}").Findings, finding => finding.Subject.Contains("piece", StringComparison.Ordinal));

    /// <summary>The same ball with thumb and without: two sheets, two verdicts.</summary>
    [Fact]
    public void Under_BallDeliveredTwoWays_HasAVerdictForEachGrip()
    {
        var withThumb = Lantern.Judged("{}", JudgingTerms.None);
        var without = Lantern.Judged("""{ "grip.digits": ["middle", "ring"] }""", JudgingTerms.None);

        Assert.Equal((Outcome.Pass, Outcome.Fail), (withThumb.Outcome, without.Outcome));
        Assert.Equal(["grip-hole-use", "palm-mark"], without.Findings.Where(finding => finding.Outcome == Outcome.Fail).Select(
            finding => finding.Rule).Order());
    }

    [Fact]
    public void Under_RuleOfTheLanguage_CountsPieceDepthsLikeHoles()
    {
        var rule = Lantern.Of("""{"rule":"depth","kind":"limit","quantity":"holeDepth","holes":["grip"],"atMost":"4 in"}""");
        var verdict = Lantern.Judged(Pieces, new JudgingTerms { Supplements = [rule] });

        Assert.Equal(
            ["holes[0].pieces[1].depth"],
            verdict.Findings.Where(finding => finding is { Rule: "depth", Outcome: Outcome.Fail }).Select(finding => finding.Path));
    }
}
