using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using Inspect.Station.Access;
using Inspect.Station.Decide;
using Inspect.Station.Record;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Queue;
using Inspect.Station.Tests.Record;
using Microsoft.Extensions.DependencyInjection;
using UglyToad.PdfPig;

namespace Inspect.Station.Tests.Decide;

/// <summary>Whoever recorded a ball may take it back within ten minutes and finds what was typed again. Common
/// practice of officiating, no source.</summary>
public sealed class UndoTests
{
    [Fact]
    public async Task Undo_WithinTenMinutesByWhoeverRecorded_TakesItBackAndLaterIsRefused()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        using var director = await station.Client("director");
        var number = (await inspector.Recorded(SampleSheets.Legal()))["number"]!.GetValue<string>();
        var looked = await director.GetPage($"/inspections/{number}");
        Assert.Null(looked.QuerySelector("details.undo"));

        var page = await inspector.GetPage($"/inspections/{number}");
        var form = page.QuerySelector<IHtmlFormElement>("details.undo form")!;
        using var wordless = await inspector.Send(form, ("reason", ""));
        using var wordy = await inspector.Send(form, ("reason", new string('x', 301)));
        using var others = await director.PostAsync($"/inspections/{number}/undo", QueueSteps.Token(looked, ("reason", "Not mine")));
        using var taken = await inspector.Send(form, ("reason", "Typed the neighbour's ball"));
        using var twice = await inspector.Send(form, ("reason", "Typed the neighbour's ball"));

        Assert.Equal(HttpStatusCode.UnprocessableEntity, wordless.StatusCode);
        var again = await wordy.Read();
        Assert.Equal("Say in a few words why LANTERN-0001 is taken back, in 300 characters at most.", again.FaultAt("reason"));
        Assert.Equal(301, again.QuerySelector<IHtmlInputElement>("details.undo[open] [name=reason]")!.Value.Length);
        Assert.Contains(
            "can no longer be taken back here", (await others.Read()).QuerySelector(".summary")!.TextContent, StringComparison.Ordinal);
        Assert.Equal((HttpStatusCode.Redirect, HttpStatusCode.Redirect), (taken.StatusCode, twice.StatusCode));
        var record = (await inspector.GetFromJsonAsync<JsonObject>($"/api/inspections/{number}"))!;
        Assert.Equal("withdrawn", record["standing"]!.GetValue<string>());
        Assert.Equal("undo", Assert.Single(record["rulings"]!.AsArray())!["decision"]!.GetValue<string>());

        var found = station.Services.GetRequiredService<InspectionLookup>()
            .ByNumber(new InspectionNumber("LANTERN", 1))! with
        { Rulings = [] };
        var at = found.Inspection.At;
        Assert.True(Rulings.CanUndo(found, found.Inspection.By.Person, at.AddMinutes(10), isPrinted: true));
        Assert.False(Rulings.CanUndo(found, found.Inspection.By.Person, at.AddMinutes(10).AddSeconds(1), isPrinted: true));
        Assert.True(Rulings.CanUndo(found, found.Inspection.By.Person, at.AddHours(12), isPrinted: false));
        Assert.False(Rulings.CanUndo(found, found.Inspection.By.Person, at.AddHours(12).AddSeconds(1), isPrinted: false));
        Assert.False(Rulings.CanUndo(found, PersonId.New(), at, isPrinted: false));
    }

    [Fact]
    public async Task Slip_Printed_IsKnownFromTheFirstTimeOn()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        var number = (await inspector.Recorded(SampleSheets.Legal()))["number"]!.GetValue<string>();
        var services = station.Services;
        var seq = services.GetRequiredService<InspectionLookup>().ByNumber(new InspectionNumber("LANTERN", 1))!.Seq;
        var prints = services.GetRequiredService<SlipPrints>();

        var before = prints.IsPrinted(seq);
        using var refused = await inspector.GetAsync($"/api/inspections/{number}/slip.pdf?stock=vellum");
        var after = prints.IsPrinted(seq);
        using var printed = await inspector.GetAsync($"/api/inspections/{number}/slip.pdf");
        using var again = await inspector.GetAsync($"/api/inspections/{number}/slip.pdf");

        Assert.Equal((false, false, true), (before, after, prints.IsPrinted(seq)));
        Assert.Equal((HttpStatusCode.OK, HttpStatusCode.OK), (printed.StatusCode, again.StatusCode));
        Assert.Equal(["Ida Morrowgate", "Ida Morrowgate"], prints.Of(seq).Select(print => print.By));
        using var first = PdfDocument.Open(await printed.Content.ReadAsByteArrayAsync());
        using var second = PdfDocument.Open(await again.Content.ReadAsByteArrayAsync());
        Assert.DoesNotContain("again", first.GetPage(1).Text, StringComparison.Ordinal);
        Assert.Contains("Printed", second.GetPage(1).Text, StringComparison.Ordinal);
        Assert.Contains("again", second.GetPage(1).Text, StringComparison.Ordinal);
        var page = await inspector.GetPage($"/inspections/{number}");
        Assert.Contains("by Ida Morrowgate; ", page.QuerySelector("main")!.Words(), StringComparison.Ordinal);
    }

    // Undone by who typed it: the form comes back with what was typed, and the new record names the one it corrects.
    [Fact]
    public async Task Undo_ThenRecordedAnew_KeepsWhatWasTypedAndNamesTheOldRecord()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        using var director = await station.Client("director");
        var recorded = await inspector.Recorded(SampleSheets.TooHeavyOnTheLeft());
        var number = recorded["number"]!.GetValue<string>();
        var page = await inspector.GetPage($"/inspections/{number}");
        using var taken = await inspector.Send(
            page.QuerySelector<IHtmlFormElement>("details.undo form")!, ("reason", "A quarter, not three"));
        var address = taken.Headers.Location!.ToString();

        var form = await inspector.GetPage(address);
        Assert.Equal("3.25 oz", form.QuerySelector<IHtmlInputElement>("[name='weights.leftRight']")!.Value);
        Assert.True(form.QuerySelector<IHtmlInputElement>("[name='weights.leftRight.side'][value=left]")!.IsChecked);
        Assert.Empty((await director.GetPage(address)).QuerySelector<IHtmlInputElement>("[name='weights.leftRight']")!.Value);

        using var judged = await inspector.Send(
            form.QuerySelector<IHtmlFormElement>("main form.station")!, ("weights.leftRight", "0.25"), ("act", "judge"));
        using var done = await inspector.Send(
            (await judged.Read()).QuerySelector<IHtmlFormElement>("main form.station")!, ("act", "record"));
        Assert.Equal(HttpStatusCode.Redirect, done.StatusCode);
        var anew = (await inspector.GetFromJsonAsync<JsonObject>($"/api{done.Headers.Location}"))!;

        Assert.Equal("pass", anew["verdict"]!["outcome"]!.GetValue<string>());
        Assert.Equal("-0.25 oz", anew["sheet"]!["weights"]!["leftRight"]!.GetValue<string>());
        Assert.Equal(
            "superseded", (await inspector.GetFromJsonAsync<JsonObject>($"/api/inspections/{number}"))!["standing"]!.GetValue<string>());
        var (before, after) = (SampleSheets.TooHeavyOnTheLeft(), anew["sheet"]!.AsObject());
        foreach (var kept in new[] { "grip", "ball", "marks", "size", "hardness", "holes" })
        {
            Assert.True(JsonNode.DeepEquals(before[kept], after[kept]), $"{kept}: {after[kept]}");
        }
    }
}
