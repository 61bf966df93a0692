using Inspect.Station.Slip;

namespace Inspect.Station.Papers;

/// <summary>A column of a table.</summary>
/// <param name="Title">Its head.</param>
/// <param name="Share">How much of the width it takes; the shares of all are set in proportion.</param>
/// <param name="IsRight">Whether its figures end at its right edge.</param>
/// <param name="Weight">The font weight of its cells.</param>
internal sealed record PaperColumn(string Title, double Share, bool IsRight = false, Weight Weight = Weight.Medium);

/// <summary>A table: a cell takes as many lines as it needs, a row is never split over pages, and the head is
/// repeated on each page.</summary>
internal static class PaperTable
{
    private const double Gap = 8;
    private const double Air = 2.6;
    private const double Hairline = 0.3;
    private const double HeadPt = 7.5;

    /// <summary>The head and one row for each line; nothing when there are no lines.</summary>
    public static IEnumerable<SlipRow> Rows(
        SlipPaper paper, IReadOnlyList<PaperColumn> columns, IEnumerable<IReadOnlyList<string>> lines, double width,
        double size = PaperDocument.TextPt)
    {
        var places = Places(columns, width);
        var head = Line(paper, columns, places, [.. columns.Select(column => column.Title)], HeadPt, width, isHead: true);
        var isFirst = true;
        foreach (var line in lines)
        {
            if (isFirst)
            {
                yield return head;
                isFirst = false;
            }

            yield return Line(paper, columns, places, line, size, width, isHead: false) with { Again = head };
        }
    }

    private static List<(double Start, double Width)> Places(IReadOnlyList<PaperColumn> columns, double width)
    {
        var room = width - (Gap * (columns.Count - 1));
        var all = columns.Sum(column => column.Share);
        var places = new List<(double, double)>();
        var start = 0.0;
        foreach (var column in columns)
        {
            places.Add((start, room * column.Share / all));
            start += (room * column.Share / all) + Gap;
        }

        return places;
    }

    private static SlipRow Line(
        SlipPaper paper, IReadOnlyList<PaperColumn> columns, List<(double Start, double Width)> places, IReadOnlyList<string> cells,
        double size,
        double width, bool isHead)
    {
        var texts = cells.Select((cell, i) => cell.Split('\n')
            .SelectMany(part => SlipText.Lines(paper, part, WeightOf(i), size, places[i].Width)).ToList()).ToList();
        var height = (texts.Max(lines => lines.Count) * size * SlipText.Leading) + (2 * Air);
        return new SlipRow(height, (sheet, at) =>
        {
            for (var i = 0; i < texts.Count; i++)
            {
                for (var line = 0; line < texts[i].Count; line++)
                {
                    var text = texts[i][line];
                    var x = at.X + places[i].Start + (columns[i].IsRight ? places[i].Width - sheet.WidthOf(text, WeightOf(i), size) : 0);
                    sheet.Text(text, WeightOf(i), size, new Spot(x, at.Y + Air + (size * (SlipText.Ascent + (line * SlipText.Leading)))));
                }
            }

            sheet.Rectangle(at.X, at.Y + height - Hairline, width, isHead ? 0.7 : Hairline);
        })
        { KeepsNext = isHead };

        Weight WeightOf(int column) => isHead ? Weight.Bold : columns[column].Weight;
    }
}
