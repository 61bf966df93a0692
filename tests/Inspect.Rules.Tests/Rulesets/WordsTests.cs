using Inspect.Rules.Judging;
using Inspect.Rules.Rulesets;

namespace Inspect.Rules.Tests.Rulesets;

/// <summary>The words of files and records are written down as tables: a value without its word is a fault that shows here.</summary>
public class WordsTests
{
    [Fact]
    public void Facts_EveryOne_HasItsName() => Assert.Equal(Enum.GetValues<Fact>(), FactList.Names.Values);

    [Fact]
    public void Verdict_EveryValue_HasItsWord()
    {
        Assert.All(Enum.GetValues<Outcome>(), value => Assert.NotEmpty(VerdictJson.WordOf(value)));
        Assert.All(Enum.GetValues<HoldCause>(), value => Assert.NotEmpty(VerdictJson.WordOf(value)));
        Assert.All(Enum.GetValues<DecisionKind>(), value => Assert.NotEmpty(VerdictJson.WordOf(value)));
        Assert.All(Enum.GetValues<Basis>(), value => Assert.NotEmpty(VerdictJson.WordOf(value)));
    }
}
