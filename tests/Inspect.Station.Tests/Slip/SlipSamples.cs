using Inspect.Advice;
using Inspect.Ball;
using Inspect.Station.Pictures;
using Inspect.Station.Record;
using Inspect.Station.Slip;

namespace Inspect.Station.Tests.Slip;

/// <summary>Slips of an invented event, as full as a three-hole ball makes them.</summary>
internal static class SlipSamples
{
    private static readonly string[] Digits = ["thumb", "middle", "ring"];

    /// <summary>The balance of a ball that is 3 1/4 oz heavier on its left side.</summary>
    public static BalanceDrawing Balance { get; } = new(
        Value(BalanceAxis.Side, -3.25), Value(BalanceAxis.Finger, 0.25), Value(BalanceAxis.Top, 1), IsEstimate: false);

    /// <summary>A slip with that verdict: a fail has three fails and a hold, a hold has two.</summary>
    public static SlipContent Of(SlipOutcome outcome)
    {
        var findings = ThreeHoleBall();
        switch (outcome)
        {
            case SlipOutcome.Fail:
                Replace(findings, "Left or right", "ball", "-3 1/4 oz", "at most 3 oz", "-1/4 oz", SlipOutcome.Fail,
                    "The left side is 3 1/4 oz heavier than the right; at most 3 oz is allowed.");
                Replace(findings, "Depth of gripping hole", "thumb", "4 33/64 in", "at most 4 1/2 in", "-1/64 in", SlipOutcome.Fail,
                    "The thumb hole is 4 33/64 in deep; at most 4 1/2 in is allowed.");
                Replace(findings, "Surface hardness", "ball", "71, 71.5, 71", "at least 72", "-0.83", SlipOutcome.Fail,
                    "The three readings average 71.17 Shore D; at least 72 is asked for.");
                Replace(findings, "Circumference", "ball", null, "at most 27.002 in", null, SlipOutcome.Hold,
                    "The circumference was not measured.");
                break;
            case SlipOutcome.Hold:
                Replace(findings, "Circumference", "ball", null, "at most 27.002 in", null, SlipOutcome.Hold,
                    "The circumference was not measured.");
                Replace(findings, "Approved list", "ball", "unknown", "on the list", null, SlipOutcome.Hold,
                    "Nobody found this model on the approved list yet; the director decides whether it may be used.");
                break;
            default:
                break;
        }

        return Base(outcome) with { Findings = findings };
    }

    /// <summary>A fail in which twelve rules are broken.</summary>
    public static SlipContent TwelveFails()
    {
        var findings = ThreeHoleBall();
        for (var i = 0; i < 12; i++)
        {
            findings[i * 2] = findings[i * 2] with
            {
                Outcome = SlipOutcome.Fail,
                Reason = $"Reason {i + 1}: what was found here lies outside what the edition in force allows, measured twice "
                    + "with the ball turned.",
            };
        }

        return Base(SlipOutcome.Fail) with { Findings = findings };
    }

    /// <summary>Everything that can be long is long, and everything that can be absent is there.</summary>
    public static SlipContent Crowded()
    {
        var findings = ThreeHoleBall();
        for (var i = findings.Count; i < 40; i++)
        {
            findings.Add(new SlipFinding(
                $"Supplement rule {i}", "vent in the ring finger hole", "15/64 in", "at most 1/4 in", "1/64 in", SlipOutcome.Pass, null));
        }

        return Base(SlipOutcome.Pass) with
        {
            Event = "The Grand Autumn Lantern and Harbour Lights Invitational Trios",
            Bowler = "Maximiliana-Theodora Nguyễn van den Bergenhoff-Żółkiewska II",
            BallMaker = "Halvorne & Daughters Precision Bowling Sphere Works of Oland",
            BallModel = "Undertow Slate Reserve Edition with Pearlescent Midnight Fin",
            BallSerial = "7K2M0419-7K2M0419-7K2M0419-7K2M0419-7K2M0419-7K2M0419-7K2M04",
            Number = "AUTUMNLANTERNHARBOUR-10417",
            Findings = findings,
            Supplements = ["Lantern supplement of 1 March 2027", "Two re-checks a squad"],
            NotChecked = ["Void in hole", "Palm mark"],
            Ruling = "The director allows the scuffed serial number, which the maker's letter of 2 March 2027 confirms.",
            Supersedes = "LANTERN-0398",
            SupersededBy = "LANTERN-0431",
            Notes = ["The surface reads soft for a ball of this age; measure it again on the last day."],
        };
    }

