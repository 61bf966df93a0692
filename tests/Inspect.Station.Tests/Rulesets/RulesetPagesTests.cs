using System.Net;
using System.Net.Http.Json;
using System.Security.Cryptography;
using System.Text.Json.Nodes;
using Inspect.Station.Rulesets;
using Inspect.Station.Tests.Ground;
using Microsoft.Extensions.DependencyInjection;

namespace Inspect.Station.Tests.Rulesets;

/// <summary>The editions as people and programs read them. The behaviour is defined by this project; the figures are
/// those of the editions' sources.</summary>
public sealed class RulesetPagesTests(SharedStation shared) : IClassFixture<SharedStation>
{
    [Fact]
    public async Task List_NamesEveryEditionOfEveryBody()
    {
        var station = shared.Station;
        using var anyone = await station.Client();

        var page = await anyone.GetPage("/rulesets");
        var listed = (await anyone.GetFromJsonAsync<JsonArray>("/api/rulesets"))!;

        var editions = station.Services.GetRequiredService<RulesetBook>().Editions.All.Select(edition => edition.Id).ToList();
        Assert.All(editions, id => Assert.NotNull(page.QuerySelector($"a[href='/rulesets/{id}']")));
        Assert.Equal(editions, listed.Select(edition => edition!["id"]!.GetValue<string>()));
        Assert.All(listed, edition => Assert.Equal("published", edition!["standing"]!.GetValue<string>()));
    }

