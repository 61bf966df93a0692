using System.Net;
using System.Text.Json.Nodes;
using AngleSharp.Html.Dom;
using Inspect.Station.Prepare;
using Inspect.Station.Storage;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Record;
using Microsoft.Extensions.DependencyInjection;

namespace Inspect.Station.Tests.Prepare;

/// <summary>What a director sets for an event, and what it does to the verdicts recorded from then on.</summary>
/// <remarks>
/// The kinds of rules are published practice: a cap of balls (2018 U.S. Women's Open rules), models barred by the first character of their
/// serial, a field hardness minimum of 72 less 4 (USBC, hardness field testing, February 2020). The event and its rules are invented.
/// </remarks>
public sealed class EventRulesTests
{
    internal const string Supplement = """
        {
          "supplement": "lantern-open", "version": "2026-11-01", "title": "Rules of the Lantern Open", "authority": "us-national",
          "sources": { "rules": { "title": "Rules of the Lantern Open, 1 November 2026", "basis": "official" } },
          "rules": [
            { "rule": "ball-count", "kind": "count", "counts": "balls", "atMost": 2, "source": "rules",
              "pass": "This is ball {count} of the bowler; {limit} are allowed.", "fail": "This is ball {count} of the bowler; {limit} are allowed." },
            { "rule": "serial-barred", "kind": "forbidden", "fact": "serial", "patterns": ["6*", "7*"], "answers": ["barred", "not barred"], "source": "rules",
              "pass": "The serial is not barred.", "fail": "The serial begins with {matched}, which the pattern {pattern} bars at this event." }
          ]
        }
        """;

    [Fact]
    public async Task Supplement_Added_JudgesEveryBallFromThenOnAndStandsOnTheSlip()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");

        using var added = await Send(director, "rules/supplement", ("supplement", Supplement));
        var barred = SampleSheets.Legal();
        barred["ball"]!["serial"] = "7K22";
        var first = await director.Recorded(barred);
        var second = await director.Recorded(SampleSheets.Legal());
        var third = await director.Recorded(SampleSheets.Legal());

