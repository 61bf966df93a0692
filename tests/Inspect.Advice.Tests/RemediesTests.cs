using System.Text;
using Inspect.Ball;
using Inspect.Rules.Judging;
using Inspect.Rules.Rulesets;
using Inspect.Rules.Tests.Rulesets;
using Inspect.Sheets;
using Inspect.Sheets.Json;

namespace Inspect.Advice.Tests;

/// <summary>Advice for balls that failed, under the published editions.</summary>
/// <remarks>Source of expected depths and ounces: derived for this project on a three-hole grip (an even ball of 15 lb undrilled, L = 4.25
/// in); held to 1/16 in.</remarks>
public class RemediesTests
{
    private const string Now = "us-national/2020-08-01";

    private const string Thumb =
        """{"kind":"grip","digit":"thumb","diameter":"1 1/16 in","depth":"2 3/4 in","position":{"arc":"2.5 in","azimuth":"270 deg"},"pitch":{"south":"3/8 in"},"secondaryHole":false}""";
    private const string Middle =
        """{"kind":"grip","digit":"middle","diameter":"31/32 in","depth":"2 in","position":{"arc":"2.35 in","azimuth":"106 deg"},"pitch":{"east":"3/8 in"},"secondaryHole":false}""";
    private const string Ring =
        """{"kind":"grip","digit":"ring","diameter":"15/16 in","depth":"2 in","position":{"arc":"2.35 in","azimuth":"74 deg"},"pitch":{"east":"-3/8 in"},"secondaryHole":false}""";

    /// <summary>The worked example: middle finger from 2 in to 2 1/2 to 3 3/8 in, first 2 7/16 in, wall to the ring hole 0.04 in.</summary>
    [Fact]
    public void For_TopWeightAFifthTooMuch_DeepensAFingerAndWarnsOfTheWall()
    {
        var trouble = Assert.Single(Advice(Sheet("3.2 oz", "0 oz", "0 oz")).Troubles);

        Assert.Equal("top-bottom", trouble.Finding.Rule);
        var middle = Assert.Single(trouble.Remedies, remedy => remedy is { Kind: RemedyKind.Deepen, Subject: "middle" });
        Assert.Equal(2.4375, middle.FirstIn);
        Assert.InRange(middle.LeastIn!.Value, 2.47 - 0.0625, 2.47 + 0.0625);
        Assert.InRange(middle.MostIn!.Value, 3.39 - 0.0625, 3.39 + 0.0625);
        Assert.Equal("ring", middle.WallAtFirst!.OtherHole);
        Assert.InRange(middle.WallAtFirst.In, 0, 0.05);
        Assert.Contains(AdviceWords.Reservations(middle), text => text.Contains("bridge", StringComparison.Ordinal));
        Assert.Equal("Drill the middle hole to 2 7/16 in deep, then weigh again.", AdviceWords.Act(middle));
        Assert.InRange(middle.Effect!.Balance.Top.Best, -0.21, -0.19);
    }

    [Fact]
    public void For_TopWeightAFifthTooMuch_ThumbHelpsOnlyInADenseBall()
    {
        var thumb = Assert.Single(
            Assert.Single(Advice(Sheet("3.2 oz", "0 oz", "0 oz")).Troubles).Remedies, remedy =>
                remedy is { Kind: RemedyKind.Deepen, Subject: "thumb" });

        Assert.InRange(thumb.LeastIn!.Value, 3.68 - 0.0625, 3.68 + 0.0625);
        Assert.Null(thumb.MostIn);
        Assert.Contains("may not be enough", AdviceWords.Expect(thumb), StringComparison.Ordinal);
    }

    /// <summary>Most side-weight failures have no deepening remedy: 0.3 oz is never reached on an ordinary grip.</summary>
    [Fact]
    public void For_SideWeightThreeTenthsTooMuch_HasNoRemedyByDrillingDeeper()
    {
        var trouble = Assert.Single(Advice(Sheet("1 oz", "3.3 oz", "0 oz")).Troubles);

        Assert.DoesNotContain(trouble.Remedies, remedy => remedy.Kind is RemedyKind.Deepen or RemedyKind.Widen);
        Assert.Contains(
            trouble.DeadEnds, end => end is { Kind: RemedyKind.Deepen, Subject: "ring", Why: DeadEndReason.TooLittle, MostOz: < 0.3 });
        Assert.Contains(trouble.DeadEnds, end => end is { Kind: RemedyKind.Deepen, Subject: "middle", Why: DeadEndReason.WrongWay });
    }

