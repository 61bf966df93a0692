namespace Inspect.Station.Slip;

/// <summary>Prints a line for each finding: rule, reading, limit, margin, and a mark or, for a fail or a hold, the word.</summary>
/// <remarks>A slip is laid out several times; the lines of one size are set once.</remarks>
internal sealed class FindingTable(SlipPaper paper, SlipContent content, double width)
{
    // Larger letters would only break the rules' names into two lines.
    private const double LargestPt = 7;

    private const double Gap = 5;
    private const double Narrow = 220;

    // One dot of the printer.
    private const double Hairline = 0.2;

    // Tighter than running text, because hairlines separate the lines.
    private const double Leading = 1.1;

    private readonly Dictionary<double, List<SlipRow>> _rows = [];

    /// <summary>The heading and the lines of all findings, in the order given; nothing without findings.</summary>
    public IReadOnlyList<SlipRow> Rows(double size)
    {
        size = Math.Min(size, LargestPt);
        if (!_rows.TryGetValue(size, out var rows))
        {
            rows = content.Findings.Count == 0 ? [] : [.. Set(size)];
            _rows.Add(size, rows);
        }

        return rows;
    }

    private IEnumerable<SlipRow> Set(double size)
    {
        var columns = Columns.Of(paper, content.Findings, size, width);
        var heading = Heading(paper, SlipWords.Count(content), columns, Math.Max(size, 7));
        yield return heading;
        foreach (var finding in Joined(content.Findings))
        {
            var line = width < Narrow ? Stacked(paper, finding, columns, size) : Line(paper, finding, columns, size);
            yield return line with { Again = heading };
        }
    }

    // Holes of which a rule says the same stand in one line.
    private static IEnumerable<SlipFinding> Joined(IReadOnlyList<SlipFinding> findings) => findings
        .GroupBy(finding => finding.Outcome == SlipOutcome.Pass ? finding with { Subject = "", Reason = null } : finding)
        .Select(alike => alike.First() with { Subject = string.Join(", ", alike.Select(finding => finding.Subject)) });

    private static SlipRow Heading(SlipPaper paper, string count, Columns columns, double size)
    {
        const double TitleSize = SlipText.LeastSize;
        var heading = SlipRow.Heading(count, size, columns.Width);
        if (columns.Width < Narrow)
        {
            return heading;
        }

        var readingStart = columns.ReadingEnd - paper.WidthOf("Reading", Weight.Medium, TitleSize);
        var own = paper.WidthOf(count, Weight.Bold, size) + Gap > readingStart ? TitleSize * SlipText.Leading : 0;
        return new SlipRow(heading.HeightPt + own, (sheet, at) =>
        {
            heading.Draw(sheet, at);
            var y = at.Y + 2 + (size * SlipText.Ascent) + (own == 0 ? 0 : own + 3);
            Right(sheet, "Reading", Weight.Medium, TitleSize, at.X + columns.ReadingEnd, y);
            Right(sheet, "Limit", Weight.Medium, TitleSize, at.X + columns.LimitEnd, y);
            Right(sheet, "Margin", Weight.Medium, TitleSize, at.X + columns.MarginEnd, y);
        })
        { KeepsNext = true };
    }

    // The reading ends at its column's right edge and may reach left as far as the rule's name leaves room.
    private static SlipRow Line(SlipPaper paper, SlipFinding finding, Columns columns, double size)
    {
        var weight = WeightOf(finding);
        var name = SlipPaper.Settable(SlipWords.NameOf(finding));
        var reading = SlipPaper.Settable(finding.Measured ?? "\u2013");
        var readingRoom = Math.Max(columns.ReadingEnd * 0.4, columns.ReadingEnd - Gap - paper.WidthOf(name, weight, size));
        var readings = SlipText.Lines(paper, reading, weight, size, readingRoom);
        var nameRoom = columns.ReadingEnd - Gap - readings.Max(line => paper.WidthOf(line, weight, size));
        var names = SlipText.Lines(paper, name, weight, size, nameRoom);
        var limits = SlipText.Lines(paper, finding.Limit ?? "\u2013", weight, size, columns.Limit);
        var margins = SlipText.Lines(paper, finding.Margin ?? "\u2013", weight, size, columns.Margin);
        var height = Math.Max(Math.Max(names.Count, readings.Count), Math.Max(limits.Count, margins.Count)) * size * Leading;
        return new SlipRow(height, (sheet, at) =>
        {
            Cell(names, text => 0);
            Cell(readings, text => columns.ReadingEnd - sheet.WidthOf(text, weight, size));
            Cell(limits, text => columns.LimitEnd - sheet.WidthOf(text, weight, size));
            Cell(margins, text => columns.MarginEnd - sheet.WidthOf(text, weight, size));

            Mark(sheet, finding.Outcome, size, at.X + columns.Width, at.Y);
            sheet.Rectangle(at.X, at.Y + height - Hairline, columns.Width, Hairline);

            void Cell(IReadOnlyList<string> lines, Func<string, double> start)
            {
                for (var i = 0; i < lines.Count; i++)
                {
                    sheet.Text(lines[i], weight, size, new Spot(at.X + start(lines[i]), at.Y + (size * (SlipText.Ascent + (i * Leading)))));
                }
            }
        });
    }

