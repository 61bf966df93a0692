using System.Globalization;
using System.Text;
using Inspect.Station.Papers;
using Inspect.Station.Prepare;
using Inspect.Station.Slip;
using Inspect.Station.Tests.Slip;
using UglyToad.PdfPig;

namespace Inspect.Station.Tests.Papers;

/// <summary>Long papers: no line is lost or broken over pages, and a table's head stands on each of them.</summary>
public class PaperDocumentTests
{
    [Theory]
    [InlineData("a4")]
    [InlineData("letter")]
    public void Render_ATableOfManyLines_HeadsEachPageAndKeepsEachLine(string name)
    {
        const int Lines = 300;
        Assert.True(PaperSize.TryFind(name, "us-national", out var size));
        PaperColumn[] columns = [new("Ball", 0.3), new("Found", 0.5), new("Count", 0.2, IsRight: true)];

        var rendered = PaperDocument.Render(size, new PaperEdges("Test", "Somewhere", "No. 1", "foot"), (paper, width) => PaperTable.Rows(
            paper, columns, Enumerable.Range(1, Lines).Select(
                i => new[] { $"line-{i:000}", i % 7 == 0 ? string.Join(' ', Enumerable.Repeat("found", 40)) : "ok", $"{i}" }), width));

        using var document = PdfDocument.Open(rendered.Pdf);
        var pages = document.GetPages().ToList();
        Assert.Equal(rendered.Pages, pages.Count);
        Assert.True(pages.Count > 5);
        Assert.All(pages, page =>
        {
            Assert.Contains("Found", page.Text, StringComparison.Ordinal);
            Assert.Contains("Somewhere", page.Text, StringComparison.Ordinal);
            Assert.All(page.Letters, letter =>
            {
                Assert.InRange(letter.Location.X, 44, size.WidthPt - 44);
                Assert.InRange(letter.Location.Y, 44, size.HeightPt - 44);
            });
        });
        var whole = string.Concat(pages.Select(page => page.Text));
        Assert.All(Enumerable.Range(1, Lines), i => Assert.Equal(2, whole.Split($"line-{i:000}").Length));
        Assert.Equal(40 * (Lines / 7), whole.Split("found").Length - 1);
    }

    [Fact]
    public void Render_AHeadingAtTheFootOfAPage_GoesWithWhatItHeads()
    {
        for (var before = 40; before < 56; before++)
        {
            var rendered = PaperDocument.Render(PaperSize.Letter, new PaperEdges("Test", "", "No. 1", ""), (paper, width) =>
            [
                .. Enumerable.Range(0, before).SelectMany(_ => PaperRows.Text(paper, "filler", width)),
                .. PaperRows.Heading("The heading", width),
                .. PaperTable.Rows(paper, [new PaperColumn("Head", 1)], [["first"], ["second"]], width),
            ]);

            using var document = PdfDocument.Open(rendered.Pdf);
            var page = Assert.Single(document.GetPages(), each => each.Text.Contains("The heading", StringComparison.Ordinal));
            Assert.Contains("first", page.Text, StringComparison.Ordinal);
        }
    }

    /// <summary>Text that can be copied out may still be drawn without its marks: each mark of a name
    /// is ink of its own on the paper.</summary>
    [Fact]
    public void Text_NamesWithMarks_AreDrawnWithThem()
    {
        // The dot of an i gives way to its mark, so its ink may stay the same.
        var marked = DemoEvent.Entries.SelectMany(entry => entry.Bowler).Distinct()
            .Select(letter => letter.ToString())
            .Where(letter => Plain(letter) is var plain && plain != letter && plain is not ("i" or "j")).ToList();
        Assert.True(marked.Count > 10);
        using var paper = new SlipPaper("Names");
        foreach (var letter in marked.SelectMany(name => new[] { name, Plain(name) }))
        {
            paper.NewPage(72, 72);
            paper.Text(SlipPaper.Settable(letter), Weight.Bold, 40, new Spot(16, 46));
        }

        var inks = PrintedPage.All(paper.Save(), 144).Select(page =>
            Enumerable.Range(0, page.Height).Sum(y => Enumerable.Range(0, page.Width).Count(x => page[x, y] < 128))).ToList();

        Assert.All(marked.Select((name, i) => (name, More: inks[2 * i] - inks[(2 * i) + 1])), each => Assert.True(
            each.More > 25, $"{each.name}: {each.More} dots"));
        Assert.Empty(paper.Lacking);

        static string Plain(string letter) => string.Concat(
            letter.Normalize(NormalizationForm.FormD)
                .Where(each => CharUnicodeInfo.GetUnicodeCategory(each) != UnicodeCategory.NonSpacingMark));
    }

    [Fact]
    public void Render_ALetterTheFontLacks_IsNamedOnThePaper()
    {
        var rendered = PaperDocument.Render(
            PaperSize.A4, new PaperEdges("Test", "", "", ""), (paper, width) => PaperRows.Text(paper, "高 Łucja", width));

        using var document = PdfDocument.Open(rendered.Pdf);
        Assert.Equal(["U+9AD8"], rendered.Lacking);
        Assert.Contains("U+9AD8", document.GetPage(1).Text, StringComparison.Ordinal);
    }
}
