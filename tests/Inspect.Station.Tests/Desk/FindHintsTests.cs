using System.Net;
using Inspect.Station.Storage;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Record;
using Microsoft.Extensions.DependencyInjection;
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
        var other = Serial(SampleSheets.Legal(), "MARSH01");
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
        Assert.Null((await _on.Director.GetPage("/desk?q=marshkestrel")).QuerySelector("nav a[href*='model=']"));
        Assert.NotNull((await _on.Director.GetPage("/desk?q=marsh")).QuerySelector("nav a[href='/desk?model=marsh']"));
        using var refused = await _on.Director.GetAsync("/api/inspections?model=%2B%2B");
        Assert.Equal(HttpStatusCode.BadRequest, refused.StatusCode);
    }

    /// <summary>Whoever types a ball's name, a bowler's, a serial or several of them into the one field means the ball.</summary>
    [Theory]
    [InlineData("marsh-kestrel")]
    [InlineData("BRAND KILN")]
    [InlineData("kestrel brand")]
    [InlineData("md01")]
    [InlineData("kestrel 105")]
    [InlineData("kestrel md01")]
    [InlineData("zsofia kestrel")]
    public async Task OneField_AnyWordsOfABall_FindIt(string typed)
    {
        var kestrel = await Kestrel(_on, "105");
        var entered = typed.StartsWith("zsofia", StringComparison.Ordinal) ? await Kestrel(_on, "107") : null;

        await _on.Finds($"q={Uri.EscapeDataString(typed)}", entered is null ? [kestrel] : [entered]);
        await _on.Finds($"q={Uri.EscapeDataString(typed)}&event=CUP27");
    }

    [Fact]
    public async Task OneField_WhatIsTyped_IsToldHowItWasRead()
    {
        await Kestrel(_on, "105");

        var found = await _on.Director.GetPage("/desk?q=kestrel+105");
        Assert.Contains(
            "“kestrel” as maker or model (1), “105” as entry number (1)", found.Body!.TextContent, StringComparison.Ordinal);
        var one = await _on.Director.GetPage("/desk?q=kestrel");
        Assert.Contains("“kestrel” read as maker or model (1)", one.Body!.TextContent, StringComparison.Ordinal);
        var none = await _on.Director.GetPage("/desk?q=nosuchball&event=CUP27");
        Assert.Contains(
            "Nothing at CUP27 fits “nosuchball”. Searched: bowler, maker and model, serial, tag, entry number, inspection number, "
                + "slip code.",
            none.Body!.TextContent, StringComparison.Ordinal);
    }

    /// <summary>A common maker is not listed inspection by inspection: it narrows what the other filters find.</summary>
    [Fact]
    public async Task OneField_MakerOfMoreBallsThanAreListed_NarrowsAsItsFilterDoes()
    {
        var kestrel = await Kestrel(_on, "105");
        for (var i = 0; i < 6; i++)
        {
            await _on.Record(SampleSheets.Legal(), "101");
        }

        // Other spellings of the same maker on every inspection: more rows than one text may fit, fewer spellings than that.
        var rows = await _on.Station.Services.GetRequiredService<WriteGate>().Run(write => Dapper.SqlMapper.Execute(
            write.Connection,
            """
            WITH RECURSIVE n (i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < 480)
            INSERT INTO inspection_model (name, seq) SELECT 'Brånd Kiln No' || i, seq FROM n, inspection_index
            """,
            null, write.Transaction));
        Assert.InRange(rows, 5_001, 6_000);

        await _on.Finds("q=kiln&entry=105", kestrel);
        await _on.Finds("q=kiln+105", kestrel);
        await _on.Finds("q=kiln&model=kestrel", kestrel);
    }

    private static Task<System.Text.Json.Nodes.JsonObject> Kestrel(DeskRecords on, string entry)
    {
        var sheet = Serial(SampleSheets.Legal(), entry == "105" ? "MD01" : "MD02");
        sheet["ball"]!["maker"] = "Brånd Kiln";
        sheet["ball"]!["model"] = "Marsh-Kestrel";
        return on.Record(sheet, entry);
    }
}
