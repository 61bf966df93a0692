using System.Globalization;
using Inspect.Station.Decide;
using Inspect.Station.Prepare;
using Inspect.Station.Slip;

namespace Inspect.Station.Papers;

/// <summary>Sets the open list of an event on paper, with a box to tick for each ball.</summary>
internal static class OpenListPaper
{
    private const double BoxPt = 9;

    /// <summary>Renders the list.</summary>
    /// <param name="held">The event.</param>
    /// <param name="list">Which inspections are open.</param>
    /// <param name="items">What is open of each.</param>
    /// <param name="printedAt">When, by the clock at the venue.</param>
    /// <param name="registerSize">Entries in the register.</param>
    /// <param name="size">The sheet.</param>
    public static RenderedPaper Render(
        Event held, OpenList list, IReadOnlyList<OpenItem> items, DateTimeOffset printedAt, long registerSize, PaperSize size)
    {
        var at = printedAt.ToString("d MMMM yyyy, HH:mm", CultureInfo.InvariantCulture);
        return PaperDocument.Render(
            size,
            new PaperEdges(
                $"Open at {held.Name}", $"Open list, {held.Name}", at, $"Made from a {SlipWords.RegisterOf(registerSize)}"),
            (paper, width) => Body(paper, held, list, items, at, width));
    }

    private static List<SlipRow> Body(SlipPaper paper, Event held, OpenList list, IReadOnlyList<OpenItem> items, string at, double width)
    {
        List<SlipRow> rows = [.. PaperRows.Title(paper, $"{held.Name}, {EventWords.Days(held)}", $"Open at {at}", width)];
        if (items.Count == 0)
        {
            rows.AddRange(PaperRows.Text(paper, list.WhenNothing, width));
        }

        foreach (var group in items.GroupBy(item => item.Group))
        {
            rows.AddRange(PaperRows.Heading(string.Create(CultureInfo.InvariantCulture, $"{group.Key.Title} ({group.Count():N0})"), width));
            rows.AddRange(PaperRows.Text(paper, group.Key.Sentence, width).Select(row => row with { KeepsNext = true }));
            rows.AddRange(Boxes(PaperTable.Rows(
                paper,
                [new PaperColumn("", 0.04), new PaperColumn("Entry and ball", 0.31), new PaperColumn("What is open", 0.39),
                    new PaperColumn("What settles it", 0.26)],
                group.Select(item => new[]
                {
                    "", $"{item.Entry} {item.Bowler ?? "name struck"}\n{item.Ball}\n{item.Number}", string.Join("\n", item.Points),
                    item.Settles,
                }),
                width)));
        }

        return rows;
    }

    // A box before each line except the head, the row that is repeated.
    private static IEnumerable<SlipRow> Boxes(IEnumerable<SlipRow> rows) => rows.Select(row => row.Again is null ? row : row with
    {
        Draw = (sheet, at) =>
        {
            row.Draw(sheet, at);
            sheet.Frame(at.X, at.Y + 3.5, BoxPt, BoxPt, 0.8);
        },
    });
}
