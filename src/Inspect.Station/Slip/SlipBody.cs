namespace Inspect.Station.Slip;

/// <summary>The part of a slip below its head: the facts, the ruling, the reasons, the findings, and what was left out.</summary>
internal static class SlipBody
{
    /// <summary>All rows, from top to bottom.</summary>
    public static IEnumerable<SlipRow> Rows(SlipPaper paper, SlipContent content, FindingTable table, double size, double width)
    {
        IEnumerable<SlipRow> facts = [.. Facts(paper, content, size, width)];
        return facts
            .Concat(Ruling(paper, content, size, width))
            .Concat(Reasons(paper, content, size, width))
            .Append(SlipRow.Space(2))
            .Concat(table.Rows(size))
            .Concat(After(paper, content, size, width))
            .Concat(SlipBalance.Rows(content.Balance));
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

        if (content.Advice is { } advice)
        {
            texts = texts.Append(("What could cure it:", advice));
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
