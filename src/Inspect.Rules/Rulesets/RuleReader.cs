using Inspect.Sheets;
using Inspect.Sheets.Json;

namespace Inspect.Rules.Rulesets;

/// <summary>Reads one rule of a ruleset file.</summary>
internal static class RuleReader
{
    private const int MostCases = 20;

    private static readonly string[] LimitMembers = ["atLeast", "over", "atMost", "under", "exactly", "notBefore"];
    private static readonly string[] CaseMembers = [.. LimitMembers, "notFound", "allowance"];

    /// <summary>The rule, or null with the faults added.</summary>
    public static Rule? Read(StrictObject written, IReadOnlyDictionary<string, Reference> sources)
    {
        RulesetLoader.Require(written, "rule", "kind", "source", "pass", "fail");
        var reference = ReferenceOf(written, sources, null);
        var sentences = new Sentences(Sentence(written, "pass"), Sentence(written, "fail"),
            written.Has("hold") ? Sentence(written, "hold") : null);
        Rule? rule = written.Choice("kind", RulesetWords.Kinds) switch
        {
            RuleKind.Limit => Limited(written, sources, reference, sentences),
            RuleKind.Count => Counted(written, sources, reference, sentences),
            RuleKind.Required => Stated(written, reference, sentences, wanted: true),
            RuleKind.Forbidden => Stated(written, reference, sentences, wanted: false),
            RuleKind.Listed => new Rule.Listed
            {
                Id = "",
                Reference = reference,
                Sentences = sentences,
                AlsoApproved = ConditionReader.Condition(written, "alsoApproved"),
            },
            _ => null,
        };
        var id = RulesetLoader.Kebab(written, "rule");
        var check = RulesetLoader.Kebab(written, "check");
        var when = rule is Rule.Limited or Rule.Counted && !written.Has("cases") ? null : ConditionReader.Condition(written, "when");
        var unless = ConditionReader.Condition(written, "unless");
        var discretion = Discretion(written, rule);
        if (rule is null || id is null)
        {
            return null;
        }

        written.Close();
        return rule with { Id = id, Check = check, When = when, Unless = unless, Discretion = discretion };
    }

    /// <summary>Reads when the director decides; a sentence for that case is refused where it cannot occur.</summary>
    private static Condition? Discretion(StrictObject written, Rule? rule)
    {
        var may = rule is Rule.Listed or Rule.Stated { Holes: null };
        if (written.Has("hold") && !(may && written.Has("discretion")))
        {
            written.Refuse("hold", "This sentence is shown when the director decides; name in \"discretion\" when that is.");
        }

        return may ? ConditionReader.Condition(written, "discretion") : null;
    }

    private static Rule.Limited? Limited(StrictObject written, IReadOnlyDictionary<string, Reference> sources, Reference reference,
        Sentences sentences)
    {
        written.Require("quantity");
        if (written.Choice("quantity", RulesetWords.Quantities) is not { } quantity)
        {
            return null;
        }

        var statistic = written.Choice("statistic", RulesetWords.Statistics)
            ?? RulesetWords.Statistics.Values.First(candidate => RulesetWords.Fits(candidate, quantity));
        if (!RulesetWords.Fits(statistic, quantity))
        {
            written.Refuse("statistic", $"This statistic cannot be formed of {written.Text("quantity")}.");
        }

        var holes = Holes(written, RulesetWords.OfHole(quantity));
        return new Rule.Limited
        {
            Id = "",
            Reference = reference,
            Sentences = sentences,
            Quantity = quantity,
            Statistic = statistic,
            Holes = holes,
            Valid = ConditionReader.Condition(written, "valid"),
            Cases = Cases(written, sources, reference, members => RulesetWords.MeasureOf(quantity) is { } measure
                ? Allowance.Given(members, measure, ConditionReader.LimitOf(members, quantity))
                : ConditionReader.LimitOf(members, quantity)),
        };
    }

    private static Rule.Counted Counted(StrictObject written, IReadOnlyDictionary<string, Reference> sources, Reference reference,
        Sentences sentences)
    {
        written.Require("counts");
        var counts = written.Choice("counts", RulesetWords.Counts);
        var holes = counts is { } thing ? Holes(written, wanted: thing == CountedThing.Holes) : null;
        var per = written.Choice("per", RulesetWords.CountedPer) ?? CountPer.Ball;
        if (per != CountPer.Ball && holes is null)
        {
            written.Refuse("per", "Only holes are counted separately for each digit or host hole.");
        }

        return new Rule.Counted
        {
            Id = "",
            Reference = reference,
            Sentences = sentences,
            Counts = counts ?? CountedThing.Holes,
            Holes = holes,
            Per = per,
            Cases = Cases(written, sources, reference, ConditionReader.CountLimit),
        };
    }