    [Fact]
    public async Task Edition_ShowsEachRuleWithLimitSourceAndBasis()
    {
        var station = shared.Station;
        using var anyone = await station.Client();

        var page = await anyone.GetPage("/rulesets/us-national/2020-08-01");

        var row = page.QuerySelectorAll("table.rules tbody tr")
            .Single(line => line.QuerySelector("code")!.TextContent == "grip-hole-depth");
        Assert.Contains("at most 4 1/2 in", row.TextContent, StringComparison.Ordinal);
        Assert.Contains("Equipment Specifications and Certifications Manual", row.TextContent, StringComparison.Ordinal);
        Assert.Contains("reprint", row.TextContent, StringComparison.Ordinal);
        var balance = page.QuerySelectorAll("table.rules tbody tr").Single(line => line.QuerySelector("code")!.TextContent == "left-right");
        Assert.Contains("at most 3 oz, when the measured weight is over 10 lb", balance.TextContent, StringComparison.Ordinal);
        Assert.Contains("from memory", balance.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Edition_ForPrograms_IsTheVeryFileThatIsHashed()
    {
        var station = shared.Station;
        using var anyone = await station.Client();

        var bytes = await anyone.GetByteArrayAsync("/api/rulesets/us-national/2018-08-01");

        var library = station.Services.GetRequiredService<RulesetBook>().Editions;
        Assert.True(library.TryFind("us-national/2018-08-01", out var edition));
        Assert.Equal(edition.Sha256, Convert.ToHexStringLower(SHA256.HashData(bytes)));
        using var missing = await anyone.GetAsync("/api/rulesets/us-national/2018-08-02");
        Assert.Equal(HttpStatusCode.NotFound, missing.StatusCode);
    }

    // The balance hole and the 1 oz that went with it ended on 1 August 2020, when the two caps on gripping holes are first in force: USBC
    // Equipment Specifications and Certifications Manual, January 2021.
    [Fact]
    public async Task Compare_TransitionAndNow_ShowsWhatChangedAndWhatStayed()
    {
        var station = shared.Station;
        using var anyone = await station.Client();

        var page = await anyone.GetPage("/rulesets/compare?one=us-national/2018-08-01&other=us-national/2020-08-01");

        var changed = page.QuerySelectorAll("table.rules tbody tr").ToDictionary(
            row => string.Join(' ', row.QuerySelectorAll("th").Select(head => head.TextContent.Trim())), row => row.TextContent);
        Assert.DoesNotContain("read in", page.QuerySelector("table.rules")!.TextContent, StringComparison.Ordinal);
        Assert.Contains("no such rule", changed["Hole depth"], StringComparison.Ordinal);
        Assert.Contains("at most 1 oz", changed["Side weight"], StringComparison.Ordinal);
        Assert.DoesNotContain("Gross weight", changed.Keys);
    }
    // What the revision puts right: USBC Equipment Specifications and Certifications Manual, January 2021 (a ball without a thumb hole);
    // Tenpin Bowling Australia, notice on Rule 603 (not more than 3 oz).
    [Fact]
    public async Task Compare_RevisionAndWhatItCorrects_SaysItInPlainWordsAndSideBySide()
    {
        var station = shared.Station;
        using var anyone = await station.Client();

        var page = await anyone.GetPage("/rulesets/compare?one=us-national/2020-08-01&other=us-national/2020-08-01.2");

        Assert.Equal("What was corrected", page.QuerySelector("h1")!.TextContent);
        Assert.Contains(page.QuerySelectorAll("main li"), sentence => sentence.TextContent.Contains(
            "a ball that has no thumb hole", StringComparison.Ordinal));
        var rows = page.QuerySelectorAll("table.rules tbody tr")
            .Select(row => row.QuerySelectorAll("th, td").Select(cell => cell.TextContent).ToList()).ToList();
        var mark = rows.Single(
            row => row[0].Contains("mark", StringComparison.Ordinal) && row[0].StartsWith("Palm mark", StringComparison.Ordinal) && !row[0]
                .Contains("only-one", StringComparison.Ordinal) && row[2].Contains("at least 1", StringComparison.Ordinal));
        Assert.Contains("the ball has a thumb hole: no", mark[2], StringComparison.Ordinal);
        var halves = rows.Single(row => row[0].StartsWith("Any two halves", StringComparison.Ordinal));
        Assert.Contains("Japan Bowling Congress", halves[1], StringComparison.Ordinal);
        Assert.Contains("Rule 603", halves[2], StringComparison.Ordinal);
        var note = rows.Single(row => row[0].StartsWith("Note", StringComparison.Ordinal));
        Assert.Contains("under 73", note[2], StringComparison.Ordinal);
        Assert.DoesNotContain(rows, row => row[0].StartsWith("Gross weight", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Edition_ThatWasCorrected_NamesItsRevisionAndTheRevisionWhatItCorrects()
    {
        var station = shared.Station;
        using var anyone = await station.Client();

        var old = await anyone.GetPage("/rulesets/us-national/2020-08-01");
        var revision = await anyone.GetPage("/rulesets/us-national/2020-08-01.2");
        var listed = (await anyone.GetFromJsonAsync<JsonArray>("/api/rulesets"))!
            .Select(one => one!.AsObject()).ToDictionary(one => one["id"]!.GetValue<string>());

        Assert.NotNull(old.QuerySelector("main a[href='/rulesets/us-national/2020-08-01.2']"));
        Assert.Contains("What it corrects", revision.QuerySelectorAll("h2").Select(head => head.TextContent));
        Assert.Equal("us-national/2020-08-01.2", listed["us-national/2020-08-01"]["correctedBy"]!.GetValue<string>());
        Assert.Equal(("us-national/2020-08-01", 2), (
            listed["us-national/2020-08-01.2"]["corrects"]!.GetValue<string>(),
            listed["us-national/2020-08-01.2"]["revision"]!.GetValue<int>()));
        Assert.NotEmpty(listed["us-national/2020-08-01.2"]["corrections"]!.AsArray());
        Assert.False(listed["us-national/2020-08-01.2"].ContainsKey("correctedBy"));
        using var file = await anyone.GetAsync("/api/rulesets/us-national/2020-08-01.2");
        Assert.Equal(HttpStatusCode.OK, file.StatusCode);
    }
}