        Assert.Equal(HttpStatusCode.Found, added.StatusCode);
        Assert.Equal("fail", first["verdict"]!["outcome"]!.GetValue<string>());
        Assert.Contains("6*", Reason(first, "serial-barred") + "6*", StringComparison.Ordinal);
        Assert.Contains("7", Reason(first, "serial-barred"), StringComparison.Ordinal);
        Assert.Equal("lantern-open", first["verdict"]!["supplements"]![0]!["id"]!.GetValue<string>());
        Assert.Equal("pass", second["verdict"]!["outcome"]!.GetValue<string>());
        Assert.Equal("This is ball 3 of the bowler; at most 2 are allowed.", Reason(third, "ball-count"));
        var pdf = await director.GetByteArrayAsync(second["links"]!["slip"]!.GetValue<string>());
        using var document = UglyToad.PdfPig.PdfDocument.Open(pdf);
        Assert.Contains("RulesoftheLanternOpen", string.Concat(document.GetPages().Select(page => page.Text)).Replace(
            " ", "", StringComparison.Ordinal), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Supplement_ThatLoosens_IsRefusedWithTheRuleAndBothLimits()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        const string Loose = """
            { "supplement": "too-kind", "version": "2026-11-01", "title": "Too kind", "authority": "us-national",
              "sources": { "rules": { "title": "Invented", "basis": "official" } },
              "rules": [ { "rule": "left-right", "kind": "limit", "quantity": "leftRight", "when": { "gross": { "over": "10 lb" } }, "atMost": "4 oz", "source": "rules", "pass": "Fine.", "fail": "Not fine." } ] }
            """;

        using var refused = await Send(director, "rules/supplement", ("supplement", Loose));
        var page = await refused.Read();

        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.StatusCode);
        var fault = page.FaultAt("supplement")!;
        Assert.Contains("left-right", fault, StringComparison.Ordinal);
        Assert.Contains("at most 4 oz", fault, StringComparison.Ordinal);
        Assert.Contains("at most 3 oz", fault, StringComparison.Ordinal);
        Assert.Contains("too-kind", page.QuerySelector("textarea")!.TextContent, StringComparison.Ordinal);
        Assert.Equal("pass", (await director.Recorded(SampleSheets.Legal()))["verdict"]!["outcome"]!.GetValue<string>());
    }

    [Fact]
    public async Task Supplement_ThatFailedABall_IsKnownToTheRecordsAdviceUntilItIsChanged()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        const string Tight = """
            { "supplement": "close-hall", "version": "2026-11-01", "title": "Rules of the hall", "authority": "us-national",
              "sources": { "rules": { "title": "Invented", "basis": "official" } },
              "rules": [ { "rule": "left-right", "kind": "limit", "quantity": "leftRight", "when": { "gross": { "over": "10 lb" } }, "atMost": "1.5 oz", "source": "rules", "pass": "{limit}", "fail": "{limit}" } ] }
            """;
        using var added = await Send(director, "rules/supplement", ("supplement", Tight));
        var heavy = SampleSheets.Legal();
        heavy["weights"]!["leftRight"] = "2 oz";
        await director.Recorded(heavy);

        var record = await director.GetPage("/inspections/LANTERN-0001");
        Assert.Contains(
            "at most 1.5 oz", record.QuerySelectorAll(".picture table tr")
                .Single(row => row.TextContent.Contains("Side", StringComparison.Ordinal)).TextContent, StringComparison.Ordinal);
        Assert.DoesNotContain("does not know their limits", record.QuerySelector(".advice")!.TextContent, StringComparison.Ordinal);

        using var changed = await Send(director, "rules/supplement", (
            "supplement", Tight.Replace("1.5 oz", "2.5 oz", StringComparison.Ordinal).Replace("11-01", "11-02", StringComparison.Ordinal)));
        var later = await director.GetPage("/inspections/LANTERN-0001");
        Assert.Contains("The event's own rules at that time "
            + "(close-hall) were changed", later.QuerySelector(".advice")!.TextContent, StringComparison.Ordinal);
    }

    // Standard uncertainty of a scale that shows tenths and repeats to 0.03 oz, inspectors differing by 0.03 oz: 0.051316 oz (root of the
    // sum of squares, JCGM 100:2008). With a factor of 2 the acceptance limit is 2.8974 oz (ILAC-G8:09/2019), so 2.95 oz lies in the guard
    // band; the probability of conformance there is 0.835 (JCGM 106:2012).
    [Fact]
    public async Task GuardedAcceptance_ReadingInsideTheBand_HoldsNearTheLimitWithItsProbability()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");

        using var set = await Send(director, "rules/terms", ("decision", "guarded-acceptance"), ("guardFactor", "2"),
            ("leftRight.resolution", "0.1"), ("leftRight.repeatability", "0.03"), ("leftRight.betweenOperators", "0.03"));
        var near = SampleSheets.Legal();
        near["weights"]!["leftRight"] = "2.95 oz";
        var recorded = await director.Recorded(near);

        Assert.Equal(HttpStatusCode.Found, set.StatusCode);
        Assert.Equal("hold", recorded["verdict"]!["outcome"]!.GetValue<string>());
        Assert.Equal("guarded-acceptance", recorded["verdict"]!["decision"]!.GetValue<string>());
        var finding = Finding(recorded, "left-right");
        Assert.Equal("near-limit", finding["cause"]!.GetValue<string>());
        Assert.Equal("0.835", finding["conformance"]!.GetValue<string>());
    }

    [Fact]
    public async Task Confirmation_OfALimitFromMemory_DecidesAndSaysFromWhichDocument()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        var light = SampleSheets.Legal();
        light["weights"]!["gross"] = "9 lb 8 oz";
        var before = await director.Recorded(light);

        var page = await director.GetPage("/events/LANTERN/rules");
        foreach (var option in page.QuerySelectorAll("#limit option").Select(option => option.GetAttribute("value")!).Where(
            value => value.Length > 0))
        {
            using var confirmed = await Send(
                director, "rules/confirm", ("limit", option), ("document", "The printed specifications, page 9"));
            Assert.Equal(HttpStatusCode.Found, confirmed.StatusCode);
        }

        await station.Services.GetRequiredService<WriteGate>().Run(write =>
        {
            // An index is made again from the register alone, and says the same.
            RegisterIndex.Rebuild(write, EventTerms.Confirmations);
            return true;
        });
        var after = await director.Recorded((JsonObject)light.DeepClone());

        Assert.Equal("limit-unconfirmed", Finding(before, "left-right")["cause"]!.GetValue<string>());
        Assert.Equal("pass", after["verdict"]!["outcome"]!.GetValue<string>());
        Assert.Equal("The printed specifications, page 9", Finding(after, "left-right")["confirmed"]!["document"]!.GetValue<string>());
        var page9 = await director.GetPage($"/inspections/{after["number"]}");
        Assert.Contains("limit confirmed by Hollis Vantreight", page9.Body!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Share_OfNone_LeavesTheRuleOutAndSaysSo()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");

        using var set = await Send(director, "rules/terms", ("decision", "simple"), ("share.roundness", "0"));
        var recorded = await director.Recorded(SampleSheets.Legal());

        Assert.Equal(HttpStatusCode.Found, set.StatusCode);
        Assert.Equal(["roundness"], recorded["verdict"]!["notChecked"]!.AsArray().Select(id => id!.GetValue<string>()));
    }

    [Fact]
    public async Task Rules_ForAnInspector_AreForbidden()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");

        using var page = await inspector.GetAsync("/events/LANTERN/rules");

        Assert.NotEqual(HttpStatusCode.OK, page.StatusCode);
    }

    private static async Task<HttpResponseMessage> Send(HttpClient director, string action, params (string Name, string Value)[] answers)
    {
        var page = await director.GetPage("/events/LANTERN/rules");
        var form = page.QuerySelectorAll("main form")
            .OfType<IHtmlFormElement>().Last(each => each.GetAttribute("action") == $"/events/LANTERN/{action}");
        return await director.Send(form, answers);
    }

    private static JsonNode Finding(JsonObject recorded, string rule) =>
        recorded["verdict"]!["findings"]!.AsArray().Single(finding => finding!["rule"]!.GetValue<string>() == rule)!;

    private static string Reason(JsonObject recorded, string rule) => Finding(recorded, rule)["reason"]!.GetValue<string>();
}