    public static SlipContent Base(SlipOutcome outcome)
    {
        Assert.True(
            SlipCode.TryParse("7K2M-0419-XQ3PA-" + CheckCharacter.For("7K2M0419XQ3PA"), out var code), "The sample's code is a code.");
        return new SlipContent
        {
            Outcome = outcome,
            Number = "LANTERN-0417",
            Code = code,
            ScanUrl = ScanAddress.Of(new Uri("https://inspect.lantern.example"), code),
            Event = "Lantern Harbour Open",
            GoodFrom = new DateOnly(2027, 3, 12),
            GoodTo = new DateOnly(2027, 3, 15),
            Play = new DateOnly(2027, 3, 14),
            Bowler = "Łukasz Żółć",
            Entry = "0142",
            BallMaker = "Halvorne",
            BallModel = "Undertow Slate",
            BallSerial = "7K2M0419",
            BallTag = "T-118",
            Grip = "Right hand; thumb, middle and ring finger are in a hole on every delivery.",
            EditionTitle = "National rules from 1 August 2020",
            EditionId = "us-national/2020-08-01",
            Supplements = ["Lantern supplement of 1 March 2027"],
            Inspector = "Ottilie Brandvold",
            RecordedAt = new DateTimeOffset(2027, 3, 13, 16, 42, 0, TimeSpan.FromHours(1)),
            RegisterSize = 4182,
            RegisterRoot = "9f3ac21b77d0",
        };
    }

    private static List<SlipFinding> ThreeHoleBall()
    {
        List<SlipFinding> findings =
        [
            Met("Gross weight", "15 lb 1 oz", "at most 16 lb", "15 oz"),
            Met("Circumference", "26.95 in", "at most 27.002 in", "0.052 in"),
            Met("Diameter", "8.580 in, 8.582 in", "8.500 to 8.595 in", "0.013 in"),
            Met("Roundness", "0.002 in", "at most 0.010 in", "0.008 in"),
            Met("Surface pattern", "none", "none", null),
            Met("Foreign material", "none", "none", null),
            Met("Model name", "readable", "readable", null),
            Met("Serial number", "readable", "readable", null),
            Met("Approved list", "listed", "on the list", null),
            Met("Made since", "2024-05", "1991-01 or later", null),
            Met("Number of gripping holes", "3", "at most 5", "2"),
        ];
        string[] widths = ["31/32 in", "7/8 in", "27/32 in"];
        string[] depths = ["2 3/4 in", "2 in", "2 in"];
        for (var i = 0; i < Digits.Length; i++)
        {
            findings.Add(new("One hole a digit", Digits[i], "1", "1", null, SlipOutcome.Pass, null));
            findings.Add(new("Use of gripping hole", Digits[i], "in use", "every delivery", null, SlipOutcome.Pass, null));
            findings.Add(new("Width of gripping hole", Digits[i], widths[i], "at most 1 9/16 in", "19/32 in", SlipOutcome.Pass, null));
            findings.Add(new("Depth of gripping hole", Digits[i], depths[i], "at most 4 1/2 in", "1 3/4 in", SlipOutcome.Pass, null));
            findings.Add(new("Second hole inside", Digits[i], "none", "none", null, SlipOutcome.Pass, null));
        }

        findings.AddRange(
        [
            Met("Balance hole", "none", "none", null),
            Met("Palm marks", "0", "at most 1", "1"),
            Met("Top or bottom", "1 1/4 oz", "at most 3 oz", "1 3/4 oz"),
            Met("Left or right", "1/2 oz", "at most 3 oz", "2 1/2 oz"),
            Met("Finger or thumb", "1/4 oz", "at most 3 oz", "2 3/4 oz"),
            Met("Surface hardness", "74, 75, 74", "at least 72", "2.33"),
        ]);
        return findings;
    }

    private static SlipFinding Met(string rule, string measured, string limit, string? margin) =>
        new(rule, "ball", measured, limit, margin, SlipOutcome.Pass, null);

    private static void Replace(
        List<SlipFinding> findings, string rule, string subject, string? measured, string? limit, string? margin, SlipOutcome outcome,
        string reason)
    {
        var at = findings.FindIndex(finding => finding.Rule == rule && finding.Subject == subject);
        findings[at] = new SlipFinding(rule, subject, measured, limit, margin, outcome, reason);
    }

    private static BalanceValue Value(BalanceAxis axis, double ounces) =>
        new(axis, new Estimate(ounces, ounces, ounces), 3, $"{ounces} oz", "at most 3 oz");
}
