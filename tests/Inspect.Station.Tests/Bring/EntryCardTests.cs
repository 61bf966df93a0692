using System.Net;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using Inspect.Station.Prepare;
using Inspect.Station.Queue;
using Inspect.Station.Record;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Slip;
using Microsoft.Extensions.DependencyInjection;
using UglyToad.PdfPig;

namespace Inspect.Station.Tests.Bring;

/// <summary>The cards of entries on paper, read back as text and as codes by independent readers (PdfPig, pdftoppm with zbarimg). The
/// layout is defined by this project.</summary>
public sealed class EntryCardTests(SharedStation shared) : IClassFixture<SharedStation>
{
    private const string Cards = "/events/LANTERN/cards";

    [Fact]
    public async Task Cards_OfASquad_HaveEveryEntryOnceAndCodesThatFindIt()
    {
        using var inspector = await shared.Station.Client("inspector");
        var events = shared.Station.Services.GetRequiredService<Events>();
        var squad = events.EntriesOf("LANTERN").Where(entry => entry.Squad == "A").ToList();

        using var printed = await inspector.Send(await inspector.GetPage(Cards), ("squad", "A"));
        using var links = await inspector.Send(await Csv(inspector), ("squad", "A"));

        Assert.Equal("application/pdf", printed.Content.Headers.ContentType!.MediaType);
        var pdf = await printed.Content.ReadAsByteArrayAsync();
        using var document = PdfDocument.Open(pdf);
        Assert.Equal((squad.Count + 7) / 8, document.NumberOfPages);
        var text = string.Concat(document.GetPages().Select(page => page.Text)).Replace(" ", "", StringComparison.Ordinal);
        var table = (await links.Content.ReadAsStringAsync()).Split("\r\n", StringSplitOptions.RemoveEmptyEntries);
        Assert.Equal("entry,bowler,squad,link", table[0]);
        Assert.Equal(squad.Select(entry => entry.Number), table.Skip(1).Select(row => row.Split(',')[0]));
        Assert.All(squad, entry => Assert.Contains(
            $"{entry.Number}{entry.Bowler}SquadA,".Replace(" ", "", StringComparison.Ordinal), text, StringComparison.Ordinal));

        // Each code by itself finds the entry whose link has it, whichever way the scanner's keyboard is set.
        var search = shared.Station.Services.GetRequiredService<BowlerSearch>();
        foreach (var row in table.Skip(1).Select(row => row.Split(',')))
        {
            var found = search.Find(events.Find("LANTERN")!, row[^1].Replace(':', 'Ö').Replace('/', '&'));
            Assert.Equal(row[0], Assert.Single(found.Matches).Number);
            Assert.True(found.IsSure);
        }
    }

    [Theory]
    [InlineData("a4")]
    [InlineData("letter")]
    public async Task CardOfOneEntry_IsReadBackByAScannerAndStaysTheSame(string paper)
    {
        using var inspector = await shared.Station.Client("inspector");
        var page = await inspector.GetPage($"{Cards}?entry=103");
        Assert.Equal("103", page.QuerySelector<IHtmlInputElement>("#entry")!.Value);

        using var first = await inspector.Send(page, ("paper", paper));
        using var again = await inspector.Send(page, ("paper", paper));

        var codes = new List<string>();
        foreach (var answer in (HttpResponseMessage[])[first, again])
        {
            codes.Add(PrintedPage.All(await answer.Content.ReadAsByteArrayAsync(), 150)[0].ReadQr());
        }

        Assert.Equal(codes[0], codes[1]);
        Assert.Matches("^HTTP://LOCALHOST(:[0-9]+)?/E/[0-9A-Z]{14}$|^HTTP://127.0.0.1(:[0-9]+)?/E/[0-9A-Z]{14}$", codes[0]);
        Assert.True(SlipCode.TryParse(codes[0][^14..], out var code));
        Assert.Equal(new EntryAddress("LANTERN", "103"), shared.Station.Services.GetRequiredService<EntryCards>().Find(code));
    }

