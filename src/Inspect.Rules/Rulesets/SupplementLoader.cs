using System.Security.Cryptography;
using Inspect.Sheets.Json;

namespace Inspect.Rules.Rulesets;

/// <summary>Loads one supplement from the bytes of its file, as strictly as an edition.</summary>
public static class SupplementLoader
{
    private const int MostDecisions = 10;

    private static readonly Dictionary<string, Discretion> Discretions = new(StringComparer.Ordinal)
    {
        ["allow"] = Discretion.Allow,
        ["bar"] = Discretion.Bar,
    };

    /// <summary>The supplement in <paramref name="utf8"/>, or null with every fault added.</summary>
    public static Supplement? Load(ReadOnlyMemory<byte> utf8, List<Fault> faults)
    {
        if (StrictJson.Read(utf8, faults) is not { } members)
        {
            return null;
        }

        var before = faults.Count;
        members.Text("$schema", 200);
        RulesetLoader.Require(members, "supplement", "version", "title", "authority", "sources");
        var sources = RulesetLoader.Sources(members);
        var supplement = new Supplement
        {
            Id = RulesetLoader.Kebab(members, "supplement") ?? "",
            Version = members.Day("version") ?? default,
            Title = members.Text("title", 200) ?? "",
            Authority = RulesetLoader.Kebab(members, "authority") ?? "",
            About = members.Text("about", 600),
            Sources = sources,
            HouseBall = RulesetLoader.HouseBall(members),
            Rules = RulesetLoader.Rules(members, sources),
            Decides = Decides(members, sources),
            Sha256 = Convert.ToHexStringLower(SHA256.HashData(utf8.Span)),
        };
        if (!members.Has("rules") && !members.Has("decides"))
        {
            members.Refuse("rules", "This supplement has no rules and decides nothing; write at least one of the two.");
        }

        members.Close();
        return faults.Count == before ? supplement : null;
    }

    private static List<Decision> Decides(StrictObject members, Dictionary<string, Reference> sources)
    {
        var decisions = new List<Decision>();
        foreach (var written in members.Objects("decides", MostDecisions) ?? [])
        {
            RulesetLoader.Require(written, "rule", "discretion", "source");
            var rule = RulesetLoader.Kebab(written, "rule");
            var discretion = written.Choice("discretion", Discretions);
            var reference = RuleReader.ReferenceOf(written, sources, null);
            if (decisions.Any(other => other.Rule == rule))
            {
                written.Refuse("rule", $"\"{rule}\" is decided twice; decide it once.");
            }

            if (rule is not null && discretion is { } decided)
            {
                decisions.Add(new Decision(rule, decided, reference));
            }

            written.Close();
        }

        return decisions;
    }
}
