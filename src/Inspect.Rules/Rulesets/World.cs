namespace Inspect.Rules.Rulesets;

/// <summary>One combination of answers to the questions that rules ask; in all of them together, two rules can be compared.</summary>
/// <param name="Answers">For each fact an answer: true or false, a number in the base unit, a word, a name or a day.</param>
internal sealed record World(IReadOnlyDictionary<Fact, object> Answers)
{
    private const int MostWorlds = 100_000;

    /// <summary>Every combination of answers that these conditions tell apart, or null when there are too many to look at.</summary>
    /// <remarks>They include combinations that no ball can have: what holds in all of them also holds in the possible ones.</remarks>
    public static IReadOnlyList<World>? Of(IEnumerable<Condition?> conditions)
    {
        var facts = conditions.OfType<Condition>().SelectMany(condition => condition.Clauses).GroupBy(clause => clause.Fact)
            .Select(group => (Fact: group.Key, Answers: Tellable(group.Select(clause => clause.Test).ToList()))).ToList();
        if (facts.Aggregate(1L, (product, fact) => Math.Min(product * fact.Answers.Count, MostWorlds + 1)) > MostWorlds)
        {
            return null;
        }

        IEnumerable<Dictionary<Fact, object>> worlds = [[]];
        foreach (var (fact, answers) in facts)
        {
            worlds = worlds.SelectMany(world => answers.Select(answer => new Dictionary<Fact, object>(world) { [fact] = answer }));
        }

        return worlds.Select(answers => new World(answers)).ToList();
    }

    /// <summary>Whether a condition holds in this world; an absent one always does.</summary>
    public bool Holds(Condition? condition) => condition?.Clauses.All(Holds) ?? true;

    /// <summary>Whether a rule looks at a ball of this world at all.</summary>
    public bool Applies(Rule rule) => Holds(rule.When) && (rule.Unless is null || !Holds(rule.Unless));

    /// <summary>The limit that a rule sets in this world, or null.</summary>
    public Limit? LimitOf(IReadOnlyList<LimitCase> cases) => cases.FirstOrDefault(one => Holds(one.When))?.Limit;

    private bool Holds(Clause clause) => clause.Test switch
    {
        Test.Is test => test.Wanted == (bool)Answers[clause.Fact],
        Test.Within test => test.Limit.Allows((decimal)Answers[clause.Fact]),
        Test.Among test => test.Words.Contains((string)Answers[clause.Fact]),
        Test.Named test => test.Names.Contains((BallName)Answers[clause.Fact]),
        Test.Dated test => test.Before == ((DateOnly)Answers[clause.Fact] < test.Day),
        _ => throw new ArgumentOutOfRangeException(nameof(clause)),
    };

    /// <summary>Answers below, on and above every boundary that these tests have.</summary>
    private static List<object> Tellable(List<Test> tests) => tests[0] switch
    {
        Test.Is => [true, false],
        Test.Within => Between(tests.Cast<Test.Within>().SelectMany(test => new[] { test.Limit.Least, test.Limit.Most }).OfType<Bound>()
            .Select(end => end.Value)),
        Test.Among => [.. tests.Cast<Test.Among>().SelectMany(test => test.Words).Append("").Distinct()],
        Test.Named => [.. tests.Cast<Test.Named>().SelectMany(test => test.Names).Append(new BallName("")).Distinct()],
        _ => [.. tests.Cast<Test.Dated>().SelectMany(test => new[] { test.Day.AddDays(-1), test.Day }).Distinct().Cast<object>()],
    };

    private static List<object> Between(IEnumerable<decimal> ends)
    {
        var sorted = ends.Distinct().Order().ToList();
        var middles = sorted.Zip(sorted.Skip(1), (low, high) => (low + high) / 2);
        return [.. sorted.Concat(middles).Append(sorted[0] - 1).Append(sorted[^1] + 1).Cast<object>()];
    }
}
