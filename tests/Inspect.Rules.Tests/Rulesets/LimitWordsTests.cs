using Inspect.Rules.Rulesets;
using Inspect.Sheets;
using Inspect.Sheets.Readings;

namespace Inspect.Rules.Tests.Rulesets;

/// <summary>The words of a limit lead back to the limit, for every limit of every edition. The words are this project's own.</summary>
public class LimitWordsTests
{
    [Fact]
    public void TryRead_EveryLimitOfEveryEdition_GivesTheLimitBack()
    {
        var read = 0;
        foreach (var rule in Book.BuiltIn.All.SelectMany(edition => edition.Rules).OfType<Rule.Limited>())
        {
            if (rule.Quantity == RuleQuantity.Made)
            {
                continue;
            }

            var quantity = QuantityOf(rule.Quantity);
            foreach (var limit in rule.Cases.Select(each => each.Limit).OfType<Limit>())
            {
                Assert.True(LimitWords.TryRead(limit.ToString(), quantity, out var again), limit.ToString());
                Assert.Equal(limit, again);
                read++;
            }
        }

        Assert.True(read > 50);
    }

    [Theory]
    [InlineData("over 10 lb and at most 16 lb", Quantity.Weight, true)]
    [InlineData("exactly 3 oz", Quantity.Imbalance, true)]
    [InlineData("26.704 in to 27.002 in", Quantity.Length, true)]
    [InlineData("none", Quantity.Length, false)]
    [InlineData("at most 5", Quantity.Length, false)]
    [InlineData("not before 1991", Quantity.Length, false)]
    public void TryRead_Words_AreALimitOrNot(string words, Quantity quantity, bool isLimit)
    {
        Assert.Equal(isLimit, LimitWords.TryRead(words, quantity, out var limit));
        Assert.Equal(isLimit ? words : null, limit?.ToString());
    }

    private static Quantity QuantityOf(RuleQuantity quantity) => quantity switch
    {
        RuleQuantity.Gross => Quantity.Weight,
        RuleQuantity.TopBottom or RuleQuantity.LeftRight or RuleQuantity.FingerThumb or RuleQuantity.AnyHalves => Quantity.Imbalance,
        RuleQuantity.Hardness => Quantity.Hardness,
        _ => Quantity.Length,
    };
}
