using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Record;

namespace Inspect.Station.Tests.Instruments;

/// <summary>The director's page of how readings were read. What it counts is common practice, no source; its
/// interval is Clopper and Pearson's.</summary>
public sealed class ReadingHabitsTests
{
    [Fact]
    public async Task Readings_RoundedByOneInspector_AreSaidWithoutAccusing()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        using var inspector = await station.Client("inspector");
        string[] honest = [
            "15 lb 1.3 oz", "14 lb 2.1 oz", "15 lb 0.7 oz", "14 lb 9.2 oz", "15 lb 3.4 oz", "15 lb 11.5 oz", "14 lb 6.6 oz", "15 lb 2.8 oz",
            "14 lb 1.9 oz", "15 lb 4.1 oz"];
        foreach (var (i, gross) in honest.Index())
        {
            await Weigh(director, gross, i);
            await Weigh(inspector, i % 2 == 0 ? "15 lb 1 oz" : "14 lb 2.5 oz", i);
        }

        var page = await director.GetPage("/desk/events/LANTERN/readings");
        var notable = page.QuerySelector("main .card ul")!.TextContent;

        // 10 of 10: at least 0.025^(1/10) = 69 %, by the closed form of the interval.
        Assert.Contains("Gross weight, Ida Morrowgate: 10 of 10 readings are on round values, 69 to 100 %; 20 % "
            + "would be by chance.", notable, StringComparison.Ordinal);
        Assert.DoesNotContain("Gross weight, Hollis Vantreight", notable, StringComparison.Ordinal);
    }

    /// <summary>The national limit of 3 oz: one inspector's readings near it all lie inside, the other's on both sides.</summary>
    [Fact]
    public async Task Readings_JustInsideALimit_AreComparedWithTheOtherInspectors()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        using var inspector = await station.Client("inspector");
        for (var i = 0; i < 10; i++)
        {
            await Balance(director, i % 2 == 0 ? "3.1 oz" : "2.9 oz", i);
            await Balance(inspector, i % 2 == 0 ? "2.9 oz" : "3 oz", i);
        }

        var page = await director.GetPage("/desk/events/LANTERN/readings");

        Assert.Contains(
            "Imbalances, Ida Morrowgate: of 10 readings close to a limit 10 lie inside, 69 to 100 %; 50 % of the others' do.",
            page.QuerySelector("main .card ul")!.TextContent, StringComparison.Ordinal);
    }

    /// <summary>One inspector alone: twelve readings in the three tenths next to the limit and none in the three
    /// further in, against as many in both.</summary>
    [Theory]
    [InlineData(new[] { "2.8 oz", "2.9 oz", "3 oz" }, true)]
    [InlineData(new[] { "2.8 oz", "2.7 oz", "2.5 oz", "2.9 oz" }, false)]
    public async Task Readings_OfOneInspectorAlone_AreComparedWithThoseFurtherInside(string[] turns, bool isSaid)
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        using var director = await station.Client("director");
        for (var i = 0; i < 12; i++)
        {
            await Balance(inspector, turns[i % turns.Length], i);
        }

        var page = await director.GetPage("/desk/events/LANTERN/readings");
        var text = page.QuerySelector("main")!.TextContent;

        // 12 of 12: at least 0.025^(1/12) = 74 %, by the closed form of the interval.
        Assert.Equal(isSaid, text.Contains(
            "Imbalances, Ida Morrowgate: of 12 readings in the 6 values inside a limit 12 are in the 3 next to it, 74 to 100 %; "
                + "at most half would be", StringComparison.Ordinal));
        Assert.Contains("50 %, an even spread", text, StringComparison.Ordinal);
    }

    /// <summary>A scale that shows quarters of an ounce: what everybody read lies on quarters, and quarters are then not round.</summary>
    [Fact]
    public async Task Readings_AllOnTheStepOfACoarseDisplay_AreNotCalledRound()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        using var director = await station.Client("director");
        string[] read = ["0.25 oz", "0.75 oz", "1.25 oz", "-0.5 oz", "2 oz", "-1.75 oz"];
        for (var i = 0; i < 12; i++)
        {
            await Balance(inspector, read[i % read.Length], i);
        }

        var page = await director.GetPage("/desk/events/LANTERN/readings");
        var row = page.QuerySelectorAll("table tbody tr").Single(row => row.TextContent.Contains("Imbalances", StringComparison.Ordinal));

        Assert.StartsWith("2 of 12", row.Children[2].TextContent, StringComparison.Ordinal);
        Assert.Equal("25 %", row.Children[3].TextContent);
        Assert.DoesNotContain("Imbalances, Ida Morrowgate", page.QuerySelector("main .card")!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Readings_OfAnEventWithoutAny_SaysSoAndIsForDirectors()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        using var inspector = await station.Client("inspector");

        using var forbidden = await inspector.GetAsync("/desk/events/LANTERN/readings");

        Assert.Equal(System.Net.HttpStatusCode.Forbidden, forbidden.StatusCode);
        Assert.Contains(
            "Nothing is recorded", (await director.GetPage("/desk/events/LANTERN/readings")).QuerySelector("main")!.TextContent,
            StringComparison.Ordinal);
    }

    private static Task<System.Text.Json.Nodes.JsonObject> Weigh(HttpClient client, string gross, int i)
    {
        var sheet = SampleSheets.Legal();
        sheet["weights"]!["gross"] = gross;
        return client.Recorded(sheet, $"{101 + i}");
    }

    private static Task<System.Text.Json.Nodes.JsonObject> Balance(HttpClient client, string leftRight, int i)
    {
        var sheet = SampleSheets.Legal();
        sheet["weights"] = new System.Text.Json.Nodes.JsonObject { ["gross"] = "15 lb 1 oz", ["leftRight"] = leftRight };
        return client.Recorded(sheet, $"{101 + i}");
    }
}
