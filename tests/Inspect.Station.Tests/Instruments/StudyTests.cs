using System.Net;
using AngleSharp.Dom;
using Inspect.Station.Instruments;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Record;
using Microsoft.Extensions.DependencyInjection;

namespace Inspect.Station.Tests.Instruments;

/// <summary>Gauge studies entered by the form, against the worked example of the AIAG's Measurement Systems
/// Analysis, fourth edition, 2010.</summary>
public sealed class StudyTests(SharedStation shared) : IClassFixture<SharedStation>
{
    private const string Aiag = """
        part  A1    A2    A3     B1    B2    B3     C1    C2    C3
        1   0.29  0.41  0.64   0.08  0.25  0.07   0.04 -0.11 -0.15
        2  -0.56 -0.68 -0.58  -0.47 -1.22 -0.68  -1.38 -1.13 -0.96
        3   1.34  1.17  1.27   1.19  0.94  1.34   0.88  1.09  0.67
        4   0.47  0.50  0.64   0.01  1.03  0.20   0.14  0.20  0.11
        5  -0.80 -0.92 -0.84  -0.56 -1.20 -1.28  -1.46 -1.07 -1.45
        6   0.02 -0.11 -0.21  -0.20  0.22  0.06  -0.29 -0.67 -0.49
        7   0.59  0.75  0.66   0.47  0.55  0.83   0.02  0.01  0.21
        8  -0.31 -0.20 -0.17  -0.63  0.08 -0.34  -0.46 -0.56 -0.49
        9   2.26  1.99  2.01   1.80  2.12  2.19   1.77  1.45  1.87
        10 -1.36 -1.25 -1.31  -1.68 -1.62 -1.50  -1.49 -1.77 -2.16
        """;

    [Fact]
    public async Task Study_PastedTable_ShowsBothMethodsWithTheirNames()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        using var inspector = await station.Client("inspector");
        await director.Added(Bench.Scale);

        var page = await Kept(inspector, Aiag);
        static List<string> Rows(IElement table) =>
            [.. table.QuerySelectorAll("tbody tr").Select(
                row => string.Join(' ', row.Children.Select(cell => cell.TextContent.Trim())).Trim())];

        var methods = page.QuerySelectorAll("main table.method").ToDictionary(table => table.QuerySelector("caption")!.TextContent, Rows);
        Assert.Equal(
            [
                "Repeatability 0.1999 18.42", "Between inspectors 0.2268 20.90", "Both, the gauge 0.3024 27.86",
                "Between balls 1.0423 96.04", "Total 1.0853 100.00",
                "Distinct categories 4 4.86", "Rating conditional",
            ],
            methods["By analysis of variance, interaction pooled with repeatability"]);
        Assert.Equal(
            [
                "Repeatability 0.2019 17.61", "Between inspectors 0.2297 20.04", "Both, the gauge 0.3058 26.68",
                "Between balls 1.1046 96.38", "Total 1.1461 100.00",
                "Distinct categories 5 5.09", "Rating conditional",
            ],
            methods["By average and range"]);

