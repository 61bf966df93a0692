using System.Text;
using Inspect.Rules.Judging;
using Inspect.Rules.Tests.Rulesets;
using Inspect.Sheets;
using Inspect.Sheets.Form;
using Inspect.Sheets.Json;

namespace Inspect.Rules.Tests.Judging;

/// <summary>A slip of the finger is asked about: it gives no other verdict unasked than the reading that was meant.</summary>
/// <remarks>The slips are those of one finger: a key left out, pressed twice, exchanged with the next, missed by one, or taken for one
/// that looks like it; and another unit. Common practice, no source.</remarks>
public class SlipsOfTypingTests
{
    /// <summary>Each kind of field, with readings of a legal ball.</summary>
    private static readonly (string Field, string[] Meant)[] Kinds =
    [
        ("weights.gross", ["15-1", "14-8 1/2", "15 lb 2 oz"]),
        ("weights.topBottom", ["1 1/4", "0.75", "2 3/4"]),
        ("hole.thumb.diameter", ["31/32", "1 1/16", "0.969"]),
        ("hole.middle.depth", ["2 3/4", "3 1/2", "1.75"]),
        ("size.diameters[0]", ["8.582", "8.58", "217.9 mm"]),
        ("size.circumference", ["26.95", "26 15/16", "26.8"]),
        ("hardness.readings[0]", ["76", "78.5", "81"]),
        ("marks.palmMarks", ["1"]),
    ];

    /// <summary>The slips that change the verdict and cannot be told from a reading: what is typed is a believable reading, outside
    /// the limit.</summary>
    private static readonly string[] NobodyCanTell =
    [
        "weights.gross: 16-1 for 15-1", "weights.gross: 16 lb 2 oz for 15 lb 2 oz", "weights.topBottom: 3 3/4 for 2 3/4",
        "size.diameters[0]: 8.82 for 8.582", "size.diameters[0]: 8.852 for 8.582", "size.diameters[0]: 8.682 for 8.582",
        "size.diameters[0]: 8.482 for 8.582", "size.diameters[0]: 8.8 for 8.58", "size.diameters[0]: 8.85 for 8.58",
        "size.diameters[0]: 8.68 for 8.58", "size.diameters[0]: 8.48 for 8.58", "size.diameters[0]: 227.9 mm for 217.9 mm",
        "size.diameters[0]: 207.9 mm for 217.9 mm", "size.diameters[0]: 218.9 mm for 217.9 mm", "size.circumference: 27.95 for 26.95",
        "size.circumference: 25.95 for 26.95", "size.circumference: 26.5 for 26.95", "size.circumference: 26.59 for 26.95",
        "size.circumference: 26.05 for 26.95", "size.circumference: 27 15/16 for 26 15/16", "size.circumference: 25 15/16 for 26 15/16",
        "size.circumference: 26 5/16 for 26 15/16", "size.circumference: 26 1/16 for 26 15/16", "size.circumference: 27.8 for 26.8",
        "size.circumference: 25.8 for 26.8", "size.circumference: 26.7 for 26.8", "marks.palmMarks: 2 for 1", "marks.palmMarks: 0 for 1",
    ];

    private static readonly (string Name, string Value)[] Legal =
    [
        ("play", "2026-03-14"), ("ball.maker", "Ostrava Kiln"), ("ball.model", "Nightjar"), ("ball.serial", "9QF31207"),
        ("ball.listed", "yes"),
        ("grip.hand", "right"), ("grip.digits", "middle"), ("grip.digits", "ring"),
        ("weights.gross", "15-1"), ("weights.topBottom", "1 1/4"), ("weights.topBottom.side", "top"),
        ("weights.leftRight", "0"), ("weights.fingerThumb", "0"),
        ("hole.middle.diameter", "7/8"), ("hole.middle.depth", "2"), ("hole.ring.diameter", "27/32"), ("hole.ring.depth", "2"),
        ("size.diameters[0]", "8.580"), ("size.circumference", "26.95"), ("hardness.readings[0]", "76"),
        ("marks.palmMarks", "1"), ("marks.inOrder", "yes"),
    ];

