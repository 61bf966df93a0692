using System.Net;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Record;
using static Inspect.Station.Tests.Desk.DeskRecords;

namespace Inspect.Station.Tests.Desk;

/// <summary>Words typed into the one field that are a filter: offered as one, and what is written on balls. The
/// behaviour is defined by this project.</summary>
public sealed class FindHintsTests : IAsyncLifetime
{
    private readonly DeskRecords _on = new();

    public Task InitializeAsync() => _on.InitializeAsync();

    public Task DisposeAsync() => _on.DisposeAsync();

    [Theory]
    [InlineData("ida", "recorded by Ida Morrowgate", "/desk?event=LANTERN&inspector=inspector")]
    [InlineData("side weight", "not met or open: side weight", "/desk?event=LANTERN&rule=left-right")]
    [InlineData("failed", "verdict: Fail", "/desk?event=LANTERN&outcome=fail")]
    [InlineData("withdrawn", "withdrawn", "/desk?event=LANTERN&standing=withdrawn")]
    public async Task Desk_AWordThatIsAFilter_IsOfferedAsOne(string typed, string words, string href)
    {
        var page = await _on.Director.GetPage($"/desk?q={Uri.EscapeDataString(typed)}&event=LANTERN");

        Assert.Equal(href, page.QuerySelectorAll("nav[aria-label='What "
            + "else it may mean'] a").Single(link => link.TextContent == words).GetAttribute("href"));
    }

    [Fact]
    public async Task Desk_EventTyped_IsOfferedAndTheLatestOfTheEventHasItsCsv()
    {
        Assert.NotNull((await _on.Director.GetPage("/desk?q=cup27")).QuerySelector("nav a[href='/desk?event=CUP27']"));
        Assert.Null((await _on.Director.GetPage("/desk?q=quell")).QuerySelector("nav[aria-label='What else it may mean']"));

        var latest = (await _on.Director.GetPage("/desk")).QuerySelector("a[href^='/api/inspections.csv']")!.GetAttribute("href")!;
        Assert.Contains("event=", latest, StringComparison.Ordinal);
    }

    /// <summary>A model is struck from a list in the middle of an event: which balls of it are here?</summary>
    [Fact]
    public async Task Model_AnyWordsOfMakerAndModel_AreFoundAloneAndMixed()
    {
        var other = Serial(SampleSheets.Legal(), "MD01");
        other["ball"]!["maker"] = "Brånd Kiln";
        other["ball"]!["model"] = "Marsh-Kestrel";
        var kestrel = await _on.Record(other, "105");

        await _on.Finds("model=marshkestrel", kestrel);
        await _on.Finds("model=kestrel%20brand", kestrel);
        await _on.Finds("model=MARSH&event=LANTERN&outcome=pass", kestrel);
        await _on.Finds("model=marsh&outcome=fail");
        await _on.Finds("model=marsh&q=105", kestrel);
        await _on.Finds("model=marsh&rule=left-right");
        await _on.Finds("model=nosuchmodel");
        Assert.Equal("Brånd Kiln Marsh-Kestrel", (await _on.Answer("model=kestrel"))["inspections"]![0]!["model"]!.GetValue<string>());
        Assert.NotNull((await _on.Director.GetPage("/desk?q=marshkestrel")).QuerySelector("nav a[href='/desk?model=marshkestrel']"));
        using var refused = await _on.Director.GetAsync("/api/inspections?model=%2B%2B");
        Assert.Equal(HttpStatusCode.BadRequest, refused.StatusCode);
    }
}
