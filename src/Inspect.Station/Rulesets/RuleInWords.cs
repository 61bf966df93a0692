using System.Globalization;
using System.Text.RegularExpressions;
using Inspect.Rules.Rulesets;
using Inspect.Sheets;

namespace Inspect.Station.Rulesets;

/// <summary>Rules of an edition as a reader who knows bowling would say them.</summary>
public static partial class RuleInWords
{
    /// <summary>What the rule looks at.</summary>
    public static string Subject(Rule rule) => rule switch
    {
        Rule.Limited { Holes: { } holes } limited => $"{Catalogue.Of(limited.Quantity).Rule!.InRule} of each {Holes(holes)}",
        Rule.Limited limited => $"{Statistic(limited.Statistic)}{Catalogue.Of(limited.Quantity).Rule!.InRule}",
        Rule.Counted { Holes: { } holes } counted => $"number of {Holes(holes)}{Per(counted.Per)}",
        Rule.Counted { Counts: CountedThing.Balls } => "number of the bowler's balls",
        Rule.Barred barred => Fact(barred.Fact),
        Rule.Counted => "number of plus marks near the palm centre",
        Rule.Stated { Holes: { } holes } stated => $"each {Holes(holes)}: {Fact(stated.Fact)}",
        Rule.Stated stated => Fact(stated.Fact),
        _ => "the list of approved balls",
    };

    /// <summary>What is allowed, a line for each case, with the condition of the case.</summary>
    public static IEnumerable<(string? When, string Limit, Reference Reference)> Cases(Rule rule) => rule switch
    {
        Rule.Limited limited => limited.Cases.Select(one => Case(one, limited.Quantity == RuleQuantity.Made)),
        Rule.Counted counted => counted.Cases.Select(one => Case(one, isDay: false)),
        Rule.Stated { Among: { } among } stated =>
            [(null, $"{(stated.Wanted ? "only" : "not")} {string.Join(" or ", among)}", rule.Reference)],
        Rule.Stated stated => [(null, $"{(stated.Wanted ? stated.Answers.True : stated.Answers.False)}{ToDirector(rule)}", rule.Reference)],
        Rule.Barred barred => [(null, $"none of {string.Join(", ", BarredBy(barred))}", rule.Reference)],
        _ => [(null, $"listed{ToDirector(rule)}", rule.Reference)],
    };

    private static string ToDirector(Rule rule) =>
        rule.Discretion is { } discretion ? $"; left to the director when {Condition(discretion)}" : "";

    /// <summary>When the rule applies and when not, or null when it always does.</summary>
    public static string? Applies(Rule rule) => (rule.When, rule.Unless) switch
    {
        ({ } when, { } unless) => $"when {Condition(when)}, unless {Condition(unless)}",
        ({ } when, null) => $"when {Condition(when)}",
        (null, { } unless) => $"unless {Condition(unless)}",
        _ => rule is Rule.Limited { Valid: { } valid } ? $"counts only when {Condition(valid)}" : null,
    };

    /// <summary>A condition in words.</summary>
    public static string Condition(Condition condition) => string.Join(" and ", condition.Clauses.Select(Clause));

    /// <summary>How sure it is that the body says so.</summary>
    public static string Basis(Basis basis) => basis switch
    {
        Inspect.Rules.Rulesets.Basis.Official => "official",
        Inspect.Rules.Rulesets.Basis.Reprint => "reprint",
        Inspect.Rules.Rulesets.Basis.Summary => "summary",
        _ => "from memory: holds until the director confirms it",
    };

    private static IEnumerable<string> BarredBy(Rule.Barred rule) =>
        rule.Names.Select(name => name.Text).Concat(rule.Patterns.Select(pattern => pattern.Text));

    private static (string?, string, Reference) Case(LimitCase one, bool isDay) => (
        one.When is { } when ? Condition(when) : null,
        one.Limit is not { } limit ? "no published figure found" : isDay ? $"not before {limit.Least!.Text}" : limit.ToString(),
        one.Reference);

