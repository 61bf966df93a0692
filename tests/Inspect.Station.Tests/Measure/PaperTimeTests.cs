using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Record;
using Microsoft.Extensions.DependencyInjection;

namespace Inspect.Station.Tests.Measure;

/// <summary>Readings that were written on paper and typed in later: the record has both times. Common practice of inspection bodies, no
/// source.</summary>
public sealed class PaperTimeTests(SharedStation shared) : IClassFixture<SharedStation>
{
    [Fact]
    public async Task Form_WithTheTimeOnTheSheet_RecordsWhenItWasMeasured()
    {
        await using var station = new StationFixture();
        using var client = await station.Client("inspector");
        var yesterday = StationClock.Today.AddDays(-1).ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture);
        var page = await client.GetPage(TypedBall.Page);
        (string, string)[] typed = [.. TypedBall.Legal, ("paper.day", yesterday), ("paper.time", "2:05 pm")];
        using var judged = await client.Send(page, [.. typed, ("act", "judge")]);

        using var recorded = await client.Send(await judged.Read(), ("act", "record"));

        Assert.Equal(HttpStatusCode.Redirect, recorded.StatusCode);
        var number = recorded.Headers.Location!.ToString().Split('/')[^1];
        var held = station.Services.GetRequiredService<Inspect.Station.Prepare.Events>().Find("LANTERN")!;
        var local = StationClock.Today.AddDays(-1).ToDateTime(new TimeOnly(14, 5));
        var expected = new DateTimeOffset(local, TimeZoneInfo.FindSystemTimeZoneById(held.TimeZone).GetUtcOffset(local));
        using var director = await station.Client("director");
        var body = await director.GetFromJsonAsync<JsonNode>("/api/register/entries/1.json");
        Assert.Equal(expected, DateTimeOffset.Parse((string)body!["measuredAt"]!, System.Globalization.CultureInfo.InvariantCulture));
        var said = local.ToString("d MMMM yyyy, HH:mm", System.Globalization.CultureInfo.InvariantCulture);
        Assert.EndsWith($"measured {said}", (await client.GetPage($"/inspections/{number}")).QuerySelector(".overline")!.Words(),
            StringComparison.Ordinal);
        using var slip = await client.GetAsync($"/api/inspections/{number}/slip.pdf?stock=a6");
        using var document = UglyToad.PdfPig.PdfDocument.Open(await slip.Content.ReadAsByteArrayAsync());
        Assert.Contains(
            "Measured", string.Concat(document.GetPages().Select(sheet => sheet.Text)), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Record_TakenBack_HasTheTimeOfTheSheetAgain()
    {
        await using var station = new StationFixture();
        using var client = await station.Client("inspector");
        using var judged = await client.Send(
            await client.GetPage(TypedBall.Page),
            [.. TypedBall.Legal, ("paper.day", SampleSheets.Today), ("paper.time", "00:01"), ("act", "judge")]);
        using var recorded = await client.Send(await judged.Read(), ("act", "record"));

        using var undone = await client.Send(
            (await client.GetPage(recorded.Headers.Location!.ToString())).QuerySelector<IHtmlFormElement>("form[action$='/undo']")!,
            ("reason", "Wrong depth"));

        var again = await client.GetPage(undone.Headers.Location!.ToString());
        Assert.Equal("00:01", again.Typed("paper.time"));
        Assert.Equal("15 lb 1 oz", again.Typed("weights.gross"));
    }

    [Theory]
    [InlineData("", "14:05", "paper-day", "Write the day that stands on the sheet.")]
    [InlineData("2026-11-01", "25:00", "paper-time", "\"25:00\" is not a time of day; write it as 14:05 or 2:05 pm.")]
    [InlineData("2027-02-30", "14:05", "paper-day", "\"2027-02-30\" is not a day; write it as 2027-03-14.")]
    [InlineData("2026-11-01", "", "paper-time", "Write the time that stands on the sheet, as 14:05 or 2:05 pm.")]
    [InlineData("2999-01-01", "09:00", "paper-time", "1 January 2999, 09:00 is still to come; write when the ball was measured.")]
    public async Task Form_WithATimeThatCannotBe_SaysSoAndRecordsNothing(string day, string time, string field, string sentence)
    {
        using var client = await shared.Station.Client("inspector");
        var page = await client.GetPage(TypedBall.Page);

        using var judged = await client.Send(page, [.. TypedBall.Legal, ("paper.day", day), ("paper.time", time), ("act", "judge")]);
        var answer = await judged.Read();
        using var recorded = await client.Send(answer, ("act", "record"));

        Assert.Equal(HttpStatusCode.UnprocessableEntity, recorded.StatusCode);
        Assert.Equal(sentence, answer.FaultAt(field));
        Assert.Equal(time, answer.Typed("paper.time"));
    }
}
