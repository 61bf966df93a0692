using System.Globalization;

namespace Inspect.Station.Slip;

/// <summary>A stretch of text in one weight.</summary>
internal readonly record struct Run(string Text, Weight Weight);

/// <summary>Breaks text into lines that fit, between words, or within a word that is wider than the line. Nothing is cut off.</summary>
internal static class SlipText
{
    /// <summary>The smallest letters on a slip, in points: 17 dots high on a 203 dpi label.</summary>
    public const double LeastSize = 6;

    /// <summary>From base line to base line, as a share of the size.</summary>
    public const double Leading = 1.2;

    /// <summary>From the top of a line to its base line, as a share of the size.</summary>
    public const double Ascent = 0.92;

    /// <summary>The lines of one text in one weight.</summary>
    public static IReadOnlyList<string> Lines(SlipPaper paper, string text, Weight weight, double size, double width)
    {
        var whole = string.Join(' ', paper.Words(text));
        return paper.WidthOf(whole, weight, size) <= width
            ? [whole]
            : [.. Wrap(paper, [new Run(text, weight)], size, width).Select(line => line.Count == 0 ? "" : line[0].Text)];
    }

    /// <summary>The lines of several runs in a row. Neighbours of the same weight in a line are joined.</summary>
    public static IReadOnlyList<IReadOnlyList<Run>> Wrap(SlipPaper paper, IReadOnlyList<Run> runs, double size, double width)
    {
        var lines = new List<IReadOnlyList<Run>>();
        var line = new List<Run>();
        var used = 0.0;
        foreach (var (piece, weight) in runs.SelectMany(run => Pieces(paper, run, size, width)))
        {
            var space = line.Count == 0 ? 0 : paper.WidthOf(" ", weight, size);
            var wide = paper.WidthOf(piece, weight, size);
            if (line.Count > 0 && used + space + wide > width)
            {
                lines.Add(line);
                (line, used, space) = ([], 0, 0);
            }

            Add(line, piece, weight);
            used += space + wide;
        }

        lines.Add(line);
        return lines;
    }

    /// <summary>The largest size, in half points, at which the text fits in one line, or the smallest if none does.</summary>
    public static double SizeFor(SlipPaper paper, string text, Weight weight, double largest, double least, double width)
    {
        var settable = SlipPaper.Settable(text);
        var size = largest;
        while (size > least && paper.WidthOf(settable, weight, size) > width)
        {
            size -= 0.5;
        }

        return Math.Max(size, least);
    }

    /// <summary>Sets a line of runs from the left.</summary>
    public static void Draw(SlipPaper paper, IReadOnlyList<Run> line, double size, Spot at)
    {
        var x = at.X;
        foreach (var run in line)
        {
            paper.Text(run.Text, run.Weight, size, at with { X = x });
            x += paper.WidthOf(run.Text + " ", run.Weight, size);
        }
    }

    private static void Add(List<Run> line, string piece, Weight weight)
    {
        if (line.Count > 0 && line[^1].Weight == weight)
        {
            line[^1] = new Run($"{line[^1].Text} {piece}", weight);
        }
        else
        {
            line.Add(new Run(piece, weight));
        }
    }

    private static IEnumerable<Run> Pieces(SlipPaper paper, Run run, double size, double width)
    {
        foreach (var word in paper.Words(run.Text))
        {
            var rest = word;
            while (paper.WidthOf(rest, run.Weight, size) > width)
            {
                var fitting = Fitting(paper, rest, run.Weight, size, width);
                yield return new Run(rest[..fitting], run.Weight);
                rest = rest[fitting..];
            }

            if (rest.Length > 0)
            {
                yield return new Run(rest, run.Weight);
            }
        }
    }

    // As many whole letters, accents included, as fit, and at least one.
    private static int Fitting(SlipPaper paper, string word, Weight weight, double size, double width)
    {
        var starts = StringInfo.ParseCombiningCharacters(word);
        var fitting = starts.Length > 1 ? starts[1] : word.Length;
        foreach (var start in starts.Skip(2))
        {
            if (paper.WidthOf(word[..start], weight, size) > width)
            {
                break;
            }

            fitting = start;
        }

        return fitting;
    }
}
