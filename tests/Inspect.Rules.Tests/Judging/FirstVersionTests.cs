using Inspect.Rules.Judging;
using Inspect.Rules.Rulesets;
using Inspect.Rules.Tests.Rulesets;
using Inspect.Sheets;

namespace Inspect.Rules.Tests.Judging;

/// <summary>The words of records of version 1 lead back to their numbers. The words are this project's own.</summary>
public class FirstVersionTests
{
    [Fact]
    public void Allowed_EveryLimitOfEveryEdition_GivesTheLimitBack()
    {
        var read = 0;
        foreach (var rule in Book.BuiltIn.All.SelectMany(edition => edition.Rules))
        {
            var (path, cases) = rule switch
            {
                Rule.Limited { Quantity: not RuleQuantity.Made } limited => (PathOf(limited.Quantity), limited.Cases),
                Rule.Counted counted => ("holes", counted.Cases),
                _ => ("", []),
            };
            foreach (var limit in cases.Select(each => each.Limit).OfType<Limit>())
            {
                var allowed = FirstVersion.Allowed(limit.ToString(), path);
                Assert.Equal((limit.ToString(), limit), (allowed.Text, allowed.Limit));
                read++;
            }
        }

        Assert.True(read > 50);
    }

    [Theory]
    [InlineData("over 10 lb and at most 16 lb", "weights.gross", true)]
    [InlineData("exactly 3 oz", "weights.leftRight", true)]
    [InlineData("26.704 in to 27.002 in", "size.circumference", true)]
    [InlineData("at most 5", "holes", true)]
    [InlineData("none", "holes[2]", true)]
    [InlineData("none", "holes[2].depth", false)]
    [InlineData("at most 5", "holes[2].depth", false)]
    [InlineData("not before 1991-01-01", "ball.made", false)]
    [InlineData("listed", "ball.listed", false)]
    [InlineData("readable", "marks.serialReadable", false)]
    [InlineData("at most 3 oz", null, false)]
    public void Allowed_Words_AreALimitOrNot(string words, string? path, bool isLimit)
    {
        var allowed = FirstVersion.Allowed(words, path);

        Assert.Equal(words, allowed.ToString());
        Assert.Equal(isLimit ? words : null, allowed.Limit?.ToString());
    }

    /// <summary>1 oz is 28.349523125 g and 1 in is 25.4 mm exactly (international yard and pound agreement of 1959).</summary>
    [Theory]
    [InlineData("-3 1/4 oz", "weights.leftRight", "-92.13595015625")]
    [InlineData("15 lb 1 oz", "weights.gross", "6832.235073125")]
    [InlineData("0 in", "size.diameters", "0")]
    [InlineData("4 1/2 in", "holes[0].pieces[1].depth", "114.3")]
    [InlineData("67.6667", "hardness.readings", "67.6667")]
    [InlineData("not listed", "ball.listed", null)]
    public void Measured_Words_AreANumberInTheBaseUnitOrNone(string words, string path, string? value) =>
        Assert.Equal((words, value is null ? null : decimal.Parse(value, System.Globalization.CultureInfo.InvariantCulture)),
            (FirstVersion.Measured(words, path).ToString(), FirstVersion.Measured(words, path).Value));

    private static string PathOf(RuleQuantity quantity) => quantity switch
    {
        RuleQuantity.Gross => "weights.gross",
        RuleQuantity.TopBottom or RuleQuantity.LeftRight or RuleQuantity.FingerThumb or RuleQuantity.AnyHalves => "weights.leftRight",
        RuleQuantity.Hardness => "hardness.readings",
        RuleQuantity.Circumference => "size.circumference",
        RuleQuantity.Diameters => "size.diameters",
        _ => "holes[0].depth",
    };
}
