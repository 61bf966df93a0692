using System.Net;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Inspect.Ledger;
using Inspect.Station.Storage;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Record;
using Inspect.Station.Tests.Slip;
using Microsoft.Extensions.DependencyInjection;
using UglyToad.PdfPig;

namespace Inspect.Station.Tests.Papers;

/// <summary>The papers beside the slips, read back as text and as dots and compared with the records they speak of.</summary>
public sealed partial class PapersTests(SharedStation shared) : IClassFixture<SharedStation>
{
    private const string Closing = "/desk/events/LANTERN/closing-report.pdf";

    /// <summary>What an inspection report carries: ISO/IEC 17020:2012, 7.4.2.</summary>
    [Fact]
    public async Task ClosingReport_OfAFewBalls_SaysWhatTheRecordsSay()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        using var inspector = await station.Client("inspector");
        var passed = await inspector.Recorded(SampleSheets.Legal());
        var failed = await inspector.Recorded(SampleSheets.TooHeavyOnTheLeft(), "102");
        var again = SampleSheets.Request(SampleSheets.Legal(), "102");
        again["supersedes"] = failed["number"]!.GetValue<string>();
        using var replacing = await inspector.Record(again);
        Assert.Equal(HttpStatusCode.Created, replacing.StatusCode);
        var replacement = JsonNode.Parse(await replacing.Content.ReadAsStringAsync())!;
        var open = SampleSheets.Legal();
        open["size"]!.AsObject().Remove("circumference");
        var held = await director.Recorded(open, "103");
        var head = station.Services.GetRequiredService<WriteGate>().Head;

        var page = await director.GetPage("/desk/events/LANTERN/reports");
        using var issuing = await director.Send(page);
        Assert.Equal(HttpStatusCode.Redirect, issuing.StatusCode);
        var (text, pages) = await Read(director, $"/desk/events/LANTERN/reports/LANTERN-R{head.Size:000000}.pdf");

        var edition = passed["verdict"]!["edition"]!;
        var key = station.Services.GetRequiredService<StationKey>().Public;
        Assert.All(
            [
                $"LANTERN-R{head.Size:000000}", "Hollis Vantreight, director", "Quillhaven Lantern Open",
                "3 bowling balls of an event with 24 entries, in 4 inspections",
                edition["id"]!.GetValue<string>(), edition["sha256"]!.GetValue<string>(), "simple acceptance",
                "conform: every rule that was checked is met2",
                "undecided: something is open1", "Side weight1 of 41 % to 81 %0",
                "Circumference0 of 40 % to 60 %1", "Fail1 of 425 %1 % to 81 %", "Ida Morrowgate3", "Hollis Vantreight1",
                $"{failed["number"]}Fail{replacement["number"]}Pass", $"{held["number"]}103UndecidedNot measured: circumference.",
                "All days4211",
                head.Edge.Root.ToString(), key.Fingerprint, "Signature, Hollis Vantreight, director",
            ],
            said => Assert.Contains(Squash(said), text, StringComparison.Ordinal));
        Assert.True(pages > 0);

