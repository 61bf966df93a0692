using System.Globalization;
using Inspect.Sheets;
using Inspect.Sheets.Json;
using Inspect.Sheets.Readings;

namespace Inspect.Rules.Rulesets;

/// <summary>Reads conditions and limits of a ruleset file.</summary>
internal static class ConditionReader
{
    private static readonly string[] LowerEnds = ["atLeast", "over"];
    private static readonly string[] UpperEnds = ["atMost", "under"];
    private static readonly string[] DayEnds = ["before", "onOrAfter"];

    /// <summary>The condition at a member, or null when absent or refused.</summary>
    public static Condition? Condition(StrictObject parent, string name)
    {
        if (parent.Object(name) is not { } members)
        {
            return null;
        }

        var clauses = new List<Clause>();
        foreach (var factName in members.Names.ToList())
        {
            if (!FactList.Names.TryGetValue(factName, out var fact))
            {
                members.Refuse(factName,
                    $"There is no fact \"{factName}\"; a condition may ask {StrictObject.OneOf(FactList.Names.Keys)}.");
                continue;
            }

            if (FactList.OfHole(fact))
            {
                members.Refuse(factName, $"\"{factName}\" belongs to one hole; a condition asks about the ball.");
                continue;
            }

            if (TestOf(members, factName, fact) is { } test)
            {
                clauses.Add(new Clause(fact, test));
            }
        }

        if (!members.Names.Any())
        {
            parent.Refuse(name, "This condition is empty; leave it out.");
        }

        return new Condition(clauses);
    }

    private static Test? TestOf(StrictObject members, string name, Fact fact) => FactList.KindOf(fact) switch
    {
        FactKind.Flag => members.Flag(name) is { } wanted ? new Test.Is(wanted) : null,
        FactKind.Word => Among(members, name, fact) is { } words ? new Test.Among(words) : null,
        FactKind.Text => BarReader.Names(members, name) is { } names ? new Test.Named(names) : null,
        FactKind.Day => members.Object(name) is { } day ? Dated(day) : null,
        FactKind.Count => members.Object(name) is { } count ? Within(CountLimit(count), count) : null,
        _ => members.Object(name) is { } measure ? Within(MeasureLimit(measure, FactList.QuantityOf(fact)), measure) : null,
    };

    private static Test.Within? Within(Limit? limit, StrictObject members)
    {
        members.Close();
        return limit is null ? null : new Test.Within(limit);
    }

    private static IReadOnlyList<string>? Among(StrictObject members, string name, Fact fact)
    {
        var known = fact switch
        {
            Fact.Listed => Words.Listings.Keys,
            Fact.HouseBallShell => Words.Shells.Keys,
            _ => Words.Devices.Keys,
        };
        return WordsOf(members, name, known);
    }

    /// <summary>A list of words, each of a closed list.</summary>
    public static IReadOnlyList<string>? WordsOf(StrictObject members, string name, IEnumerable<string> known)
    {
        if (members.Texts(name, 12) is not { } words)
        {
            return null;
        }

        var unknown = words.FirstOrDefault(word => !known.Contains(word));
        if (unknown is not null)
        {
            members.Refuse(name, $"\"{unknown}\" is not known here; write {StrictObject.OneOf(known)}.");
        }

        if (words.Count == 0)
        {
            members.Refuse(name, "This list is empty; name at least one.");
        }

        return words;
    }

    private static Test.Dated? Dated(StrictObject members)
    {
        var (before, onOrAfter) = (members.Day("before"), members.Day("onOrAfter"));
        members.Close();
        if (DayEnds.Count(members.Has) != 1)
        {
            members.Refuse("before", "A day is tested with one of before and onOrAfter; write one of them.");
            return null;
        }

        return before is { } day ? new Test.Dated(day, Before: true) : onOrAfter is { } first ? new Test.Dated(first, Before: false) : null;
    }

    /// <summary>A limit whose ends are measured values, or null with the faults added.</summary>
    public static Limit? MeasureLimit(StrictObject members, Quantity quantity)
    {
        var limit = new Limit(
            End(members.Reading("atLeast", quantity), members.Reading("over", quantity)),
            End(members.Reading("atMost", quantity), members.Reading("under", quantity)));
        return Sound(members, limit);

        static Bound? End(Reading? inclusive, Reading? exclusive) =>
            inclusive is not null ? Limit.Measure(inclusive, true) : exclusive is not null ? Limit.Measure(exclusive, false) : null;
    }

    /// <summary>A limit whose ends are whole numbers, or null with the faults added.</summary>
    public static Limit? CountLimit(StrictObject members)
    {
        if (members.Has("exactly"))
        {
            if (LowerEnds.Concat(UpperEnds).Any(members.Has))
            {
                members.Refuse("exactly", "An exact number is a limit on its own; take the other ends out.");
            }

            return members.Whole("exactly", 0, 100) is { } exact ? new Limit(Limit.Count(exact), Limit.Count(exact)) : null;
        }

        var limit = new Limit(
            members.Whole("atLeast", 0, 100) is { } least ? Limit.Count(least) : null,
            members.Whole("atMost", 0, 100) is { } most ? Limit.Count(most) : null);
        return Sound(members, limit);
    }

    /// <summary>A limit of a quantity: of measured values, or of a day for the day of making alone; null with the faults added.</summary>
    public static Limit? LimitOf(StrictObject members, RuleQuantity quantity)
    {
        if (RulesetWords.MeasureOf(quantity) is { } measure)
        {
            if (members.Has("notBefore") && members.Text("notBefore") is { } written)
            {
                members.Refuse(
                    "notBefore", $"\"{written}\" is a day, and this is measured; write the limit with atLeast, over, atMost or under.");
            }

            return MeasureLimit(members, measure);
        }

        foreach (var end in LowerEnds.Concat(UpperEnds).Where(members.Has))
        {
            members.Refuse(end, $"\"{members.Text(end)}\" is not a day; write notBefore with a day such as 1991-01-01.");
        }

        return members.Day("notBefore") is { } first
            ? new Limit(new Bound(first.DayNumber, true, first.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)), null)
            : null;
    }

    private static Limit? Sound(StrictObject members, Limit limit)
    {
        foreach (var ends in new[] { LowerEnds, UpperEnds })
        {
            if (ends.Count(members.Has) > 1)
            {
                members.Refuse(ends[1], $"\"{ends[0]}\" and \"{ends[1]}\" are both written; keep one of them.");
            }
        }

        if (limit is { Least: { } least, Most: { } most } && least.Value > most.Value)
        {
            members.Refuse("atLeast", $"The lower end {least.Text} is above the upper end {most.Text}.");
        }

        return limit is { Least: null, Most: null } ? null : limit;
    }
}