    [Fact]
    public void EverySlip_IsAskedAbout_OrGivesTheVerdictOfWhatWasMeant_OrIsNamed()
    {
        var (tried, asked, told) = (0, 0, new List<string>());
        foreach (var (field, meant) in Kinds)
        {
            var slips = meant.SelectMany(text => Slips(text).Select(slip => (Text: text, Slip: slip))).DistinctBy(each => each.Slip)
                .Where(each => !meant.Contains(each.Slip)).ToList();
            Assert.True(slips.Count >= (field == "marks.palmMarks" ? 5 : 50), $"{field}: {slips.Count} slips.");
            foreach (var (text, slip) in slips)
            {
                tried++;
                if (Verdict(field, slip) is not { } outcome)
                {
                    asked++;
                }
                else if (outcome != Verdict(field, text))
                {
                    told.Add($"{field}: {slip} for {text}");
                }
            }
        }

        Assert.True(asked * 2 > tried, $"{asked} of {tried} slips were asked about.");
        Assert.True(told.SequenceEqual(NobodyCanTell), string.Join(Environment.NewLine, told));
    }

    /// <summary>An improper fraction says both things that it can have meant.</summary>
    [Theory]
    [InlineData("23/4", "5 3/4 or 2 3/4")]
    [InlineData("113/16", "7 1/16 or 1 13/16 or 11 3/16")]
    [InlineData("9/8", "1 1/8")]
    [InlineData("4/4", "1")]
    public void Fraction_OfOneOrMore_IsRefusedWithItsMeanings(string typed, string meanings)
    {
        var form = Form("hole.middle.depth", typed);

        Assert.Equal(
            $"\"{typed}\" is a fraction of one or more; write {meanings}, whichever was read.",
            Assert.Single(form.Faults, fault => fault.Path == "hole.middle.depth").Message);
    }

    /// <summary>A reading far outside is used once it is confirmed, and asked about again when it is changed.</summary>
    [Fact]
    public void FarReading_Confirmed_IsJudged_AndAnotherTextIsAskedAboutAgain()
    {
        const string Sure = "sure.size.circumference";

        Assert.Null(Verdict("size.circumference", "2.695"));
        Assert.Equal(Outcome.Fail, Verdict("size.circumference", "2.695", (Sure, "2.695")));
        Assert.Null(Verdict("size.circumference", "2.696", (Sure, "2.695")));
    }

    /// <summary>The verdict's word; null while something is asked.</summary>
    private static Outcome? Verdict(string field, string typed, params (string Name, string Value)[] more)
    {
        var form = Form(field, typed, more);
        var faults = new List<Fault>();
        var sheet = SheetReader.Read(Encoding.UTF8.GetBytes(form.Sheet.ToJsonString()), faults, new SheetDefaults("us-national"));
        return form.Faults.Count + faults.Count > 0 ? null : SheetJudge.Judge(Book.BuiltIn, sheet!, faults)!.Outcome;
    }

    private static MeasureForm Form(string field, string typed, params (string Name, string Value)[] more) =>
        MeasureForm.From(TypedFields.Sent(Legal
            .Where(each => each.Name != field).Append((field, typed)).Concat(more)
            .GroupBy(each => each.Item1, each => each.Item2).Select(each => KeyValuePair.Create(each.Key, each.ToArray()))));

    private static IEnumerable<string> Slips(string text)
    {
        const string Row = "1234567890";
        for (var i = 0; i < text.Length; i++)
        {
            var (before, key, after) = (text[..i], text[i], text[(i + 1)..]);
            yield return before + after;
            yield return before + key + key + after;
            if (after.Length > 0)
            {
                yield return before + after[0] + key + after[1..];
            }

            if (Row.IndexOf(key, StringComparison.Ordinal) is >= 0 and var at)
            {
                yield return before + Row[(at + 1) % 10] + after;
                yield return before + Row[(at + 9) % 10] + after;
            }

            foreach (var other in "./- ,".Where(_ => "./- ".Contains(key, StringComparison.Ordinal)))
            {
                yield return before + other + after;
            }
        }

        foreach (var unit in new[] { " mm", " cm", " g", " oz", " in" }.Where(_ => text.All(key => !char.IsAsciiLetter(key))))
        {
            yield return text + unit;
        }
    }
}