    /// <summary>Moving the grip's centre an arc s turns the undrilled imbalance T by s / R: side changes by about T·sin(s / R).</summary>
    [Fact]
    public void For_SideWeight_MovesTheGripTowardsTheHeavySide()
    {
        var move = Assert.Single(
            Assert.Single(Advice(Sheet("1 oz", "3.3 oz", "0 oz")).Troubles).Remedies, remedy => remedy.Kind == RemedyKind.MoveTheGrip);
        var undrilledTop = 1 + (10.049076 / 4.25);
        var byHand = 4.25 * Math.Asin(0.3 / undrilledTop);

        Assert.Equal("right", move.Towards);
        Assert.InRange(byHand, move.LeastIn!.Value - 0.05, move.MostIn!.Value + 0.05);
    }

    [Fact]
    public void For_BottomWeight_NoDeeperHoleHelps()
    {
        var trouble = Assert.Single(Advice(Sheet("-3.25 oz", "0 oz", "0 oz")).Troubles);

        Assert.DoesNotContain(trouble.Remedies, remedy => remedy.Kind is RemedyKind.Deepen or RemedyKind.Widen or RemedyKind.Plug);
        Assert.All(trouble.DeadEnds.Where(end => end.Kind == RemedyKind.Deepen), end => Assert.Equal(DeadEndReason.WrongWay, end.Why));
    }

    /// <summary>Each candidate goes through the same judge: finger weight is then over its own limit, and the remedy says so.</summary>
    [Fact]
    public void For_TopAndFingerWeightNearTheirLimits_SaysWhichOtherLimitItBreaks()
    {
        var trouble = Assert.Single(Advice(Sheet("3.2 oz", "0 oz", "-2.95 oz")).Troubles);

        var middle = Assert.Single(trouble.Remedies, remedy => remedy is { Kind: RemedyKind.Deepen, Subject: "middle" });
        Assert.Equal("finger-thumb", Assert.Single(middle.Breaks).Rule);
        Assert.False(middle.IsClear);
    }

    [Fact]
    public void For_HoleTooDeep_IsPluggedAndDrilledAgainWithinTheEditionsLimit()
    {
        var trouble =
            Assert.Single(
            Advice(Sheet("1 oz", "0 oz", "0 oz", thumb: Thumb.Replace("2 3/4 in", "4 5/8 in", StringComparison.Ordinal))).Troubles);

        var remedy = Assert.Single(trouble.Remedies);
        Assert.Equal((RemedyKind.PlugAndRedrill, 4.5), (remedy.Kind, remedy.EndIn));
        Assert.True(remedy.Effect!.WeightOz.Best > 0);
        Assert.Empty(remedy.StillFails);
    }

    [Fact]
    public void For_BalanceHole_IsPlugged_AndNoneIsEverOffered()
    {
        const string hole =
            """{"kind":"balance","diameter":"1 in","depth":"2 in","device":"none","position":{"angle":"90 deg","azimuth":"0 deg"}}""";
        var advice = Advice(Sheet("1 oz", "0 oz", "0 oz", extra: hole));

        var remedy = Assert.Single(Assert.Single(advice.Troubles).Remedies);
        Assert.Equal((RemedyKind.Plug, 3), (remedy.Kind, remedy.Hole));
        Assert.False(advice.AllowsBalanceHole);
        Assert.True(remedy.Effect!.Balance.Side.Best > 0.5);
    }

    [Fact]
    public void For_UnusedThumbHole_IsPluggedAndTheNewGripIsJudged()
    {
        var advice = Advice(Sheet("1 oz", "0 oz", "0 oz", digits: "\"middle\",\"ring\""));

        var remedy = Assert.Single(advice.Troubles.Single(trouble => trouble.Finding.Rule == "grip-hole-use").Remedies);
        Assert.Equal((RemedyKind.Plug, "thumb"), (remedy.Kind, remedy.Subject));
    }

    [Fact]
    public void For_EditionThatAllowedABalanceHole_SaysSo() =>
        Assert.True(Advice(Sheet("1 oz", "1.5 oz", "0 oz"), "us-national/2018-08-01").AllowsBalanceHole);

    /// <summary>The deepest and widest hole come from the edition, not from code: one that allows 3 in only ends there.</summary>
    [Fact]
    public void For_EditionWithAnotherDepth_StopsThere()
    {
        var edition = Book.Find(Now);
        var shallow = edition with
        {
            Rules = [.. edition.Rules.Select(
                rule => rule is Rule.Limited { Quantity: RuleQuantity.HoleDepth } limited && limited.Holes!.Kinds.Contains(HoleKind.Grip)
                ? limited with { Cases = [limited.Cases[0] with { Limit = new Limit(null, new Bound(2.25m * 25.4m, true, "2 1/4 in")) }] }
                : rule)],
        };

        var sheet = Sheet("3.2 oz", "0 oz", "0 oz", thumb: Thumb.Replace("2 3/4 in", "2 in", StringComparison.Ordinal));
        var advice = Remedies.For(sheet, shallow, Judge.Under(shallow, sheet));

        Assert.DoesNotContain(advice.Troubles[0].Remedies, remedy => remedy.Kind == RemedyKind.Deepen);
        Assert.Contains(
            advice.Troubles[0].DeadEnds, end => end is { Kind: RemedyKind.Deepen, Subject: "middle", Why: DeadEndReason.TooLittle });
    }

