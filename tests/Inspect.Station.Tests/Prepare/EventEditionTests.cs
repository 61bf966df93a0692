using System.Net;
using System.Text.Json.Nodes;
using AngleSharp.Html.Dom;
using Inspect.Station.Prepare;
using Inspect.Station.Storage;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Record;
using Microsoft.Extensions.DependencyInjection;

namespace Inspect.Station.Tests.Prepare;

/// <summary>An event fixed to an edition that was corrected since keeps it until its director says otherwise.</summary>
/// <remarks>The plus mark is for a ball that has no thumb hole: USBC Equipment Specifications and Certifications Manual,
/// January 2021. The event is invented.</remarks>
public sealed class EventEditionTests
{
    private const string Old = "us-national/2020-08-01";
    private const string Revision = "us-national/2020-08-01.2";

    [Fact]
    public async Task Event_FixedToACorrectedEdition_KeepsItUntilItsDirectorConfirmsTheRevision()
    {
        await using var station = await Fixed(Old);
        using var director = await station.Client("director");
        var before = await director.Recorded(ThumbOut());
        var slip = await director.GetByteArrayAsync(before["links"]!["slip"]!.GetValue<string>());
        var record = await director.GetByteArrayAsync($"/api/inspections/{before["number"]}");

        var told = await director.GetPage("/events/LANTERN");
        var rules = await director.GetPage("/events/LANTERN/rules");
        Assert.Contains("has been corrected", told.QuerySelector("#corrected")!.TextContent, StringComparison.Ordinal);
        Assert.Contains("no thumb hole", rules.QuerySelector("#revision")!.ParentElement!.TextContent, StringComparison.Ordinal);
        Assert.Equal(Old, before["verdict"]!["edition"]!["id"]!.GetValue<string>());
        Assert.Equal(["grip-hole-use", "palm-mark"], Fails(before));

        using var unticked = await director.Send(Form(rules), ("useRevision", ""));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, unticked.StatusCode);
        Assert.Contains("Tick the box", (await unticked.Read()).FaultAt("useRevision")!, StringComparison.Ordinal);
        Assert.Equal(Old, (await director.Recorded(ThumbOut()))["verdict"]!["edition"]!["id"]!.GetValue<string>());

        using var used = await director.Send(Form(rules), ("useRevision", "yes"));
        var after = await director.Recorded(ThumbOut());
        var changed = await director.GetPage("/events/LANTERN/rules");

        Assert.Equal(HttpStatusCode.Found, used.StatusCode);
        Assert.Equal(Revision, after["verdict"]!["edition"]!["id"]!.GetValue<string>());
        Assert.Equal(["grip-hole-use"], Fails(after));
        Assert.Null(changed.QuerySelector("#revision"));
        Assert.Contains(
            $"Hollis Vantreight moved this event from {Old} to {Revision}", changed.Body!.TextContent, StringComparison.Ordinal);
        Assert.Equal(record, await director.GetByteArrayAsync($"/api/inspections/{before["number"]}"));
        Assert.Equal(Words(slip), Words(await director.GetByteArrayAsync(before["links"]!["slip"]!.GetValue<string>())));
    }

    [Fact]
    public async Task UseRevision_PressedTwice_ChangesTheEventOnce()
    {
        await using var station = await Fixed(Old);
        using var director = await station.Client("director");
        var form = Form(await director.GetPage("/events/LANTERN/rules"));

        using var first = await director.Send(form, ("useRevision", "yes"));
        using var second = await director.Send(form, ("useRevision", "yes"));

        Assert.Equal((HttpStatusCode.Found, HttpStatusCode.UnprocessableEntity), (first.StatusCode, second.StatusCode));
        using var connection = station.Services.GetRequiredService<Database>().OpenForReading();
        Assert.Single(EventEdition.ChangesOf(connection, "LANTERN"));
    }

    [Theory]
    [InlineData(Revision)]
    [InlineData(null)]
    public async Task Event_OfTheRevisionOrOfNoEdition_IsToldNothing(string? edition)
    {
        await using var station = await Fixed(edition);
        using var director = await station.Client("director");

        Assert.Null((await director.GetPage("/events/LANTERN")).QuerySelector("#corrected"));
        Assert.Null((await director.GetPage("/events/LANTERN/rules")).QuerySelector("#revision"));
        Assert.Equal(Revision, (await director.Recorded(ThumbOut()))["verdict"]!["edition"]!["id"]!.GetValue<string>());
    }

    [Fact]
    public async Task Replay_UnderRevisions_NamesTheRecordedVerdictsTheyWouldChange()
    {
        await using var station = await Fixed(Old);
        using var director = await station.Client("director");
        var thumb = await director.Recorded(ThumbOut());
        await director.Recorded(SampleSheets.Legal());

        var page = await director.GetPage("/desk/replay?event=LANTERN&edition=revised");

        Assert.Contains("2 judged again", page.Body!.TextContent, StringComparison.Ordinal);
        var row = Assert.Single(page.QuerySelectorAll("table.replayed tbody tr"));
        Assert.Contains(thumb["number"]!.GetValue<string>(), row.TextContent, StringComparison.Ordinal);
        Assert.Contains(Revision, row.TextContent, StringComparison.Ordinal);
        Assert.Contains("not met to no such rule", row.TextContent, StringComparison.Ordinal);
    }

    /// <summary>The demo event, fixed to an edition from the start.</summary>
    private static async Task<StationFixture> Fixed(string? edition)
    {
        var station = new StationFixture();
        await station.Services.GetRequiredService<WriteGate>().Run(write =>
            Dapper.SqlMapper.Execute(write.Connection, "UPDATE event SET edition = @edition", new { edition }, write.Transaction));
        return station;
    }

    private static JsonObject ThumbOut()
    {
        var sheet = SampleSheets.Legal();
        sheet["grip"]!["digits"] = new JsonArray("middle", "ring");
        sheet["marks"]!["palmMarks"] = 0;
        return sheet;
    }

    private static string[] Fails(JsonObject recorded) => [.. recorded["verdict"]!["findings"]!.AsArray()
        .Where(finding => finding!["outcome"]!.GetValue<string>() == "fail")
        .Select(finding => finding!["rule"]!.GetValue<string>()).Distinct().Order()];

    private static IHtmlFormElement Form(AngleSharp.Dom.IDocument page) => page.QuerySelectorAll("main form").OfType<IHtmlFormElement>()
        .Single(form => form.GetAttribute("action") == "/events/LANTERN/rules/edition");

    /// <summary>What a slip says of the ball; its foot names the register's state when it was printed, and that it was printed
    /// again.</summary>
    private static string Words(byte[] pdf)
    {
        using var document = UglyToad.PdfPig.PdfDocument.Open(pdf);
        var text = string.Concat(document.GetPages().Select(page => page.Text)).Split("register of")[0];
        return System.Text.RegularExpressions.Regex.Replace(text, @"Printed again on[^.]*\.", "");
    }
}