    private static string Clause(Clause clause) => clause.Test switch
    {
        Test.Is test => $"{Fact(clause.Fact)}{(test.Wanted ? "" : ": no")}",
        Test.Within test => $"{Fact(clause.Fact)} {test.Limit}",
        Test.Among test => $"{Fact(clause.Fact)} {string.Join(" or ", test.Words)}",
        Test.Named test => $"{Fact(clause.Fact)} {string.Join(" or ", test.Names.Select(name => name.Text))}",
        Test.Dated test => string.Create(CultureInfo.InvariantCulture,
            $"{Fact(clause.Fact)} {(test.Before ? "before" : "on or after")} {test.Day:yyyy-MM-dd}"),
        _ => Fact(clause.Fact),
    };

    private static string Statistic(Statistic statistic) => statistic switch
    {
        Inspect.Rules.Rulesets.Statistic.Each => "each ",
        Inspect.Rules.Rulesets.Statistic.Average => "average ",
        Inspect.Rules.Rulesets.Statistic.Spread => "largest less smallest ",
        _ => "",
    };

    private static string Holes(HoleChoice holes) => string.Join(" or ", holes.Kinds.Select(kind => kind switch
    {
        HoleKind.Grip => "gripping hole",
        HoleKind.Indentation => "indentation",
        HoleKind.Vent => "vent",
        HoleKind.Mill => "mill hole",
        _ => "balance hole",
    })) + (holes.UnusedThumb ? ", an unused thumb hole included" : "");

    private static string Per(CountPer per) => per switch
    {
        CountPer.Digit => " for each digit",
        CountPer.Host => " in each gripping hole",
        _ => "",
    };

    private static string Fact(Fact fact) => fact switch
    {
        Inspect.Rules.Rulesets.Fact.Gross => "the measured weight is",
        Inspect.Rules.Rulesets.Fact.Temperature => "the temperature is",
        Inspect.Rules.Rulesets.Fact.Drilled => "the ball has holes or indentations",
        Inspect.Rules.Rulesets.Fact.GrippingHoles => "gripping holes and indentations:",
        Inspect.Rules.Rulesets.Fact.BalanceHoles => "balance holes:",
        Inspect.Rules.Rulesets.Fact.BalanceHolesWithUnusedThumb => "balance holes, an unused thumb hole counted with them:",
        Inspect.Rules.Rulesets.Fact.ThumbHole => "the ball has a thumb hole",
        Inspect.Rules.Rulesets.Fact.ThumbHoleUsed => "a thumb hole is used",
        Inspect.Rules.Rulesets.Fact.Demonstrated => "all gripping holes shown usable at once with one hand",
        Inspect.Rules.Rulesets.Fact.ModelReadable => "maker and model can be read",
        Inspect.Rules.Rulesets.Fact.SerialReadable => "a serial can be read",
        Inspect.Rules.Rulesets.Fact.ForeignMaterial => "foreign material on the surface",
        Inspect.Rules.Rulesets.Fact.SurfacePattern => "depressions or grooves in the surface",
        Inspect.Rules.Rulesets.Fact.Made => "the ball was made",
        Inspect.Rules.Rulesets.Fact.HouseBall => "it is a house ball",
        Inspect.Rules.Rulesets.Fact.DigitUsed => "used on every delivery",
        Inspect.Rules.Rulesets.Fact.SecondaryHole => "a second hole inside, a vent excepted",
        Inspect.Rules.Rulesets.Fact.Device => "what sits in it",
        Inspect.Rules.Rulesets.Fact.OilAbsorption => "the surface absorbs oil in",
        Inspect.Rules.Rulesets.Fact.HighPerformanceCore => "a high-performance core",
        Inspect.Rules.Rulesets.Fact.BallNumber => "the number of the bowler's ball is",
        Inspect.Rules.Rulesets.Fact.PlayBegan => "presented after play began",
        Inspect.Rules.Rulesets.Fact.Frozen => "presented after balls may no longer be changed",
        Inspect.Rules.Rulesets.Fact.Maker => "the maker's name",
        Inspect.Rules.Rulesets.Fact.Model => "the model's name",
        Inspect.Rules.Rulesets.Fact.Serial => "the serial",
        _ => Spaced(fact.ToString()),
    };

    private static string Spaced(string name) => Capitals().Replace(name, match => " " + match.Value).Trim().ToLowerInvariant();

    [GeneratedRegex("[A-Z]", RegexOptions.CultureInvariant)]
    private static partial Regex Capitals();
}
