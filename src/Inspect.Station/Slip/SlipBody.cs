namespace Inspect.Station.Slip;

/// <summary>The part of a slip below its head. A pass lists its readings; any other slip says first why, what could cure it and where to
/// go, and lists none.</summary>
internal static class SlipBody
{
    // Facts are read when somebody looks for them, and stand in the smaller letters.
    private const double FactsPt = 7;

    /// <summary>All rows, from top to bottom.</summary>
    public static IEnumerable<SlipRow> Rows(SlipPaper paper, SlipContent content, FindingTable table, double size, double width) =>
        SlipWords.ListsReadings(content)
            ? [
                .. Facts(paper, content, size, width), .. Ruling(paper, content, size, width), SlipRow.Space(2), .. table.Rows(size),
                .. After(paper, content, size, width), .. SlipBalance.Rows(content.Balance),
            ]
            : [
                .. Ruling(paper, content, size, width), .. Reasons(paper, content, size, width), .. Next(paper, content, size, width),
                SlipRow.Space(2), SlipRow.Rule(width, 0.5), .. Facts(paper, content, Math.Min(size, FactsPt), width),
                .. After(paper, content, Math.Min(size, FactsPt), width), .. SlipBalance.Rows(content.Balance),
            ];

    private static IEnumerable<SlipRow> Next(SlipPaper paper, SlipContent content, double size, double width)
    {
        if (content.Advice is { } advice && SlipWords.Next(content) is not null && !SlipWords.IsVoid(content))
        {
            yield return SlipRow.Heading("What could cure it", Math.Max(size, 7), width);
            foreach (var row in SlipRow.Paragraph(paper, [new Run(advice, Weight.Medium)], size, width))
            {
                yield return row;
            }
        }

        if (SlipWords.Next(content) is { } next)
        {
            yield return SlipRow.Heading("What to do now", Math.Max(size, 7), width);
            foreach (var row in SlipRow.Paragraph(paper, [new Run(next, Weight.Bold)], size, width))
            {
                yield return row;
            }
        }

        if (!SlipWords.IsVoid(content) && content.Findings.Any(finding => finding.Outcome == SlipOutcome.Pass))
        {
            yield return SlipRow.Space(2);
            foreach (var row in SlipRow.Paragraph(paper, [new Run(SlipWords.InOrder(content), Weight.Medium)], size, width))
            {
                yield return row;
            }
        }
    }

    private static IEnumerable<SlipRow> Facts(SlipPaper paper, SlipContent content, double size, double width)
    {
        var edition = content.EditionTitle is null ? "none in force on the day of play"
            : content.EditionId is null ? content.EditionTitle : $"{content.EditionTitle} ({content.EditionId})";
        List<(string Label, string Value)[]> lines =
        [
            [("Bowler", $"{content.Bowler}, entry {content.Entry}"), ("Inspector", content.Inspector)],
            [("Play", SlipWords.Day(content.Play)), ("Recorded", SlipWords.Moment(content.RecordedAt))],
            .. content.MeasuredAt is { } measured ? Measured(measured) : [],
            [("Grip", content.Grip)],
            [("Edition", edition)],
        ];
        if (content.Supplements.Count > 0)
        {
            lines.Add([("Supplement", string.Join("; ", content.Supplements))]);
        }

        if (content.Supersedes is { } earlier)
        {
            lines.Add([("Replaces", earlier)]);
        }

        return lines.SelectMany(line => line is [var left, var right] && Beside(paper, left, right, size, width) is { } row
            ? [row]
            : line.SelectMany(fact => Fact(paper, fact, size, width, LabelWidth(size))));
    }

    private static (string Label, string Value)[][] Measured(DateTimeOffset at) => [[("Measured", SlipWords.Moment(at))]];

