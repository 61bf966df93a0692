using System.Net;
using System.Security.Cryptography;
using System.Text.Json.Nodes;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using Inspect.Ledger;
using Inspect.Station.Storage;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Record;
using Microsoft.Extensions.DependencyInjection;
using UglyToad.PdfPig;

namespace Inspect.Station.Tests.Papers;

/// <summary>Closing reports as they are issued: which was the last, and whether a file is one of them. The
/// behaviour is defined by this project.</summary>
public sealed class IssuedReportTests
{
    private const string Reports = "/desk/events/LANTERN/reports";

    [Fact]
    public async Task Issue_Pressed_KeepsTheFileAndItsHashInTheRegister()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        await director.Recorded(SampleSheets.Legal());
        var head = station.Services.GetRequiredService<WriteGate>().Head;

        using var issued = await director.Send(await director.GetPage(Reports), ("paper", "a4"));
        Assert.Equal($"{Reports}#LANTERN-R000001", issued.Headers.Location?.ToString());
        var pdf = await director.GetByteArrayAsync($"{Reports}/LANTERN-R000001.pdf");
        var body = await director.GetByteArrayAsync("/api/register/entries/2.json");
        var entry = JsonNode.Parse(body)!;

        // The hash of the file, by the framework; the state it was made at, from before it was asked for.
        Assert.Equal(Convert.ToHexStringLower(SHA256.HashData(pdf)), entry["sha256"]!.GetValue<string>());
        Assert.Equal(("report", "LANTERN-R000001", 1L), (
            entry["kind"]!.GetValue<string>(), entry["report"]!.GetValue<string>(), entry["entries"]!.GetValue<long>()));
        Assert.Equal(head.Edge.Root.ToString(), entry["root"]!.GetValue<string>());
        Assert.DoesNotContain("Hollis", entry.ToJsonString(), StringComparison.Ordinal);
        using var document = PdfDocument.Open(pdf);
        Assert.Equal(595.28, document.GetPage(1).Width, 1);
        var export = new MemoryStream(await director.GetByteArrayAsync("/api/register.jsonl"));
        Assert.True(RegisterCheck.Check(export).IsSound);
    }

    [Fact]
    public async Task Issue_PressedTwiceOrInTwoTabs_IssuesOne()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        var first = await director.GetPage(Reports);
        var second = await director.GetPage(Reports);

        using var issued = await director.Send(first);
        using var refused = await director.Send(second);

        Assert.Equal((HttpStatusCode.Redirect, HttpStatusCode.UnprocessableEntity), (issued.StatusCode, refused.StatusCode));
        var page = await refused.Read();
        Assert.Contains("A report was issued in the meantime", page.Body!.TextContent, StringComparison.Ordinal);
        Assert.Single(page.QuerySelectorAll(".open-list > li"));
        Assert.Equal(1, station.Services.GetRequiredService<WriteGate>().Head.Size);
    }

    [Fact]
    public async Task Page_AfterAnotherBall_SaysThatTheReportIsNotWholeAndWhichOneCounts()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        using var first = await director.Send(await director.GetPage(Reports));
        Assert.Contains(
            "Nothing was recorded at this event since LANTERN-R000000 was made.", await Text(director), StringComparison.Ordinal);

        await director.Recorded(SampleSheets.Legal());
        Assert.Contains(
            "Since LANTERN-R000000 was made, 1 inspection and 0 rulings were recorded", await Text(director), StringComparison.Ordinal);
        using var second = await director.Send(await director.GetPage(Reports));

        var standing = (await director.GetPage(Reports)).QuerySelectorAll(".open-list .who")
            .Select(who => string.Join(' ', who.TextContent.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)));
        Assert.Equal(["LANTERN-R000002 (PDF)counts", "LANTERN-R000000 (PDF)replaced by LANTERN-R000002"], standing);
    }

    [Fact]
    public async Task File_HeldAgainstThem_IsKnownByteForByteAlsoOnceItWasStruck()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        using var issued = await director.Send(await director.GetPage(Reports));
        var pdf = await director.GetByteArrayAsync($"{Reports}/LANTERN-R000000.pdf");
        var altered = pdf.ToArray();
        altered[^20] ^= 1;

        Assert.Contains("byte for byte what was issued", await Held(director, pdf), StringComparison.Ordinal);
        Assert.Contains("It is the last one: it counts.", await Held(director, pdf), StringComparison.Ordinal);
        Assert.Contains("No report issued by this station has the bytes", await Held(director, altered), StringComparison.Ordinal);
        Assert.Contains("No report issued by this station", await Held(
            director, await director.GetByteArrayAsync("/desk/events/LANTERN/closing-report.pdf")), StringComparison.Ordinal);
        Assert.Contains("Choose the PDF file of a closing report.", await Held(director, []), StringComparison.Ordinal);

        var strike = (await director.GetPage(Reports))
            .QuerySelectorAll("form").OfType<IHtmlFormElement>().Single(form => form.Action.EndsWith("/strike", StringComparison.Ordinal));
        using var struck = await director.Send(strike);
        using var gone = await director.GetAsync($"{Reports}/LANTERN-R000000.pdf");
        Assert.Equal(HttpStatusCode.NotFound, gone.StatusCode);
        Assert.Contains("byte for byte what was issued", await Held(director, pdf), StringComparison.Ordinal);
        Assert.Contains("counts, file struck", await Text(director), StringComparison.Ordinal);
    }

    /// <summary>Sent to a station that listens: the server's own limits count too.</summary>
    [Fact]
    public async Task File_OfSeveralMegabytes_IsCheckedAndNotRefused()
    {
        await using var station = new StationFixture().Listen();
        using var director = await station.Client("director");

        Assert.Contains(
            "No report issued by this station has the bytes", await Held(director, new byte[3 * 1024 * 1024]), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Draft_Printed_SaysThatItIsOneAndBearsNoNumber()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");

        using var document = PdfDocument.Open(await director.GetByteArrayAsync("/desk/events/LANTERN/closing-report.pdf"));
        var text = string.Concat(document.GetPages().Select(page => page.Text)).Replace(" ", "", StringComparison.Ordinal);

        Assert.Contains("draft,notissued", text, StringComparison.Ordinal);
        Assert.DoesNotContain("LANTERN-R", text, StringComparison.Ordinal);
        Assert.DoesNotContain("Signature", text, StringComparison.Ordinal);
        Assert.Equal(0, station.Services.GetRequiredService<WriteGate>().Head.Size);
    }

    [Fact]
    public async Task Reports_AskedForByAnInspectorOrOfNoEvent_AreRefused()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        using var inspector = await station.Client("inspector");

        using var nowhere = await director.GetAsync("/desk/events/NOSUCH/reports");
        using var refused = await inspector.GetAsync(Reports);
        var page = await director.GetPage(Reports);
        using var paper = await director.Send(page, ("paper", "a5"));

        Assert.Equal(HttpStatusCode.NotFound, nowhere.StatusCode);
        Assert.NotEqual(HttpStatusCode.OK, refused.StatusCode);
        Assert.StartsWith("\"a5\"", (await paper.Read()).FaultAt("paper"), StringComparison.Ordinal);
    }

    private static async Task<string> Text(HttpClient client) => Squeezed((await client.GetPage(Reports)).Body!);

    private static async Task<string> Held(HttpClient client, byte[] file)
    {
        var form = (await client.GetPage(Reports))
            .QuerySelectorAll("form").OfType<IHtmlFormElement>().Single(form => form.Action.EndsWith("/check", StringComparison.Ordinal));
        using var content = new MultipartFormDataContent();
        foreach (var field in form.QuerySelectorAll<IHtmlInputElement>("input[type=hidden]"))
        {
            content.Add(new StringContent(field.Value), field.Name!);
        }

        content.Add(new ByteArrayContent(file), "file", "report.pdf");
        using var answer = await client.PostAsync($"{Reports}/check", content);
        return Squeezed((await answer.Read()).Body!);
    }

    private static string Squeezed(IElement element) =>
        string.Join(' ', element.TextContent.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
}
