using System.Text.Json.Nodes;

namespace Inspect.Rules.Tests.Rulesets;

/// <summary>An edition that follows another's text has the same rules, but for differences that are
/// stated here with their document.</summary>
public class FollowsTests
{
    /// <summary>The rules in which a following edition differs, as its own document says.</summary>
    private static readonly Dictionary<string, string[]> Differences = new(StringComparer.Ordinal)
    {
        // The statement quoted in autumn 2018 speaks of holes and static balance; a hardness rule of its own was not seen.
        ["canada/2014-05-07"] = ["hardness"],
        // The notice on Rule 603: 3 oz between any two halves over 8 lb, and balls made before 1991 approved.
        ["australia/2019-01-01"] = ["any-halves", "approved-list", "finger-thumb", "left-right", "top-bottom"],
        ["australia/2019-01-01.2"] = ["any-halves", "approved-list", "finger-thumb", "left-right", "top-bottom"],
        ["canada/2014-05-07.2"] = ["hardness"],
    };

    /// <summary>Members that word a rule or say where it was read, and limit nothing.</summary>
    private static readonly string[] Prose = ["source", "section", "pass", "fail", "hold", "basis"];

    public static TheoryData<string> Following =>
        [.. Book.BuiltIn.All.Where(edition => edition.Follows is not null).Select(edition => edition.Id)];

    [Theory]
    [MemberData(nameof(Following))]
    public void Rules_OfAFollowingEdition_DifferOnlyWhereStated(string edition)
    {
        var (own, followed) = (Limits(edition), Limits(Book.Find(edition).Follows!));
        var different = own.Keys.Union(followed.Keys)
            .Where(rule => own.GetValueOrDefault(rule) != followed.GetValueOrDefault(rule))
            .Order(StringComparer.Ordinal);

        Assert.Equal(Differences.GetValueOrDefault(edition, []), different);
    }

    [Fact]
    public void Following_Editions_AreThese() => Assert.Equal(
        [
            "australia/2019-01-01 follows international/2019-01-01",
            "australia/2019-01-01.2 follows international/2019-01-01",
            "canada/2014-05-07 follows us-national/2014-05-07",
            "canada/2014-05-07.2 follows us-national/2014-05-07.2",
            "netherlands/2014-06-01 follows international/2014-06-01",
            "netherlands/2014-06-01.2 follows international/2014-06-01.2",
            "netherlands/2019-01-01 follows international/2019-01-01",
            "netherlands/2021-01-01 follows international/2020-08-01",
            "netherlands/2021-01-01.2 follows international/2020-08-01.2",
            "united-kingdom/2014-06-01 follows international/2014-06-01",
            "united-kingdom/2014-06-01.2 follows international/2014-06-01.2",
            "united-kingdom/2019-01-01 follows international/2019-01-01",
            "united-kingdom/2020-08-01 follows international/2020-08-01",
            "united-kingdom/2020-08-01.2 follows international/2020-08-01.2",
            "united-kingdom/2025-10-14 follows international/2025-10-14",
            "united-kingdom/2025-10-14.2 follows international/2025-10-14.2",
        ],
        Book.BuiltIn.All.Where(edition => edition.Follows is not null).Select(edition => $"{edition.Id} follows {edition.Follows}"));

    [Theory]
    [MemberData(nameof(Book.Editions), MemberType = typeof(Book))]
    public void Rules_OfEveryEdition_StandInTheSameOrder(string edition)
    {
        string[] order =
        [
            "gross-weight", "circumference", "diameter", "roundness", "surface-pattern", "foreign-material", "model-name", "serial-number",
            "approved-list", "made-since", "hole-count", "grip-hole-count", "one-hole-per-digit", "grip-hole-use", "grip-hole-diameter",
            "grip-hole-depth",
            "void-in-hole", "balance-hole", "vent-hole", "mill-hole", "palm-mark", "added-marks", "top-bottom", "left-right",
            "finger-thumb", "any-halves", "hardness",
        ];

        Assert.Equal(order.Where(Book.Find(edition).RuleIds.Contains), Book.Find(edition).RuleIds);
    }

    /// <summary>What each rule limits, and which of its figures are from memory.</summary>
    private static Dictionary<string, string> Limits(string edition)
    {
        var file = JsonNode.Parse(File.ReadAllText(Book.FileOf(edition, "ruleset.json")))!;
        var sources = file["sources"]!.AsObject();
        return file["rules"]!.AsArray().GroupBy(rule => (string)rule!["rule"]!)
            .ToDictionary(group => group.Key, group => string.Join(";", group.Select(rule => Bare(rule!.AsObject(), sources))));
    }

    private static string Bare(JsonObject rule, JsonObject sources)
    {
        var bare = (JsonObject)rule.DeepClone();
        foreach (var part in (bare["cases"]?.AsArray() ?? []).Select(one => one!.AsObject()).Prepend(bare))
        {
            var basis = part["basis"] ?? (part["source"] is { } source ? sources[(string)source!]!["basis"] : null);
            var memory = (string?)basis == "memory";
            foreach (var name in Prose)
            {
                part.Remove(name);
            }

            part["fromMemory"] = memory;
        }

        return bare.ToJsonString();
    }
}