    private static SlipRow Stacked(SlipPaper paper, SlipFinding finding, Columns columns, double size)
    {
        var weight = WeightOf(finding);
        var measured = SlipPaper.Settable(finding.Measured ?? "\u2013");
        var marks = MarkWidth(paper, finding.Outcome, size) + Gap;
        var isOnOneLine = paper.WidthOf(measured, weight, size) <= columns.Width * 0.4;
        var reading = isOnOneLine ? paper.WidthOf(measured, weight, size) + Gap : 0;
        var name = SlipText.Lines(paper, SlipWords.NameOf(finding), weight, size, columns.Width - marks - reading);
        var figures = string.Join(" \u00B7 ", new[]
        {
            isOnOneLine ? null : measured,
            finding.Limit is { } limit ? $"limit {limit}" : null,
            finding.Margin is { } margin ? $"margin {margin}" : null,
        }.OfType<string>());
        var second = figures.Length == 0 ? [] : SlipText.Lines(paper, figures, Weight.Medium, size, columns.Width - 8);
        var height = ((name.Count + second.Count) * size * Leading) + 1.2;
        return new SlipRow(height, (sheet, at) =>
        {
            var baseline = at.Y + (size * SlipText.Ascent);
            for (var i = 0; i < name.Count; i++)
            {
                sheet.Text(name[i], weight, size, new Spot(at.X, baseline + (i * size * Leading)));
            }

            if (isOnOneLine)
            {
                Right(sheet, measured, weight, size, at.X + columns.Width - marks, baseline);
            }

            for (var i = 0; i < second.Count; i++)
            {
                sheet.Text(second[i], Weight.Medium, size, new Spot(at.X + 8, baseline + ((name.Count + i) * size * Leading)));
            }

            Mark(sheet, finding.Outcome, size, at.X + columns.Width, at.Y);
            sheet.Rectangle(at.X, at.Y + height - 0.6, columns.Width, Hairline);
        });
    }

    private static Weight WeightOf(SlipFinding finding) => finding.Outcome == SlipOutcome.Pass ? Weight.Medium : Weight.Bold;

    private static void Right(SlipPaper paper, string text, Weight weight, double size, double end, double baseline) =>
        paper.Text(text, weight, size, new Spot(end - paper.WidthOf(text, weight, size), baseline));

    private static double MarkWidth(SlipPaper paper, SlipOutcome outcome, double size) =>
        outcome == SlipOutcome.Pass ? size : paper.WidthOf(OutcomeMark.WordOf(outcome), Weight.Bold, size) + 4;

    // A rule that is met gets a tick, a fail its word in white on black, a hold its word in a frame, so that they are easy to find.
    private static void Mark(SlipPaper paper, SlipOutcome outcome, double size, double end, double top)
    {
        var height = size * Leading;
        if (outcome == SlipOutcome.Pass)
        {
            var x = end - size;
            paper.Stroke(
                [new(x + (size * 0.15), top + (height * 0.55)), new(x + (size * 0.4), top + (height * 0.78)),
                    new(x + (size * 0.9), top + (height * 0.25))],
                size * 0.14);
            return;
        }

        var width = MarkWidth(paper, outcome, size);
        var ink = Ink.Black;
        if (outcome == SlipOutcome.Fail)
        {
            paper.Rectangle(end - width, top + 0.2, width, height - 0.6);
            ink = Ink.White;
        }
        else
        {
            paper.Frame(end - width, top + 0.2, width, height - 0.6, 0.7);
        }

        paper.Text(OutcomeMark.WordOf(outcome), Weight.Bold, size, new Spot(end - width + 2, top + (size * SlipText.Ascent)), ink);
    }

    private sealed record Columns(double Width, double ReadingEnd, double Limit, double LimitEnd, double Margin, double MarginEnd)
    {
        // As wide as the widest figure, up to a share of the line. Wider text is broken into lines.
        public static Columns Of(SlipPaper paper, IReadOnlyList<SlipFinding> findings, double size, double width)
        {
            double Widest(string title, Func<SlipFinding, string?> text, double share) => Math.Min(width * share, findings
                .Select(finding => paper.WidthOf(SlipPaper.Settable(text(finding) ?? ""), WeightOf(finding), size))
                .Append(paper.WidthOf(title, Weight.Medium, SlipText.LeastSize))
                .Max() + 0.1);

            var limit = Widest("Limit", finding => finding.Limit, 0.28);
            var margin = Widest("Margin", finding => finding.Margin, 0.18);
            var marginEnd = width - Gap - findings.Select(finding => MarkWidth(paper, finding.Outcome, size)).Append(size).Max();
            var limitEnd = marginEnd - Gap - margin;
            return new Columns(width, limitEnd - Gap - limit, limit, limitEnd, margin, marginEnd);
        }
    }
}