    // Two facts on one line, or null when either is too long for that.
    private static SlipRow? Beside(
        SlipPaper paper, (string Label, string Value) left, (string Label, string Value) right, double size, double width)
    {
        var start = width * 0.53;
        var first = Fact(paper, left, size, start - 6, LabelWidth(size));
        var second = Fact(paper, right, size, width - start, paper.WidthOf($"{right.Label}  ", Weight.Bold, size));
        return first.Count > 1 || second.Count > 1 ? null : new SlipRow(first[0].HeightPt, (sheet, at) =>
        {
            first[0].Draw(sheet, at);
            second[0].Draw(sheet, at with { X = at.X + start });
        });
    }

    private static double LabelWidth(double size) => 6.4 * size;

    private static List<SlipRow> Fact(SlipPaper paper, (string Label, string Value) fact, double size, double width, double labelWidth)
    {
        var rows = SlipRow.Paragraph(paper, [new Run(fact.Value, Weight.Medium)], size, width, labelWidth).ToList();
        var first = rows[0];
        rows[0] = first with
        {
            Draw = (sheet, at) =>
            {
                sheet.Text(fact.Label, Weight.Bold, size, new Spot(at.X, at.Y + (size * SlipText.Ascent)));
                first.Draw(sheet, at);
            },
        };
        return rows;
    }

    private static IEnumerable<SlipRow> Ruling(SlipPaper paper, SlipContent content, double size, double width)
    {
        if (content.Ruling is null)
        {
            return [];
        }

        IEnumerable<SlipRow> heading = [SlipRow.Heading("The ruling", Math.Max(size, 7), width)];
        return heading.Concat(SlipRow.Paragraph(paper, [new Run(content.Ruling, Weight.Medium)], size, width));
    }

    private static IEnumerable<SlipRow> Reasons(SlipPaper paper, SlipContent content, double size, double width)
    {
        var against = content.Findings
            .Where(finding => finding.Outcome != SlipOutcome.Pass)
            .OrderBy(finding => finding.Outcome == SlipOutcome.Fail ? 0 : 1)
            .ToList();
        if (against.Count + content.Reasons.Count == 0)
        {
            yield break;
        }

        yield return SlipRow.Space(1.5);
        yield return SlipRow.Heading(content.Outcome == SlipOutcome.Fail ? "Why it fails" : "What is open", Math.Max(size, 7), width);
        foreach (var reason in content.Reasons)
        {
            foreach (var row in Marked(paper, content.Outcome, [new Run(reason, Weight.Medium)], size, width))
            {
                yield return row;
            }
        }

        foreach (var finding in against)
        {
            Run[] runs = [new($"{SlipWords.NameOf(finding)}:", Weight.Bold), new(finding.Reason ?? "no reason recorded.", Weight.Medium)];
            foreach (var row in Marked(paper, finding.Outcome, runs, size, width))
            {
                yield return row;
            }
        }
    }

    private static List<SlipRow> Marked(SlipPaper paper, SlipOutcome outcome, IReadOnlyList<Run> runs, double size, double width)
    {
        var rows = SlipRow.Paragraph(paper, runs, size, width, size * 1.6).ToList();
        var first = rows[0];
        rows[0] = first with
        {
            KeepsNext = rows.Count > 1,
            Draw = (sheet, at) =>
            {
                OutcomeMark.Draw(sheet, outcome, at with { Y = at.Y + (size * 0.08) }, size * 1.08);
                first.Draw(sheet, at);
            },
        };
        return rows;
    }

    private static IEnumerable<SlipRow> After(SlipPaper paper, SlipContent content, double size, double width)
    {
        yield return SlipRow.Space(2);
        var texts = content.Notes.Select(note => ("Note:", note));
        if (content.NotChecked.Count > 0)
        {
            texts = texts.Append(("Not checked at this event:", $"{string.Join(", ", content.NotChecked)}."));
        }

        if (paper.Lacking.Count > 0)
        {
            texts = texts.Append(("Letters:", SlipWords.Lacking(paper.Lacking)));
        }

        foreach (var (title, text) in texts.ToList())
        {
            foreach (var row in SlipRow.Paragraph(paper, [new Run(title, Weight.Bold), new Run(text, Weight.Medium)], size, width))
            {
                yield return row;
            }
        }
    }
}
