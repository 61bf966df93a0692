namespace Inspect.Station.Slip;

/// <summary>A strip across the page that is never split: a line of text, a line of the table, a line across.</summary>
/// <param name="HeightPt">Its height in points.</param>
/// <param name="Draw">Draws it with its top left corner at the given point.</param>
internal sealed record SlipRow(double HeightPt, Action<SlipPaper, Spot> Draw)
{
    /// <summary>Whether it must be on the same page as the next row, as a heading is.</summary>
    public bool KeepsNext { get; init; }

    /// <summary>The row that is repeated above this one when it begins a further page.</summary>
    public SlipRow? Again { get; init; }

    /// <summary>Empty paper.</summary>
    public static SlipRow Space(double heightPt) => new(heightPt, (_, _) => { });

    /// <summary>A line across, with a little space on both sides.</summary>
    public static SlipRow Rule(double width, double stroke) =>
        new(stroke + 3, (paper, at) => paper.Rectangle(at.X, at.Y + 1.5, width, stroke));

    /// <summary>A paragraph as one row for each line, indented by <paramref name="indent"/>.</summary>
    public static IEnumerable<SlipRow> Paragraph(SlipPaper paper, IReadOnlyList<Run> runs, double size, double width, double indent = 0) =>
        SlipText.Wrap(paper, runs, size, width - indent).Select(line => new SlipRow(
            size * SlipText.Leading,
            (sheet, at) => SlipText.Draw(sheet, line, size, new Spot(at.X + indent, at.Y + (size * SlipText.Ascent)))));

    /// <summary>A section's heading, in white on black where the section must not be missed.</summary>
    public static SlipRow Heading(string text, double size, double width) => new(
        (size * SlipText.Leading) + 4,
        (paper, at) =>
        {
            paper.Text(text, Weight.Bold, size, new Spot(at.X, at.Y + 2 + (size * SlipText.Ascent)));
            paper.Rectangle(at.X, at.Y + (size * SlipText.Leading) + 2.6, width, 0.7);
        })
    { KeepsNext = true };

    /// <summary>Divides rows into pages of the given height. A heading stays with the row after it, and repeated rows
    /// head each further page.</summary>
    public static List<List<SlipRow>> Fill(List<SlipRow> rows, double room)
    {
        var pages = new List<List<SlipRow>> { new() };
        var left = room;
        for (var i = 0; i < rows.Count; i++)
        {
            var needed = rows[i].HeightPt;
            for (var next = i; rows[next].KeepsNext && next + 1 < rows.Count; next++)
            {
                needed += rows[next + 1].HeightPt;
            }

            if (needed > left && pages[^1].Count > 0)
            {
                pages.Add([]);
                left = room;
                if (rows[i].Again is { } again)
                {
                    pages[^1].Add(again);
                    left -= again.HeightPt;
                }
            }

            pages[^1].Add(rows[i]);
            left -= rows[i].HeightPt;
        }

        return pages;
    }
}
