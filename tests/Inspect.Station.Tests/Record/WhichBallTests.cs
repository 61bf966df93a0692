using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using Dapper;
using Inspect.Station.Record;
using Inspect.Station.Storage;
using Inspect.Station.Tests.Ground;
using Microsoft.Extensions.DependencyInjection;
using static Inspect.Station.Tests.Record.WhichBallSteps;

namespace Inspect.Station.Tests.Record;

/// <summary>Which ball it was: serials that look alike, the work done to it, what its form carries on. The
/// behaviour is defined by this project.</summary>
public sealed class WhichBallTests
{
    [Fact]
    public async Task Rebuild_TagsAndPhotographs_GivesTheSameIndexes()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        await Tagged(inspector, "S-0042", "101");
        await Tagged(inspector, "S-0043", "102");
        using var sent = await Photograph(inspector, Jpeg);
        var before = Dump(station);

        await station.Services.GetRequiredService<WriteGate>().Run(write =>
        {
            write.Connection.Execute("DELETE FROM tag_index; DELETE FROM photograph_index", null, write.Transaction);
            RegisterIndex.Rebuild(write, Tags.Index, Photographs.Index);
            return 0;
        });

        Assert.Equal(before, Dump(station));
        Assert.Equal(3, before.Count);
    }

    [Theory]
    [InlineData("9QF3I207", "102", "Serial 9QF3I207 looks like 9QF31207 of entry 101, LANTERN-0001: read it again.")]
    [InlineData(
        "9QF31207", "102", "Serial 9QF31207 was recorded for entry 101 as well, LANTERN-0001: look at both balls before either is used.")]
    [InlineData("9QF31207", "101", "Serial 9QF31207 was recorded as another ball of this entry, LANTERN-0001: if it is the same ball, "
        + "open that record and measure it again from there.")]
    [InlineData("9QF31208", "102", null)]
    public async Task Serial_ThatLooksLikeAnother_IsPointedOutAndNeverRefused(string serial, string entry, string? sentence)
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        await inspector.Recorded(SampleSheets.Legal(), "101");
        var sheet = SampleSheets.Legal();
        sheet["ball"]!["serial"] = serial;

        await inspector.Recorded(sheet, entry);

        var notes = (await inspector.GetPage("/inspections/LANTERN-0002")).QuerySelectorAll("p.overruled").Select(Html.Words);
        Assert.Equal(sentence is null ? [] : [sentence], notes);
    }

    [Fact]
    public async Task Again_WithWorkDone_ShowsWhatChangedAndKeepsTheTextApart()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        await inspector.Recorded(SampleSheets.TooHeavyOnTheLeft());
        var request = With(
            With(SampleSheets.Request(SampleSheets.Legal()), "supersedes", "LANTERN-0001"), "workDone", "Vent hole plugged by Ferris");

        using var again = await inspector.Record(request);

        Assert.Equal(HttpStatusCode.Created, again.StatusCode);
        var page = await inspector.GetPage("/inspections/LANTERN-0002");
        Assert.Contains("Work done: Vent hole plugged by Ferris", page.QuerySelector(".since")!.Words(), StringComparison.Ordinal);
        Assert.Equal(
            ["Left or right | 3.25 oz left | 0.5 oz right | +3.75 oz the event states no uncertainty"],
            page.QuerySelectorAll(".since tbody tr").Select(
                row => string.Join(" | ", row.Children.Select(
                    cell => string.Join(' ', cell.ChildNodes.Select(node => node.TextContent.Trim()).Where(text => text.Length > 0))))));
        var body = Entries(station, "inspection").Last();
        Assert.DoesNotContain("Ferris", body.ToJsonString(), StringComparison.Ordinal);
        Assert.Equal(64, body["workDone"]!.GetValue<string>().Length);
        Assert.Equal(
            "Vent hole plugged by Ferris",
            (await inspector.GetFromJsonAsync<JsonObject>("/api/inspections/LANTERN-0002"))!["workDone"]!.GetValue<string>());

        // Struck, the text is gone from everywhere and the record stands.
        await station.Services.GetRequiredService<WriteGate>()
            .Run(write => write.Connection.Execute("DELETE FROM remark", null, write.Transaction));
        Assert.Contains(
            "was struck", (await inspector.GetPage("/inspections/LANTERN-0002")).QuerySelector(".since")!.Words(),
            StringComparison.Ordinal);
    }

    [Fact]
    public async Task WorkDone_OnABallSeenForTheFirstTime_IsRefused()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");

        using var answer = await inspector.Record(With(SampleSheets.Request(SampleSheets.Legal()), "workDone", "Sanded"));

        Assert.Equal(
            "Work done is recorded only for a ball that is measured again; give the inspection that this one replaces in supersedes.",
            await answer.ProblemAt("workDone"));
    }

    [Fact]
    public async Task Form_OfABallMeasuredAgain_CarriesTheTagAndTakesTheWorkDone()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        await Tagged(inspector, "S-0042", "101");
        var page = await inspector.GetPage("/events/LANTERN/entries/101/balls/new?supersedes=LANTERN-0001");
        Assert.Equal("S-0042", page.QuerySelector<IHtmlInputElement>("#tag")!.Value);
        Assert.Null((await inspector.GetPage("/events/LANTERN/entries/101/balls/new")).QuerySelector("#workDone"));

        using var judged = await inspector.Send(Form(page), ("workDone", "Sanded"), ("act", "judge"));
        using var recorded = await inspector.Send(Form(await judged.Read()), ("act", "record"));

        Assert.Equal("/inspections/LANTERN-0002", recorded.Headers.Location!.ToString());
        var answer = (await inspector.GetFromJsonAsync<JsonObject>("/api/inspections/LANTERN-0002"))!;
        Assert.Equal(("S-0042", "Sanded"), (answer["tag"]!.GetValue<string>(), answer["workDone"]!.GetValue<string>()));
    }

    [Fact]
    public async Task Form_WithATagInUseAndALookAlike_SaysBothAndLosesNothing()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        await Tagged(inspector, "S-0042", "101");
        var page = await inspector.GetPage("/events/LANTERN/entries/102/balls/new");

        using var judged = await inspector.Send(Form(page), ("tag", "S-0042"), ("ball.serial", "9QF3I207"), ("act", "judge"));
        var verdict = await judged.Read();
        Assert.StartsWith("Serial 9QF3I207 looks like", verdict.QuerySelector("#outcome p.overruled")!.Words(), StringComparison.Ordinal);
        using var refused = await inspector.Send(Form(verdict), ("act", "record"));

        var again = await refused.Read();
        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.StatusCode);
        Assert.Equal("Tag \"S-0042\" is on the ball of LANTERN-0001; give this ball another one, or look at both.", again.FaultAt("tag"));
        Assert.Equal(("S-0042", "9QF3I207"), (
            again.QuerySelector<IHtmlInputElement>("#tag")!.Value, again.QuerySelector<IHtmlInputElement>("#ball-serial")!.Value));
    }

    private static IHtmlFormElement Form(IDocument page)
    {
        var form = page.QuerySelector<IHtmlFormElement>("main form.station")!;
        form.SetAttribute("action", form.GetAttribute("data-live")!.Replace("/live", "/new", StringComparison.Ordinal));
        return form;
    }

    private static List<string> Dump(StationFixture station)
    {
        using var connection = station.Services.GetRequiredService<Database>().OpenForReading();
        return [.. connection.Query<string>(
            """
            SELECT seq || event || tag || tag_key FROM tag_index
            UNION ALL SELECT seq || inspection || sha256 || media_type || by_person || at FROM photograph_index
            """)];
    }
}