        // Every reading: a line for each ball and inspector, which a phone has room for.
        var readings = Rows(page.QuerySelectorAll("main .scroll table")[^1]);
        Assert.Equal(Aiag.Trim().Split('\n').Skip(1).Count() * 3, readings.Count);
        Assert.Equal("1 A 0.29 0.41 0.64", readings[0]);
        Assert.Equal("B 0.08 0.25 0.07", readings[1]);
        var text = page.QuerySelector("main")!.TextContent;
        Assert.Contains("interaction pooled", text, StringComparison.Ordinal);
        Assert.Contains("average and range", text, StringComparison.Ordinal);
        Assert.Contains("The interaction has p 0.974, which is not under 0.25", text, StringComparison.Ordinal);
        Assert.Equal(2, page.QuerySelectorAll("figure.gauge svg[role=img]").Length);
        Assert.Empty(page.QuerySelectorAll("form[action$='/use']"));
    }

    [Fact]
    public async Task Study_SameReadingsInAGrid_ComeToTheSame()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        await director.Added(Bench.Scale);
        var rows = Aiag.Split('\n').Skip(1).Select(line => line.Split(' ', StringSplitOptions.RemoveEmptyEntries)).ToList();
        var cells = rows.SelectMany((row, part) => row.Skip(1).Select((text, column) => (TypedStudy.Cell(part, column), text)));

        using var kept = await director.Send(
            await director.GetPage("/instruments/Scale%201/studies/new?parts=10&inspectors=3&trials=3"),
            [("title", "The same in a grid"), .. cells]);
        var page = await director.GetPage(kept.Headers.Location!.ToString());

        Assert.Contains("27.86", page.QuerySelector("main")!.TextContent, StringComparison.Ordinal);
        Assert.Contains("Inspector 3", page.QuerySelector("main")!.TextContent, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(
        "ball, Ida 1, Ida 2\n1, 1.2, 1.3\n2, 1.4, heavy", "Row 3 (2), column 3 (Ida 2): \"heavy\" is not a number that can be read")]
    [InlineData("ball, Ida 1, Ida 2\n1, 1.2, 1.3\n2, 1.4", "Row 3 (\"2 1.4\") has 2 columns and the first line 3;")]
    [InlineData("ball, Ida 1, Ida 2, Noor 1\n1, 1.2, 1.3, "
        + "1.1\n2, 1.4, 1.2, 1.1", "The first line has 3 columns of readings that are not the same number for each inspector;")]
    [InlineData("ball, Ida 1, Ida 2\n1, 1.2, 1.3\n2, , 1.2", "Row 3 (2), column 2 (Ida 1): the reading is missing;")]
    [InlineData("ball, Ida 1\n1, 1.2\n2, 1.4", "This has 2 things measured, 1 inspectors and 1 trials; a study takes 2 to 50, "
        + "1 to 10 and 2 to 10.")]
    [InlineData("", "Paste the whole table:")]
    public async Task Study_Nonsense_IsRefusedNamingRowAndColumn(string table, string sentence)
    {
        var station = await WithAScale();
        using var director = await station.Client("director");

        using var refused = await director.Send(
            await director.GetPage("/instruments/Scale%201/studies/new"), ("title", "Nonsense"), ("table", table));

        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.StatusCode);
        Assert.Contains(sentence, (await refused.Read()).QuerySelector(".summary")!.TextContent, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("parts=ten&inspectors=2&trials=2", "parts", "\"ten\" is not a whole number from 2 to 50.")]
    [InlineData("parts=5&inspectors=11&trials=2", "inspectors", "\"11\" is not a whole number from 1 to 10.")]
    [InlineData("parts=5&inspectors=2", "trials", "\"\" is not a whole number from 2 to 10.")]
    [InlineData(
        "parts=50&inspectors=10&trials=2", "parts", "A grid of 1000 readings is too large to type into; type up to 600, or paste a table.")]
    public async Task Study_GridOfNoUsableSize_IsRefusedInASentence(string size, string field, string sentence)
    {
        var station = await WithAScale();
        using var director = await station.Client("director");

        using var refused = await director.GetAsync($"/instruments/Scale%201/studies/new?{size}");

        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.StatusCode);
        Assert.Equal(sentence, (await refused.Read()).FaultAt(field));
    }

    [Fact]
    public async Task Study_LargestGrid_IsTakenWhole()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        await director.Added(Bench.Scale);
        var cells = Enumerable.Range(0, 600).Select(i => (TypedStudy.Cell(i / 12, i % 12), $"{i % 7}.{i % 10}"));

        using var kept = await director.Send(
            await director.GetPage("/instruments/Scale%201/studies/new?parts=50&inspectors=6&trials=2"),
            [("title", "Fifty balls"), .. cells]);
        var page = await director.GetPage(kept.Headers.Location!.ToString());

        Assert.Contains(
            "has constants for up to 10 of each, so it is left out", page.QuerySelector("main")!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Study_NonsenseInTheGrid_IsRefusedAtItsCell()
    {
        var station = await WithAScale();
        using var director = await station.Client("director");

        using var refused = await director.Send(
            await director.GetPage("/instruments/Scale%201/studies/new?parts=2&inspectors=1&trials=2"),
            ("title", "Nonsense"), ("cell[0][0]", "1.2"), ("cell[0][1]", "1,2"), ("cell[1][0]", "1.2"), ("cell[1][1]", "1.3"));
        var page = await refused.Read();

        Assert.StartsWith("Row 1 (1), Inspector 1 trial 2: "
            + "\"1,2\" has a comma", Assert.Single(page.QuerySelectorAll(".summary a")).TextContent, StringComparison.Ordinal);
        Assert.Equal("true", page.GetElementById("cell-0--1-")!.GetAttribute("aria-invalid"));
    }

    /// <summary>0.1/(2 sqrt 3), 0.199933 (78 degrees) and 0.03 oz: u 0.20422 oz, 84 degrees by Welch and
    /// Satterthwaite (worked out by hand).</summary>
    [Fact]
    public async Task UseRepeatability_ThenTheEventTakesItOver_WithoutChangingTheDecisionRule()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        await director.Added(Bench.Scale);
        var study = await Kept(director, Aiag);

        using var used = await director.Send(study.FormTo("/instruments/Scale%201/studies/1/use"), ("method", "variance"));
        var scale = station.Services.GetRequiredService<InstrumentBook>().Find("Scale 1")!;
        var rules = await director.GetPage("/events/LANTERN/rules");
        var offers = rules.QuerySelectorAll("form[action$='/rules/instrument']").Select(form => form.TextContent.Trim()).ToList();
        using var taken = await director.Send(
            rules.FormTo("/events/LANTERN/rules/instrument"), ("instrument", "Scale 1"), ("reads", "imbalances"));
        var after = await director.GetPage("/events/LANTERN/rules");

        Assert.Equal(("0.19993 oz", 78, "study 1, analysis of variance, interaction pooled with repeatability"), (
            scale.Repeatability!.Text, scale.RepeatabilityFreedom, scale.RepeatabilityFrom));
        Assert.Equal(84, scale.Uncertainty!.WholeFreedom);
        Assert.Equal(2, offers.Count);
        Assert.Contains("0.20422 oz", rules.QuerySelector("main")!.TextContent, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Found, taken.StatusCode);
        Assert.Equal("0.19993 oz", Value(after, "leftRight-repeatability"));
        Assert.Equal("0.03 oz", Value(after, "leftRight-calibration"));
        Assert.Equal("", Value(after, "gross-repeatability"));
        Assert.Equal("simple", after.QuerySelector("#decision option[selected]")!.GetAttribute("value"));
        Assert.Single(after.QuerySelectorAll("form[action$='/rules/instrument']"));
    }

    [Fact]
    public async Task UseRepeatability_WhereNothingDiffered_IsRefusedInASentence()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        await director.Added(Bench.Scale);
        var study = await Kept(director, "ball, Ida 1, Ida 2\n1, 1.2, 1.2\n2, 1.4, 1.4");

        using var refused = await director.Send(study.FormTo("/instruments/Scale%201/studies/1/use"), ("method", "variance"));

        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.StatusCode);
        Assert.Null(station.Services.GetRequiredService<InstrumentBook>().Find("Scale 1")!.Repeatability);
    }

    [Fact]
    public async Task CheckRule_Required_StopsAnInstrumentWithoutACheckThatCounts()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        await director.Added(Bench.Scale);
        var rules = await director.GetPage("/events/LANTERN/rules");

        using var nonsense = await director.Send(rules.FormTo("/events/LANTERN/rules/checks"), ("checkHours", "0"));
        using var set = await director.Send(rules.FormTo("/events/LANTERN/rules/checks"), ("checkRequired", "yes"));
        using var refused = await director.Record(Bench.WeighedWith("Scale 1"));
        using var good = await director.CheckScale("100 g");

        Assert.Equal("\"0\" is not a whole number of hours from 1 to 168; leave it empty for the day at the venue.", (
            await nonsense.Read()).FaultAt("checkHours"));
        Assert.Equal(
            "\"Scale 1\" has no check that counts now at Quillhaven Lantern Open; check it, and then record.",
            await refused.ProblemAt("observations[0].instrument"));
        await director.Weighed("Scale 1");
    }

    private static string? Value(IDocument page, string id) => page.GetElementById(id)?.GetAttribute("value") ?? "";

    private static async Task<IDocument> Kept(HttpClient client, string table)
    {
        using var kept = await client.Send(
            await client.GetPage("/instruments/Scale%201/studies/new"), ("title", "Ten parts"), ("table", table));
        Assert.Equal(HttpStatusCode.Found, kept.StatusCode);
        return await client.GetPage(kept.Headers.Location!.ToString());
    }

    private Task<StationFixture> WithAScale() => shared.After(async station =>
    {
        using var director = await station.Client("director");
        await director.Added(Bench.Scale);
    });
}
