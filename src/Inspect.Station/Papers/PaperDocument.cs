using Inspect.Station.Slip;

namespace Inspect.Station.Papers;

/// <summary>The running head and foot of every page.</summary>
/// <param name="Title">What the paper is: the document's title.</param>
/// <param name="Head">At the top left: whose event.</param>
/// <param name="Number">At the top right: which paper.</param>
/// <param name="Foot">At the bottom left.</param>
internal sealed record PaperEdges(string Title, string Head, string Number, string Foot);

/// <summary>A paper as PDF.</summary>
/// <param name="Pdf">The document's bytes. They differ from one rendering to the next: hash only bytes that are kept.</param>
/// <param name="Pages">How many pages it has.</param>
/// <param name="Lacking">Letters that the font lacks. A solid square is printed for each, and the paper says so.</param>
public sealed record RenderedPaper(byte[] Pdf, int Pages, IReadOnlyList<string> Lacking);

/// <summary>Sets rows on as many pages as they need, with running heads and page x of y.</summary>
internal static class PaperDocument
{
    /// <summary>The size of running text.</summary>
    public const double TextPt = 9;

    /// <summary>The size of the running heads and feet.</summary>
    public const double EdgePt = 7.5;

    private const double MarginPt = 45;

    private const double GapPt = 8;

    /// <summary>Renders a paper.</summary>
    /// <param name="size">The sheet.</param>
    /// <param name="edges">The running head and foot of every page.</param>
    /// <param name="body">Makes its rows from the paper, to measure text on, and their width.</param>
    public static RenderedPaper Render(PaperSize size, PaperEdges edges, Func<SlipPaper, double, IEnumerable<SlipRow>> body)
    {
        using var paper = new SlipPaper(SlipPaper.Settable(edges.Title));
        var width = size.WidthPt - (2 * MarginPt);
        var edge = (EdgePt * SlipText.Leading) + 4;
        var room = size.HeightPt - (2 * (MarginPt + edge + GapPt));
        List<SlipRow> rows = [.. body(paper, width)];
        if (paper.Lacking.Count > 0)
        {
            rows.Add(SlipRow.Space(TextPt));
            rows.AddRange(SlipRow.Paragraph(paper, [new Run(SlipWords.Lacking(paper.Lacking), Weight.Medium)], TextPt, width));
        }

        var pages = SlipRow.Fill(rows, room);
        for (var i = 0; i < pages.Count; i++)
        {
            paper.NewPage(size.WidthPt, size.HeightPt);
            Edge(paper, edges.Head, edges.Number, MarginPt, width, isHead: true);
            var y = MarginPt + edge + GapPt;
            foreach (var row in pages[i])
            {
                row.Draw(paper, new Spot(MarginPt, y));
                y += row.HeightPt;
            }

            Edge(paper, edges.Foot, $"page {i + 1} of {pages.Count}", size.HeightPt - MarginPt - edge, width, isHead: false);
        }

        return new RenderedPaper(paper.Save(), pages.Count, paper.Lacking);
    }

    private static void Edge(SlipPaper paper, string left, string right, double top, double width, bool isHead)
    {
        var end = SlipPaper.Settable(right);
        var room = width - paper.WidthOf(end, Weight.Bold, EdgePt) - GapPt;
        var start = SlipText.Lines(paper, left, Weight.Medium, EdgePt, room)[0];
        var baseline = top + (EdgePt * SlipText.Ascent) + (isHead ? 0 : 4);
        paper.Text(start, Weight.Medium, EdgePt, new Spot(MarginPt, baseline));
        paper.Text(end, Weight.Bold, EdgePt, new Spot(MarginPt + width - paper.WidthOf(end, Weight.Bold, EdgePt), baseline));
        paper.Rectangle(MarginPt, isHead ? top + (EdgePt * SlipText.Leading) + 3 : top, width, 0.7);
    }
}