    [Fact]
    public void For_PlacesNotMeasured_TakesACommonGripAndSaysSo()
    {
        var advice = Advice(Read("""
            {"play":"2027-03-14","authority":"us-national","grip":{"hand":"left","digits":["thumb","middle","ring"]},"weights":{"gross":"14 lb 12 oz","topBottom":"3.1 oz"},
            "holes":[{"kind":"grip","digit":"thumb","diameter":"1 in","depth":"2 1/2 in"},{"kind":"grip","digit":"middle","diameter":"7/8 in","depth":"1 1/2 in"}]}
            """));

        Assert.True(advice.ArePlacesAssumed);
        Assert.False(advice.IsScaleCalibrated);
        Assert.Contains(Assert.Single(advice.Troubles).Remedies, remedy => remedy is { Kind: RemedyKind.Deepen, Subject: "middle" });
    }

    [Fact]
    public void For_NothingMeasuredBesides_SaysPlainlyThatNothingIsKnown()
    {
        var trouble = Assert.Single(Advice(Read("""
            {"play":"2027-03-14","authority":"us-national","weights":{"gross":"15 lb","leftRight":"3.5 oz"},"holes":[{"kind":"grip","digit":"thumb"}]}
            """)).Troubles, trouble => trouble.Finding.Rule == "left-right");

        Assert.Empty(trouble.Remedies);
    }

    [Fact]
    public void For_DeclaredFiguresAndPin_EstimatesFromThem()
    {
        var declared = Read(Text("3.2 oz", "0 oz", "0 oz").Replace("\"ball\":{", """
            "ball":{"declared":{"rg":"2.480 in","differential":"0.050 in"},"pin":{"arc":"3 in","azimuth":"75 deg"},
            """, StringComparison.Ordinal));

        var effect = Assert.Single(Advice(declared).Troubles).Remedies[0].Effect!;

        Assert.Equal(EstimateBasis.DeclaredFigures, effect.Basis);
        Assert.NotNull(effect.TotalDifferentialIn);
        Assert.Equal(EstimateBasis.Illustration, Assert.Single(Advice(Sheet("3.2 oz", "0 oz", "0 oz")).Troubles).Remedies[0].Effect!.Basis);
    }

    [Fact]
    public void For_AsymmetricBallWithoutItsMark_RefusesTheDifferential()
    {
        var declared = Read(Text("3.2 oz", "0 oz", "0 oz").Replace("\"ball\":{", """
            "ball":{"declared":{"rg":"2.480 in","differential":"0.050 in","intermediate":"0.015 in"},"pin":{"arc":"3 in","azimuth":"75 deg"},
            """, StringComparison.Ordinal));

        var advice = Advice(declared);

        Assert.True(advice.RefusedDifferential);
        Assert.Null(advice.Troubles[0].Remedies[0].Effect!.TotalDifferentialIn);
        Assert.NotNull(advice.Troubles[0].Remedies[0].Effect!.LowRgIn);
    }

    /// <summary>The cap holds for the bore and for each removable piece (USBC manual, 01/2021), and a piece is left at home
    /// sooner than a ball is plugged.</summary>
    [Theory]
    [InlineData(
        """{"diameter":"1 in","depth":"4 5/8 in"}""", "Play without thumb piece 2, or have one made that is no more than 4 1/2 in deep.")]
    [InlineData(
        """{"diameter":"1 5/8 in","depth":"2 in"}""", "Play without thumb piece 2, or have one made that is no more than 1 9/16 in wide.")]
    public void For_PieceBeyondTheCap_IsAnotherPieceAndNoDrilling(string piece, string act)
    {
        var pieces = $$""","pieces":[{"diameter":"1 in","depth":"2 in"},{{piece}}]}""";

        var trouble = Assert.Single(Advice(Sheet("1 oz", "0 oz", "0 oz", thumb: Thumb[..^1] + pieces)).Troubles);

        var remedy = Assert.Single(trouble.Remedies);
        Assert.Equal((RemedyKind.AnotherPiece, act), (remedy.Kind, AdviceWords.Act(remedy)));
        Assert.True(remedy.IsClear);
    }

    [Fact]
    public void For_HoleTooWide_SaysHowWideAndNotHowDeep()
    {
        var trouble = Assert.Single(
            Advice(Sheet("1 oz", "0 oz", "0 oz", thumb: Thumb.Replace("1 1/16 in", "1 5/8 in", StringComparison.Ordinal))).Troubles);

        Assert.Equal(
            "Plug the thumb hole and drill it again, no more than 1 9/16 in wide.", AdviceWords.Act(Assert.Single(trouble.Remedies)));
    }

