using System.Security.Cryptography;
using System.Text.RegularExpressions;
using Inspect.Sheets.Json;

namespace Inspect.Rules.Rulesets;

/// <summary>Loads one edition from the bytes of its ruleset file, and refuses anything it does not fully understand.</summary>
public static partial class RulesetLoader
{
    private const int MostRules = 80;
    private const int MostCorrections = 12;

    /// <summary>The edition in <paramref name="utf8"/>, or null with every fault added.</summary>
    public static Edition? Load(ReadOnlyMemory<byte> utf8, List<Fault> faults)
    {
        var before = faults.Count;
        if (StrictJson.Read(utf8, faults) is not { } members)
        {
            return null;
        }

        members.Text("$schema", 200);
        Require(members, "authority", "edition", "title", "sources", "rules");
        var from = members.Day("edition");
        var sources = Sources(members);
        var (revision, corrects, corrections) = Revision(members);
        var edition = new Edition
        {
            Authority = Kebab(members, "authority") ?? "",
            From = from ?? default,
            Until = Until(members, from),
            Revision = revision,
            Corrects = corrects,
            Corrections = corrections,
            Title = members.Text("title", 200) ?? "",
            About = members.Text("about", 600),
            Sources = sources,
            Follows = members.Text("follows"),
            HouseBall = HouseBall(members),
            Rules = Rules(members, sources),
            Notes = Notes(members),
            Sha256 = Convert.ToHexStringLower(SHA256.HashData(utf8.Span)),
        };
        if (corrects is not null && !SameDay(edition, corrects))
        {
            members.Refuse("corrects",
                $"\"{corrects}\" is not an earlier edition of {edition.Authority} from this day; "
                    + "a revision corrects one of its own body and day.");
        }

        members.Close();
        return faults.Count == before ? edition : null;
    }

    /// <summary>The number of a revision, what it corrects and the sentences that say so: all three, or none.</summary>
    private static (int Number, string? Corrects, IReadOnlyList<string> Corrections) Revision(StrictObject members)
    {
        string[] names = ["revision", "corrects", "corrections"];
        if (names.Any(members.Has))
        {
            Require(members, names);
        }

        var corrections = members.Texts("corrections", MostCorrections, 300) ?? [];
        if (members.Has("corrections") && corrections.Count == 0)
        {
            members.Refuse("corrections", "This list is empty; write one sentence for each correction.");
        }

        return (members.Whole("revision", 2, 99) ?? 1, members.Text("corrects"), corrections);
    }

    /// <summary>Whether an id names an earlier revision of the edition's own body and day.</summary>
    private static bool SameDay(Edition edition, string corrects) =>
        Enumerable.Range(1, edition.Revision - 1).Any(earlier => (edition with { Revision = earlier }).Id == corrects);

    /// <summary>What makes a ball a house ball, or null when the document does not say.</summary>
    internal static Condition? HouseBall(StrictObject members)
    {
        var condition = ConditionReader.Condition(members, "houseBall");
        if (condition?.Clauses.Any(clause => clause.Fact == Fact.HouseBall) == true)
        {
            members.Refuse("houseBall", "A house ball cannot be defined by houseBall itself; name what makes a ball one.");
        }

        return condition;
    }

    private static DateOnly? Until(StrictObject members, DateOnly? from)
    {
        var until = members.Day("until");
        if (until < from)
        {
            members.Refuse("until", "The last day lies before the first.");
        }

        return until;
    }

    /// <summary>The documents by their short names.</summary>
    internal static Dictionary<string, Reference> Sources(StrictObject members)
    {
        var sources = new Dictionary<string, Reference>(StringComparer.Ordinal);
        if (members.Object("sources") is not { } list)
        {
            return sources;
        }

        foreach (var key in list.Names.ToList())
        {
            if (list.Object(key) is not { } source)
            {
                continue;
            }

            Require(source, "title", "basis");
            sources[key] = new Reference(
                source.Text("title", 300) ?? "",
                null,
                source.Choice("basis", RulesetWords.Bases) ?? Basis.Memory);
            source.Close();
        }

        return sources;
    }

    /// <summary>The rules in their order; what could not be read is left out and its faults noted.</summary>
    internal static List<Rule> Rules(StrictObject members, Dictionary<string, Reference> sources)
    {
        var rules = new List<Rule>();
        foreach (var written in members.Objects("rules", MostRules) ?? [])
        {
            if (RuleReader.Read(written, sources) is not { } rule)
            {
                continue;
            }

            if (rules.Any(other => other.Id == rule.Id && other.Check == rule.Check))
            {
                written.Refuse("rule", $"\"{rule.Id}\" is written twice; give each of its checks a \"check\" name of its own.");
            }

            rules.Add(rule);
        }

        if (members.Has("rules") && rules.Count == 0)
        {
            members.Refuse("rules", "The edition has no rule that could be read.");
        }

        return rules;
    }

    private static List<AdviceNote> Notes(StrictObject members)
    {
        var notes = new List<AdviceNote>();
        foreach (var written in members.Objects("notes", 20) ?? [])
        {
            Require(written, "id", "text");
            var reading = written.Has("quantity") || written.Has("statistic") ? Reading(written) : null;
            var when = ConditionReader.Condition(written, "when");
            if (Kebab(written, "id") is { } id && written.Text("text", 300) is { } text)
            {
                notes.Add(new AdviceNote(id, reading, when, text));
            }

            written.Close();
        }

        return notes;
    }

    /// <summary>The readings at which a note is shown, or null with the fault added.</summary>
    private static NotedReading? Reading(StrictObject written)
    {
        Require(written, "quantity", "statistic");
        var quantity = written.Choice("quantity", RulesetWords.Quantities);
        var statistic = written.Choice("statistic", RulesetWords.Statistics);
        var measure = quantity is { } known ? RulesetWords.MeasureOf(known) : null;
        var limit = measure is { } unit ? ConditionReader.MeasureLimit(written, unit) : null;
        if (quantity is null || statistic is null)
        {
            return null;
        }

        if (limit is null || !RulesetWords.Fits(statistic.Value, quantity.Value) || RulesetWords.OfHole(quantity.Value)
            || statistic == Statistic.Each)
        {
            written.Refuse("quantity",
                "A note on a reading needs a measured quantity, a statistic that fits it and the values at which it is shown.");
            return null;
        }

        return new NotedReading(quantity.Value, statistic.Value, limit);
    }

    internal static void Require(StrictObject members, params ReadOnlySpan<string> names)
    {
        foreach (var name in names)
        {
            members.Require(name);
        }
    }

    /// <summary>An id in lower-case words joined by hyphens, or null with the fault added.</summary>
    internal static string? Kebab(StrictObject members, string name)
    {
        if (members.Text(name, 60) is not { } text)
        {
            return null;
        }

        if (KebabShape().IsMatch(text))
        {
            return text;
        }

        members.Refuse(name, $"\"{text}\" is not written like left-right: small letters and digits, words joined by hyphens.");
        return null;
    }

    [GeneratedRegex("^[a-z][a-z0-9]*(-[a-z0-9]+)*$", RegexOptions.CultureInvariant)]
    private static partial Regex KebabShape();
}
