using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Inspect.Rules.Judging;
using Inspect.Rules.Rulesets;
using Inspect.Rules.Tests.Rulesets;
using Inspect.Sheets;
using Inspect.Sheets.Json;
using Inspect.Station.Rulesets;
using Inspect.Station.Scan;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Web;

namespace Inspect.Station.Tests.Scan;

/// <summary>The words of the scan page: whole in every language, and every reason of every edition a sentence in it.</summary>
public sealed partial class ScanWordsTests
{
    private static readonly EditionLibrary Editions = RulesetBook.Open(null, [])!.Editions;

    // Words that are written alike in English and in that language.
    private static readonly Dictionary<string, string[]> Alike = new()
    {
        ["de"] = ["an", "ball", "balls", "finger", "hand", "in", "person", "so", "station", "text", "was"],
        ["fr"] =
        [
            "centre", "code", "condition", "date", "index", "insert", "instrument", "interchangeable", "page", "plus", "second", "station",
            "surface", "table",
        ],
        ["es"] = ["balance", "inspector", "material", "no"],
        ["sv"] = ["diameter", "finger", "hand", "instrument", "material", "person", "text", "under"],
        ["ja"] = [],
        ["ko"] = [],
    };

    public static TheoryData<string> Tags => [.. Language.All.Select(language => language.Tag)];

    [Theory]
    [MemberData(nameof(Tags))]
    public void Words_OfALanguage_HaveEveryKeyPlaceAndPluralForm(string tag)
    {
        var (english, words) = (ScanWords.In(Language.English).All, Words(tag).All);

        Assert.Equal(english.Keys, words.Keys);
        Assert.All(english, pair => Assert.Equal(Places(pair.Value), Places(words[pair.Key])));
        Assert.All(words, pair => Assert.All(Texts(pair.Value), text => Assert.NotEqual("", text.Trim())));
        Assert.All(words.Values.Where(value => value.ValueKind == JsonValueKind.Object), forms =>
            Assert.Equal(Words(tag).Language.PluralForms, forms.EnumerateObject().Select(form => form.Name)));
    }

    [Theory]
    [MemberData(nameof(Tags))]
    public void Words_OfAnotherLanguage_AreNotEnglish(string tag)
    {
        if (tag == "en")
        {
            return;
        }

        var english = Spoken("en");
        Assert.DoesNotContain(Spoken(tag), word => english.Contains(word) && !Alike[tag].Contains(word));
        Assert.Empty(Alike[tag].Except(Spoken(tag).Intersect(english)));
    }

    [Theory]
    [MemberData(nameof(Tags))]
    public void EveryRuleOfEveryEdition_HasATitleAndASentence(string tag) => Assert.All(Editions.RuleIds, rule =>
    {
        Assert.NotNull(Words(tag).Find($"rule.{rule}"));
        Assert.NotNull(Words(tag).Find($"fail.{rule}"));
    });

    /// <summary>The cases that stand beside the editions: each of their fails and holds is a sentence of the language with every place
    /// filled, and nothing of it falls back to the words of the record.</summary>
    [Theory]
    [MemberData(nameof(Tags))]
    public void EveryCaseOfEveryEdition_IsExplainedInTheLanguage(string tag)
    {
        var (fails, holds) = (new HashSet<string>(), new HashSet<HoldCause>());
        foreach (var (edition, sheet, verdict) in Cases)
        {
            var said = new FindingWords(Words(tag), sheet, edition);
            Assert.All(said.Fails(verdict).Concat(said.Open(verdict)), told =>
            {
                Assert.Null(told.Lang);
                Assert.DoesNotMatch(Unfilled(), told.Text);
            });
            Assert.Equal(verdict.Outcome != Outcome.Pass, said.Fails(verdict).Concat(said.Open(verdict)).Any());
            fails.UnionWith(verdict.Findings.Where(finding => finding.Outcome == Outcome.Fail).Select(finding => finding.Rule));
            holds.UnionWith(verdict.Findings.Where(finding => finding.Cause is not null).Select(finding => finding.Cause!.Value));
        }

        Assert.Equal(Editions.RuleIds.Order(), fails.Order());
        Assert.Contains(HoldCause.LimitUnconfirmed, holds);
        Assert.Contains(HoldCause.Discretion, holds);
    }

    [Theory]
    [InlineData(
        "en",
        "The left side is 3.25 oz (92.1 g) heavier than the right side, 0.25 oz (7.1 g) over the limit; allowed: at most 3 oz (85.0 g).")]
    [InlineData(
        "de",
        "Die linke Seite ist 3,25 oz (92,1 g) schwerer als die rechte Seite, 0,25 oz (7,1 g) über der Grenze; "
            + "zulässig: höchstens 3 oz (85,0 g).")]
    [InlineData("ja", "左側が右側より3.25 oz (92.1 g)重い状態で、限度を0.25 oz (7.1 g)超過（許容：3 oz (85.0 g)以下）。")]
    public void Fail_SaysReadingLimitAndHowFar(string tag, string expected)
    {
        var (sheet, verdict) = Judged(Record.SampleSheets.TooHeavyOnTheLeft());

        var told = Assert.Single(new FindingWords(Words(tag), sheet, null).Fails(verdict));

        Assert.Equal(new Told(expected), told with { Text = told.Text.Replace('\u00A0', ' ') });
    }