    /// <summary>A grip drilled elsewhere has new holes: its old thumb hole is neither plugged by itself nor still too deep.</summary>
    [Fact]
    public void Short_GripMovedAndThumbTooDeep_NamesTheGripAlone()
    {
        var advice = Advice(Sheet("1 oz", "3.3 oz", "0 oz", thumb: Thumb.Replace("2 3/4 in", "4 5/8 in", StringComparison.Ordinal)));
        var text = AdviceWords.Short(advice)!;

        Assert.Equal(2, advice.Troubles.Count);
        Assert.Equal(
            RemedyKind.PlugAndRedrill, advice.Troubles.Single(trouble => trouble.Finding.Rule != "left-right").Remedies[0].Kind);
        var move = advice.Troubles.Single(trouble => trouble.Finding.Rule == "left-right").Remedies[0];
        Assert.Equal((RemedyKind.MoveTheGrip, 0), (move.Kind, move.StillFails.Count));
        Assert.Contains("Plug the grip and drill it again", text, StringComparison.Ordinal);
        Assert.DoesNotContain("thumb hole", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Lead_SeveralRemedies_SaysThatOneIsEnough()
    {
        var trouble = Advice(Sheet("3.2 oz", "0 oz", "0 oz")).Troubles[0];

        Assert.StartsWith("Each of these is a way on its own", AdviceWords.Lead(trouble), StringComparison.Ordinal);
        Assert.Null(AdviceWords.Lead(Advice(
            Sheet("1 oz", "0 oz", "0 oz", thumb: Thumb.Replace("2 3/4 in", "4 5/8 in", StringComparison.Ordinal))).Troubles[0]));
    }

    /// <summary>The costliest ball: fingers that run into each other, in every plausible inside. Counted once, with room for a third
    /// more.</summary>
    [Fact]
    public void For_DeclaredBallWhoseFingersMeet_AllocatesLittle()
    {
        var sheet = Read(Text("3.2 oz", "0 oz", "0 oz").Replace("\"ball\":{", """
            "ball":{"declared":{"rg":"2.480 in","differential":"0.050 in"},"pin":{"arc":"3 in","azimuth":"75 deg"},
            """, StringComparison.Ordinal).Replace("3/8 in", "0 in", StringComparison.Ordinal));
        var (edition, verdict) = (Book.Find(Now), Judge.Under(Book.Find(Now), sheet));
        Remedies.For(sheet, edition, verdict);

        var before = GC.GetAllocatedBytesForCurrentThread();
        var advice = Remedies.For(sheet, edition, verdict);

        Assert.NotEmpty(Assert.Single(advice.Troubles).Remedies);
        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 1, 600_000);
    }

    [Fact]
    public void For_CallerHasLeft_Stops()
    {
        using var source = new CancellationTokenSource();
        source.Cancel();
        var sheet = Sheet("3.2 oz", "0 oz", "0 oz");
        var verdict = Judge.Under(Book.Find(Now), sheet);

        Assert.Throws<OperationCanceledException>(() => Remedies.For(sheet, Book.Find(Now), verdict, stop: source.Token));
    }

    [Fact]
    public void For_BallThatPasses_IsEmpty() => Assert.Empty(Advice(Sheet("1 oz", "0 oz", "0 oz")).Troubles);

    private static BallAdvice Advice(Sheet sheet, string edition = Now) =>
        Remedies.For(sheet, Book.Find(edition), Judge.Under(Book.Find(edition), sheet));

    private static Sheet Sheet(
        string top, string side, string finger, string thumb = Thumb, string? extra = null,
        string digits = "\"thumb\",\"middle\",\"ring\"") =>
        Read(Text(top, side, finger, thumb, extra, digits));

    private static string Text(
        string top, string side, string finger, string thumb = Thumb, string? extra = null,
        string digits = "\"thumb\",\"middle\",\"ring\"") => $$"""
        {"play":"2027-03-14","authority":"us-national","grip":{"hand":"right","digits":[{{digits}}],"demonstrated":true},"ball":{"listed":"yes"},
        "weights":{"gross":"236.07 oz","topBottom":"{{top}}","leftRight":"{{side}}","fingerThumb":"{{finger}}","scaleConstant":"4.25 in"},
        "size":{"diameters":["8.500 in","8.500 in"]},"holes":[{{thumb}},{{Middle}},{{Ring}}{{(extra is null ? "" : "," + extra)}}]}
        """;

    private static Sheet Read(string json)
    {
        var faults = new List<Fault>();
        var sheet = SheetReader.Read(Encoding.UTF8.GetBytes(json), faults);
        Assert.Empty(faults);
        return sheet!;
    }
}