    [Fact]
    public async Task Cards_OfNobody_SayWhatIsWrong()
    {
        using var inspector = await shared.Station.Client("inspector");
        var page = await inspector.GetPage(Cards);

        using var noEntry = await inspector.Send(page, ("entry", "9999"));
        using var noSquad = await inspector.Send(page, ("squad", "Z"));
        using var noPaper = await inspector.Send(page, ("paper", "a5"));

        Assert.Equal(HttpStatusCode.UnprocessableEntity, noEntry.StatusCode);
        Assert.Equal("There is no entry \"9999\" in Quillhaven Lantern Open.", (await noEntry.Read()).FaultAt("entry"));
        Assert.Equal(
            "There is no squad \"Z\" in Quillhaven Lantern Open; choose one from the list.", (await noSquad.Read()).FaultAt("squad"));
        Assert.Equal("\"a5\" is not a paper size known here; choose A4 or Letter.", (await noPaper.Read()).FaultAt("paper"));
    }

    /// <summary>A name in a script that the font lacks: its letters are squares, the paper's other cards are unharmed, and the number finds
    /// the bowler.</summary>
    [Fact]
    public void Card_WithALongName_KeepsItsCodeClear()
    {
        var card = new Inspect.Station.Papers.EntryCard(
            "Quillhaven Lantern Open with an endless name that has to be set smaller than the others are", "1234567890",
            string.Join(' ', Enumerable.Repeat("Wilhelmina-Theodora", 12)), "A, Saturday 28 November, 09:30",
            "HTTPS://INSPECT.EXAMPLE.ORG/E/7K2M0419XQ3PA9");

        var printed = Inspect.Station.Papers.EntryCardPaper.Render(Inspect.Station.Papers.PaperSize.A4, [card]);

        Assert.Equal(card.Address, PrintedPage.All(printed.Pdf, 150)[0].ReadQr());
    }

    /// <summary>The measuring form on paper: every box that the form has open, one sheet for each ball of the list.</summary>
    [Fact]
    public async Task Sheets_ForABowlerWithAList_HaveABallEachAndTheBoxesOfTheForm()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        foreach (var serial in (string[])["9QF31207", "7TT01884"])
        {
            using var added = await inspector.Send(
                (await inspector.GetPage("/events/LANTERN/entries/103/balls/list"))
                    .QuerySelector<IHtmlFormElement>("form[action$='/balls/list']")!,
                ("ball.serial", serial));
        }

        var form = (await inspector.GetPage(Cards)).QuerySelector<IHtmlFormElement>("form[action$='sheets.pdf']")!;

        using var ofBowler = await inspector.Send(form, ("sheets.entry", "103"));
        using var ofSquad = await inspector.Send(form, ("sheets.squad", "A"), ("sheets", "1"));
        using var blank = await inspector.Send(form, ("sheets", "3"), ("sheets.paper", "letter"));
        using var none = await inspector.Send(form, ("sheets", "0"));

        var pages = await Texts(ofBowler);
        Assert.Equal(2, pages.Count);
        Assert.All(pages.Zip(["9QF31207", "7TT01884"]), page => Assert.Contains(page.Second, page.First, StringComparison.Ordinal));
        Assert.All(
            (string[])["Gross weight", .. Inspect.Sheets.Catalogue.Imbalances.Select(member => member.Label), "Thumb", "Middle", "Ring",
                "Depth", "Diameter", "Circumference", "Hardness", .. Inspect.Sheets.Catalogue.Seen.Select(member => member.Label),
                "Time", "Inspector"],
            label => Assert.Contains(label.Replace(" ", "", StringComparison.Ordinal), pages[0], StringComparison.Ordinal));
        Assert.Equal(
            shared.Station.Services.GetRequiredService<Events>().EntriesOf("LANTERN").Count(entry => entry.Squad == "A"),
            (await Texts(ofSquad)).Count);
        Assert.Equal(3, (await Texts(blank)).Count);
        Assert.Equal("\"0\" is not a number of sheets from 1 to 40.", (await none.Read()).FaultAt("sheets"));
    }

    private static async Task<List<string>> Texts(HttpResponseMessage answer)
    {
        using var document = PdfDocument.Open(await answer.Content.ReadAsByteArrayAsync());
        return [.. document.GetPages().Select(page => page.Text.Replace(" ", "", StringComparison.Ordinal))];
    }

    private static async Task<IHtmlFormElement> Csv(HttpClient client)
    {
        var form = (await client.GetPage(Cards)).QuerySelector<IHtmlFormElement>("main form")!;
        form.SetAttribute("action", $"{Cards}.csv");
        return form;
    }
}