        // The signature on the paper is good for the root on the paper.
        var signature = SignatureShape().Match(text).Groups["signature"].Value;
        var note = $"{new Checkpoint(key.Name, head.Size, head.Edge.Root).Text}\n— {key.Name} {signature}\n";
        Assert.True(Checkpoint.TryParse(note, out _, out var signed));
        Assert.True(signed.IsSignedBy(key));
    }

    [Fact]
    public async Task ClosingReport_OfAnEventWithoutABall_SaysSo()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        using var inspector = await station.Client("inspector");

        var (text, pages) = await Read(director, Closing);
        using var refused = await inspector.GetAsync(Closing);

        Assert.InRange(pages, 1, 2);
        Assert.Contains(Squash("No ball was inspected at this event."), text, StringComparison.Ordinal);
        Assert.NotEqual(HttpStatusCode.OK, refused.StatusCode);
    }

    [Fact]
    public async Task BowlerSheet_OfManyBalls_HasEachOnceAndEveryCodeReads()
    {
        const int Many = 62;
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        var answers = new List<JsonObject>();
        for (var i = 0; i < Many; i++)
        {
            var sheet = i % 4 == 3 ? SampleSheets.TooHeavyOnTheLeft() : SampleSheets.Legal();
            sheet["ball"]!["serial"] = $"7KB{i:00000}";
            answers.Add(await inspector.Recorded(sheet, "104"));
        }

        using var answer = await inspector.GetAsync("/events/LANTERN/entries/104/sheet.pdf?paper=a4");
        var pdf = await answer.Content.ReadAsByteArrayAsync();
        using var document = PdfDocument.Open(pdf);
        var texts = document.GetPages().Select(page => Squash(page.Text)).ToList();
        var whole = string.Concat(texts);
        var codes = PrintedPage.All(pdf, 150).SelectMany(page => page.ReadQrColumn(page.Width * 8 / 10)).ToList();

        Assert.True(texts.Count > 3);
        Assert.All(texts.Select((text, i) => (text, i)), page => Assert.Contains(
            $"page{page.i + 1}of{texts.Count}", page.text, StringComparison.Ordinal));
        Assert.Contains(Squash("Nguyễn Thị Bích Khuê"), whole, StringComparison.Ordinal);
        Assert.All(answers, recorded => Assert.Single(Regex.Matches(whole, $"slip{recorded["number"]}·")));
        Assert.Equal(answers.Count(recorded => recorded["verdict"]!["outcome"]!.GetValue<string>() == "fail"), Regex.Count(
            whole, Regex.Escape(Squash("Side weight: 3.25 oz left, allowed at most 3 oz, margin -0.25 oz."))));
        Assert.Equal(
            answers.Select(recorded => recorded["code"]!.GetValue<string>()).Order(),
            codes.Select(code => code[(code.LastIndexOf('/') + 1)..]).Order());
    }

    [Fact]
    public async Task BowlerSheet_OfAReplacedAndAWithdrawnBall_CarriesNoCodeOfThem()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        using var director = await station.Client("director");
        var failed = await inspector.Recorded(SampleSheets.TooHeavyOnTheLeft());
        var again = SampleSheets.Request(SampleSheets.Legal());
        again["supersedes"] = failed["number"]!.GetValue<string>();
        using var replacing = await inspector.Record(again);
        var withdrawn = await inspector.Recorded(SampleSheets.Legal());
        using var ruling = new HttpRequestMessage(HttpMethod.Post, $"/api/inspections/{withdrawn["number"]}/rulings")
        {
            Content = new StringContent(
                """{ "decision": "withdraw", "reason": "Typed under the wrong ball." }""", System.Text.Encoding.UTF8, "application/json"),
        };
        ruling.Headers.Add("Idempotency-Key", "k1");
        using var ruled = await director.SendAsync(ruling);
        Assert.Equal(HttpStatusCode.Created, ruled.StatusCode);

        using var answer = await inspector.GetAsync("/events/LANTERN/entries/101/sheet.pdf");
        var pdf = await answer.Content.ReadAsByteArrayAsync();
        using var document = PdfDocument.Open(pdf);
        var text = Squash(document.GetPage(1).Text);

        Assert.EndsWith(
            JsonNode.Parse(await replacing.Content.ReadAsStringAsync())!["code"]!.GetValue<string>(), PrintedPage.All(pdf, 150)[0].ReadQr(),
            StringComparison.Ordinal);
        Assert.Contains(Squash($"Replaced before{failed["number"]}"), text, StringComparison.Ordinal);
        Assert.Contains(Squash("Typed under the wrong ball."), text, StringComparison.Ordinal);
        Assert.Contains(Squash("slip does not count"), text, StringComparison.Ordinal);
        Assert.Equal(612, document.GetPage(1).Width);
    }

    [Fact]
    public async Task OpenList_OnPaper_HasWhatThePageHas()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        using var director = await station.Client("director");
        var passed = await inspector.Recorded(SampleSheets.Legal());
        var failed = await inspector.Recorded(SampleSheets.TooHeavyOnTheLeft(), "120");
        var page = await director.GetPage("/desk/events/LANTERN/open");

        var (text, _) = await Read(director, "/desk/events/LANTERN/open.pdf?paper=a4");

        var reason = failed["verdict"]!["findings"]!
            .AsArray().Single(finding => finding!["outcome"]!.GetValue<string>() == "fail")!["reason"]!.GetValue<string>();
        Assert.Contains(reason, page.Body!.TextContent, StringComparison.Ordinal);
        Assert.Contains(Squash(reason), text, StringComparison.Ordinal);
        Assert.Contains(Squash("120 Oṣunkẹmi Balewande"), text, StringComparison.Ordinal);
        Assert.Contains(failed["number"]!.GetValue<string>(), text, StringComparison.Ordinal);
        Assert.DoesNotContain(passed["number"]!.GetValue<string>(), text, StringComparison.Ordinal);
    }

    /// <summary>A4 is 210 x 297 mm (ISO 216), Letter 8 1/2 x 11 in (ANSI/ASME Y14.1).</summary>
    [Theory]
    [InlineData("?paper=a4", 595.28, 841.89)]
    [InlineData("?paper=letter", 612, 792)]
    [InlineData("", 612, 792)]
    public async Task Papers_OfASize_AreThatSize(string query, double width, double height)
    {
        var station = shared.Station;
        using var director = await station.Client("director");

        using var answer = await director.GetAsync(Closing + query);
        using var document = PdfDocument.Open(await answer.Content.ReadAsByteArrayAsync());

        Assert.Equal(width, document.GetPage(1).Width, 1);
        Assert.Equal(height, document.GetPage(1).Height, 1);
    }

    [Fact]
    public async Task Papers_OfAnUnknownSizeEventOrEntry_SayWhatWouldBeRight()
    {
        var station = shared.Station;
        using var director = await station.Client("director");

        using var size = await director.GetAsync(Closing + "?paper=a5");
        using var nowhere = await director.GetAsync("/desk/events/NOSUCH/open.pdf");
        using var nobody = await director.GetAsync("/events/LANTERN/entries/999/sheet.pdf");

        Assert.Equal(HttpStatusCode.UnprocessableEntity, size.StatusCode);
        Assert.Contains(
            "\"a5\" is not a paper size known here; choose a4 or letter.", (await size.Read()).Body!.TextContent, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NotFound, nowhere.StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, nobody.StatusCode);
    }

    private static async Task<(string Text, int Pages)> Read(HttpClient client, string path)
    {
        using var answer = await client.GetAsync(path);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Equal("application/pdf", answer.Content.Headers.ContentType?.MediaType);
        using var document = PdfDocument.Open(await answer.Content.ReadAsByteArrayAsync());
        return (Squash(string.Concat(document.GetPages().Select(page => page.Text))), document.NumberOfPages);
    }

    // What stands between words in a PDF is not always a space.
    private static string Squash(string text) => string.Concat(text.Normalize().Where(letter => !char.IsWhiteSpace(letter)));

    [GeneratedRegex("—inspect/[0-9a-f]{16}(?<signature>[A-Za-z0-9+/]+=*)Anyone")]
    private static partial Regex SignatureShape();
}