    [Fact]
    public void Fail_OfARuleThatOnlyASupplementHas_KeepsItsEnglishWords()
    {
        var (sheet, verdict) = Judged(Record.SampleSheets.TooHeavyOnTheLeft());
        var finding = verdict.Findings.Single(one => one.Outcome == Outcome.Fail);
        var said = new FindingWords(Words("de"), sheet, null);

        var told = said.Fails(verdict with { Findings = [finding with { Rule = "lantern-balance", Supplement = "lantern" }] });

        Assert.Equal([new Told(finding.Reason, "en")], told);
        Assert.Equal(
            [new Told(finding.Reason, "en")],
            said.Fails(verdict with { Findings = [finding with { Rule = "serial-number", Supplement = "lantern", Margin = null }] }));
        Assert.Equal("Lantern balance", said.Title("lantern-balance"));
    }

    /// <summary>A plan that names no rule of the edition judges nothing, and nothing is decided.</summary>
    [Fact]
    public void Open_WhereNothingWasJudgedOrNoEditionIsInForce_SaysSo()
    {
        var (sheet, verdict) = Judged(Record.SampleSheets.Legal());
        var said = new FindingWords(Words("en"), sheet, null);

        Assert.Equal([new Told(Words("en")["open.nothing"])], said.Open(verdict with { Outcome = Outcome.Hold, Findings = [] }));
        Assert.Equal([new Told(Words("en")["open.noEdition"])], said.Open(Rules.Judging.Judge.WithoutEdition()));
    }

    [Fact]
    public void Fail_OfARecordWithoutNumbers_KeepsItsWords()
    {
        var (sheet, verdict) = Judged(Record.SampleSheets.TooHeavyOnTheLeft());
        var finding = verdict.Findings.Single(one => one.Outcome == Outcome.Fail);
        var words = finding with { Measured = new Amount("3.25 oz"), Limit = new Allowed("at most 3 oz"), Margin = new Amount("-0.25 oz") };

        var told = new FindingWords(Words("fr"), sheet, null).Fails(verdict with { Findings = [words] });

        Assert.Equal([new Told(finding.Reason, "en")], told);
    }

    private static readonly List<(Edition Edition, Sheet Sheet, Verdict Verdict)> Cases =
        [.. Editions.All.Where(edition => Editions.RevisionOf(edition) is null).SelectMany(CasesOf)];

    private static IEnumerable<(Edition, Sheet, Verdict)> CasesOf(Edition edition)
    {
        var file = JsonNode.Parse(File.ReadAllText(Path.Combine(Repository.Root, "rulesets", edition.Id, "cases.json")))!;
        return file["cases"]!.AsArray().Select(one =>
        {
            var (sheet, verdict) = Judged(SheetChange.Apply(file["sheet"]!.AsObject(), one!["change"]!.AsObject()), edition);
            return (edition, sheet, verdict);
        });
    }

    private static (Sheet Sheet, Verdict Verdict) Judged(JsonObject written, Edition? edition = null)
    {
        var faults = new List<Fault>();
        written["authority"] ??= "us-national";
        var sheet = SheetReader.Read(Encoding.UTF8.GetBytes(written.ToJsonString()), faults)
            ?? throw new InvalidDataException($"{faults[0]}");
        return (sheet, Rules.Judging.Judge.Under(edition ?? Editions.InForceOn("us-national", sheet.Play)!, sheet));
    }

    private static Phrases Words(string tag) => ScanWords.In(Language.All.Single(language => language.Tag == tag));

    private static IEnumerable<string> Texts(JsonElement value) =>
        value.ValueKind == JsonValueKind.Object ? value.EnumerateObject().Select(form => form.Value.GetString()!) : [value.GetString()!];

    private static List<string> Places(JsonElement value) => [.. Texts(value).SelectMany(Placeholders.In).Distinct().Order()];

    private static HashSet<string> Spoken(string tag) => [.. Words(tag).All.Values.SelectMany(Texts)
        .SelectMany(text => Latin().Matches(Place().Replace(text, "")).Select(word => word.Value.ToLowerInvariant()))];

    [GeneratedRegex(@"\{[a-z]+\}")]
    private static partial Regex Place();

    [GeneratedRegex(@"(?<![\p{L}])[A-Za-z]{2,}(?![\p{L}])")]
    private static partial Regex Latin();

    [GeneratedRegex(@"[{}]|–\s*[,;.)]")]
    private static partial Regex Unfilled();
}