    private static Rule? Stated(StrictObject written, Reference reference, Sentences sentences, bool wanted)
    {
        RulesetLoader.Require(written, "fact", "answers");
        if (written.Choice("fact", FactList.Names) is not { } fact)
        {
            return null;
        }

        if (FactList.KindOf(fact) == FactKind.Text)
        {
            return BarReader.Read(written, fact, forbids: !wanted, reference, sentences);
        }

        var among = fact == Fact.Device ? ConditionReader.WordsOf(written, "among", Words.Devices.Keys) : null;
        if (FactList.KindOf(fact) is not (FactKind.Flag or FactKind.Word))
        {
            written.Refuse("fact", "This fact is measured or counted; use a rule of the kind limit or count.");
        }
        else if (FactList.KindOf(fact) == FactKind.Word && fact != Fact.Device)
        {
            written.Refuse("fact", "This fact is a word of the ball; ask it in a condition, or use a rule of the kind listed.");
        }
        else if (fact == Fact.Device && among is null)
        {
            written.Refuse("fact", "This fact is a word; name the words meant in \"among\".");
        }

        var answers = written.Texts("answers", 2);
        if (answers is not null && answers.Count != 2)
        {
            written.Refuse("answers", "Give two answers: the words for yes, then the words for no.");
        }

        return answers is not { Count: 2 } ? null : new Rule.Stated
        {
            Id = "",
            Reference = reference,
            Sentences = sentences,
            Fact = fact,
            Wanted = wanted,
            Among = among,
            Holes = Holes(written, FactList.OfHole(fact)),
            Answers = (answers[0], answers[1]),
        };
    }

    private static HoleChoice? Holes(StrictObject written, bool wanted)
    {
        var kinds = ConditionReader.WordsOf(written, "holes", Words.HoleKinds.Keys);
        var unusedThumb = written.Flag("unusedThumb") ?? false;
        if (wanted && !written.Has("holes"))
        {
            written.Refuse("holes", "This rule looks at holes; name the kinds of holes meant.");
        }
        else if (!wanted && (written.Has("holes") || written.Has("unusedThumb")))
        {
            written.Refuse("holes", "This rule looks at the ball and not at holes; leave them out.");
            return null;
        }

        return kinds is null ? null
            : new HoleChoice(kinds.Where(Words.HoleKinds.ContainsKey).Select(kind => Words.HoleKinds[kind]).ToList(), unusedThumb);
    }

    private static List<LimitCase> Cases(
        StrictObject written, IReadOnlyDictionary<string, Reference> sources, Reference reference, Func<StrictObject, Limit?> limitOf)
    {
        if (!written.Has("cases"))
        {
            return Case(written, sources, reference, limitOf) is { } only ? [only] : [];
        }

        foreach (var name in CaseMembers.Where(written.Has))
        {
            written.Refuse(name, "The limits are in the cases; leave this one out or move it into a case.");
        }

        var cases = new List<LimitCase>();
        var list = written.Objects("cases", MostCases);
        foreach (var member in list ?? [])
        {
            if (Case(member, sources, ReferenceOf(member, sources, reference), limitOf) is { } read)
            {
                cases.Add(read);
            }

            member.Close();
        }

        if (list is { Count: 0 })
        {
            written.Refuse("cases", "This list of cases is empty; write at least one.");
        }

        return cases;
    }

    private static LimitCase? Case(
        StrictObject members, IReadOnlyDictionary<string, Reference> sources, Reference reference, Func<StrictObject, Limit?> limitOf)
    {
        var when = ConditionReader.Condition(members, "when");
        var limit = limitOf(members);
        var notFound = members.Flag("notFound") ?? false;
        if (limit is null && !notFound && LimitMembers.Any(members.Has))
        {
            // A fault of the limit is reported at its own member.
            return null;
        }

        if (notFound == (limit is not null))
        {
            members.Refuse("notFound", "This needs a limit, or notFound where no published figure was found; write one of the two.");
            return null;
        }

        if (notFound && reference.Basis != Basis.Memory)
        {
            members.Refuse("notFound", "A figure that was not found has the basis memory.");
        }

        return new LimitCase(when, limit, reference);
    }

    /// <summary>Source, section and basis at this place, each taken from <paramref name="outer"/> where it is not written.</summary>
    internal static Reference ReferenceOf(StrictObject members, IReadOnlyDictionary<string, Reference> sources, Reference? outer)
    {
        var named = members.Text("source");
        var section = members.Text("section", 200) ?? outer?.Section;
        var basis = members.Choice("basis", RulesetWords.Bases);
        var source = outer;
        if (named is not null && !sources.TryGetValue(named, out source))
        {
            members.Refuse("source", $"\"{named}\" is not among the sources of this edition.");
        }

        source ??= new Reference("", null, Basis.Memory);
        return source with { Section = section, Basis = basis ?? source.Basis };
    }

    private static string Sentence(StrictObject written, string name)
    {
        var text = written.Text(name, 300) ?? "";
        foreach (var place in Placeholders.In(text).Where(place => !Placeholders.Known.Contains(place)))
        {
            written.Refuse(name, $"There is no place {{{place}}}; known are {StrictObject.OneOf(Placeholders.Known)}.");
        }

        return text;
    }
}
