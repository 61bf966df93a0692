using Inspect.Rules.Rulesets;
using Inspect.Station.Rulesets;

namespace Inspect.Station.Tests.CommandLine;

/// <summary>A library of one edition one rule of which cannot be worked out, as no file of rules that is read can have it.</summary>
internal static class BrokenEdition
{
    public const string Id = "us-national/2014-05-07";

    /// <param name="rule">The rule that cannot be worked out.</param>
    public static EditionLibrary Editions(string rule = "gross-weight")
    {
        Assert.True(RulesetBook.Open(null, [])!.Editions.TryFind(Id, out var edition));
        var stated = edition!.Rules.OfType<Rule.Stated>().First();
        var broken = stated with { Id = rule, Fact = Fact.Listed, When = null, Unless = null, Holes = null };
        return new EditionLibrary([edition with { Rules = [.. edition.Rules.Where(one => one.Id != rule), broken] }]);
    }
}
