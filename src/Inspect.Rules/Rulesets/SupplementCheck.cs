namespace Inspect.Rules.Rulesets;

/// <summary>Checks that a supplement only tightens an edition or decides what the edition leaves open, and never loosens it.</summary>
public static class SupplementCheck
{
    /// <summary>Every way in which a supplement would loosen an edition; none when the two go together.</summary>
    /// <param name="edition">The edition.</param>
    /// <param name="supplement">The event's own rules.</param>
    /// <remarks>Rules of the same thing are compared in every combination of circumstances that their conditions tell apart.</remarks>
    public static IReadOnlyList<Loosening> Against(Edition edition, Supplement supplement)
    {
        if (edition.Authority != supplement.Authority)
        {
            return [new Loosening("", null, null,
                $"\"{supplement.Id}\" adds to the rules of \"{supplement.Authority}\"; it cannot be used with \"{edition.Id}\".")];
        }

        var pairs = supplement.Rules.SelectMany(own => edition.Rules.Select(theirs => Compared(theirs, own, edition, supplement)));
        var decisions = supplement.Decides.Select(decision => Decided(decision, edition, supplement));
        return pairs.Concat(decisions).OfType<Loosening>().Distinct().ToList();
    }

    private static Loosening? Compared(Rule theirs, Rule own, Edition edition, Supplement supplement)
    {
        if (!SameThing(theirs, own))
        {
            return null;
        }

        if (World.Of(ConditionsOf(theirs).Concat(ConditionsOf(own))) is not { } worlds)
        {
            return new Loosening(own.Id, null, null,
                $"\"{own.Id}\" of \"{supplement.Id}\" has too many conditions to be compared with {edition.Id}; "
                    + "write it as several rules.");
        }

        var looser = worlds.Where(world => world.Applies(theirs)).Select(world => InWorld(world, theirs, own))
            .FirstOrDefault(limits => limits is not null);
        return looser is var (edge, beyond)
            ? new Loosening(own.Id, edge, beyond,
                $"\"{own.Id}\" of \"{supplement.Id}\" says \"{beyond}\" where \"{theirs.Id}\" of {edition.Id} says \"{edge}\"; "
                + "a supplement may tighten an edition and never loosen it.")
            : null;
    }

    /// <summary>Both limits, the edition's first, when the supplement's is the looser one in this world.</summary>
    private static (string Edition, string Supplement)? InWorld(World world, Rule theirs, Rule own) => (theirs, own) switch
    {
        (Rule.Listed list, Rule.Listed mine) => Listed(world, list, mine),
        _ when !world.Applies(own) => null,
        (Rule.Limited limited, Rule.Limited mine) => Beyond(world.LimitOf(limited.Cases), world.LimitOf(mine.Cases)),
        (Rule.Counted counted, Rule.Counted mine) => Beyond(world.LimitOf(counted.Cases), world.LimitOf(mine.Cases)),
        (Rule.Stated stated, Rule.Stated mine) when stated.Wanted != mine.Wanted => (Wanted(stated), Wanted(mine)),
        _ => null,
    };

    private static (string Edition, string Supplement)? Beyond(Limit? edition, Limit? supplement) =>
        edition is not null && supplement is not null
            && (Outside(edition.Most, supplement.Most, 1) || Outside(edition.Least, supplement.Least, -1))
            ? (edition.ToString(), supplement.ToString())
            : null;

    private static bool Outside(Bound? edition, Bound? supplement, int direction) => edition is not null && supplement is not null
        && (direction * (supplement.Value - edition.Value) > 0
            || (supplement.Value == edition.Value && supplement.Inclusive && !edition.Inclusive));

    private static string Wanted(Rule.Stated rule) => rule.Wanted ? rule.Answers.True : rule.Answers.False;

    /// <summary>What each says of a ball that is not listed; leaving out balls that the edition judges loosens it too.</summary>
    private static (string Edition, string Supplement)? Listed(World world, Rule.Listed theirs, Rule.Listed own)
    {
        if (own.Unless is not null && world.Holds(own.When) && world.Holds(own.Unless))
        {
            return ("listed", "no list for these balls");
        }

        var (edition, supplement) = (Unlisted(world, theirs), Unlisted(world, own));
        return world.Holds(own.When) && supplement.Leniency > edition.Leniency ? (edition.Words, supplement.Words) : null;
    }

    private static (int Leniency, string Words) Unlisted(World world, Rule.Listed rule) =>
        rule.Discretion is not null && world.Holds(rule.Discretion) ? (1, "the director decides")
        : rule.AlsoApproved is not null && world.Holds(rule.AlsoApproved) ? (2, "approved besides")
        : (0, "listed");

    private static Loosening? Decided(Decision decision, Edition edition, Supplement supplement)
    {
        var theirs = edition.Rules.FirstOrDefault(rule => rule.Id == decision.Rule);
        if (theirs is null)
        {
            return new Loosening(decision.Rule, null, null,
                $"\"{supplement.Id}\" decides \"{decision.Rule}\", which is not a rule of {edition.Id}; take the decision out.");
        }

        var says = theirs is Rule.Listed ? "listed" : "what its rule says";
        return decision.Discretion == Discretion.Allow && theirs.Discretion is null
            ? new Loosening(decision.Rule, says, "allowed",
                $"\"{supplement.Id}\" decides \"allowed\" for \"{decision.Rule}\" where {edition.Id} asks for \"{says}\" and leaves "
                    + "nothing to the director.")
            : null;
    }

    /// <summary>Whether two rules limit the same figure of the same thing; a spread is another figure than a size.</summary>
    private static bool SameThing(Rule theirs, Rule own) => (theirs, own) switch
    {
        (Rule.Limited one, Rule.Limited other) => one.Quantity == other.Quantity && Overlap(one.Holes, other.Holes)
            && (one.Statistic == Statistic.Spread) == (other.Statistic == Statistic.Spread),
        (Rule.Counted one, Rule.Counted other) => one.Counts == other.Counts && one.Per == other.Per
            && (one.Id == other.Id || Same(one.Holes, other.Holes)),
        (Rule.Stated one, Rule.Stated other) => one.Fact == other.Fact && Overlap(one.Holes, other.Holes)
            && (one.Among?.Intersect(other.Among ?? []).Any() ?? true),
        (Rule.Listed, Rule.Listed) => true,
        _ => false,
    };

    private static bool Overlap(HoleChoice? one, HoleChoice? other) =>
        one is null || other is null || one.Kinds.Intersect(other.Kinds).Any();

    private static bool Same(HoleChoice? one, HoleChoice? other) =>
        one is null || other is null || one.Kinds.ToHashSet().SetEquals(other.Kinds);

    private static IEnumerable<Condition?> ConditionsOf(Rule rule) => rule switch
    {
        Rule.Limited limited => limited.Cases.Select(one => one.When).Append(rule.When).Append(rule.Unless),
        Rule.Counted counted => counted.Cases.Select(one => one.When).Append(rule.When).Append(rule.Unless),
        Rule.Listed listed => [rule.When, rule.Unless, listed.Discretion, listed.AlsoApproved],
        _ => [rule.When, rule.Unless],
    };
}

/// <summary>One way in which a supplement would loosen an edition.</summary>
/// <param name="Rule">The rule's id in the supplement; empty when the two do not belong together at all.</param>
/// <param name="EditionLimit">What the edition allows.</param>
/// <param name="SupplementLimit">What the supplement would allow.</param>
/// <param name="Message">One sentence that names the rule and both limits.</param>
public sealed record Loosening(string Rule, string? EditionLimit, string? SupplementLimit, string Message);
