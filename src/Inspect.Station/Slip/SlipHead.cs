namespace Inspect.Station.Slip;

/// <summary>The head of every page of a slip: the verdict as shape and word, the QR code, the number, the code and the ball.</summary>
internal static class SlipHead
{
    private const double QrPt = 67;
    private const double MarkPt = 31;
    private const double Gap = 5;
    private const double LeastWordPt = 20;

    /// <summary>The rows of the head, the same on each page.</summary>
    public static IEnumerable<SlipRow> Rows(SlipPaper paper, SlipContent content, double width, int dotsPerInch)
    {
        yield return Verdict(paper, content, width, dotsPerInch);
        if (SlipWords.Banner(content) is { } banner)
        {
            yield return Reversed(paper, banner, width);
        }

        yield return SlipRow.Rule(width, 1.2);
        var ball = $"{content.BallMaker} {content.BallModel}";
        var size = SlipText.SizeFor(paper, ball, Weight.Bold, 11, 8, width);
        foreach (var row in SlipRow.Paragraph(paper, [new Run(ball, Weight.Bold)], size, width))
        {
            yield return row;
        }

        foreach (var row in SerialAndCode(paper, content, width))
        {
            yield return row;
        }

        yield return SlipRow.Rule(width, 0.5);
    }

    private static SlipRow Verdict(SlipPaper paper, SlipContent content, double width, int dotsPerInch)
    {
        var modules = QrModules.Encode(content.ScanUrl);
        var dot = 72.0 / dotsPerInch;
        var module = modules.DotsAModule(dotsPerInch, QrPt) * dot;
        var quiet = QrModules.QuietZone * module;
        var side = modules.Size * module;
        // Its quiet zone overlaps the space that the page leaves there anyway.
        var overhang = Math.Min(quiet, 4);
        var beside = width - side + overhang - 2;

        var word = OutcomeMark.WordOf(content.Outcome);
        // On a narrow roll the code stands below the word.
        var below = MarkPt + Gap + paper.WidthOf(word, Weight.Bold, LeastWordPt) > beside ? MarkPt + 3 : 0;
        var wordSize = SlipText.SizeFor(paper, word, Weight.Bold, 40, LeastWordPt, (below > 0 ? width : beside) - MarkPt - Gap);
        var texts = Beside(paper, content, beside).ToList();
        var above = below > 0 ? 0 : overhang;
        var height = Math.Max(below + side - (2 * above), MarkPt + 3 + texts.Sum(row => row.HeightPt));
        return new SlipRow(height + 1, (sheet, at) =>
        {
            OutcomeMark.Draw(sheet, content.Outcome, at, MarkPt);
            var baseline = at.Y + (MarkPt / 2) + (wordSize * 0.36);
            sheet.Text(word, Weight.Bold, wordSize, new Spot(at.X + MarkPt + Gap, baseline));
            if (SlipWords.IsVoid(content) && content.Outcome == SlipOutcome.Pass)
            {
                StrikeOut(sheet, at, MarkPt + Gap + sheet.WidthOf(word, Weight.Bold, wordSize));
            }

            var y = at.Y + MarkPt + 3;
            foreach (var row in texts)
            {
                row.Draw(sheet, at with { Y = y });
                y += row.HeightPt;
            }

            // On whole dots, and rounded away from the border.
            var left = Math.Floor((at.X + width + overhang - side) / dot) * dot;
            var top = Math.Ceiling((at.Y + below - above) / dot) * dot;
            sheet.Modules(modules, new Spot(left, top), module);
        });
    }

    // A replaced or withdrawn pass that is printed again must not look like one that counts.
    private static void StrikeOut(SlipPaper paper, Spot at, double width)
    {
        Spot[] across = [new(at.X, at.Y + (MarkPt * 0.72)), new(at.X + width, at.Y + (MarkPt * 0.28))];
        paper.Stroke(across, 8, Ink.White);
        paper.Stroke(across, 4);
    }

    private static IEnumerable<SlipRow> Beside(SlipPaper paper, SlipContent content, double width)
    {
        var number = SlipText.SizeFor(paper, content.Number, Weight.Bold, 12.5, 8, width);
        var name = SlipText.SizeFor(paper, content.Event, Weight.Bold, 9, 7.5, width);
        var standing = SlipText.SizeFor(paper, SlipWords.Standing(content), Weight.Bold, 9.5, 7.5, width);
        return SlipRow.Paragraph(paper, [new Run(SlipWords.Standing(content), Weight.Bold)], standing, width)
            .Concat(SlipRow.Paragraph(paper, [new Run(content.Number, Weight.Bold)], number, width))
            .Concat(SlipRow.Paragraph(paper, [new Run(content.Event, Weight.Bold)], name, width));
    }

    private static IEnumerable<SlipRow> SerialAndCode(SlipPaper paper, SlipContent content, double width)
    {
        const double CodeSize = 10.5;
        const double SerialSize = 8.5;
        List<Run> marks = [new("Serial", Weight.Medium), new(content.BallSerial, Weight.Bold)];
        if (content.BallTag is { } tag)
        {
            marks.AddRange([new("\u00B7 tag", Weight.Medium), new(tag, Weight.Bold)]);
        }

        var code = content.Code.Grouped;
        var codeWidth = paper.WidthOf(code, Weight.Bold, CodeSize);
        var beside = SlipText.Wrap(paper, marks, SerialSize, width - codeWidth - (2 * Gap));
        if (beside.Count == 1)
        {
            return
            [
                new SlipRow(CodeSize * SlipText.Leading, (sheet, at) =>
                {
                    var baseline = at.Y + (CodeSize * SlipText.Ascent);
                    SlipText.Draw(sheet, beside[0], SerialSize, at with { Y = baseline });
                    sheet.Text(code, Weight.Bold, CodeSize, new Spot(at.X + width - codeWidth, baseline));
                }),
            ];
        }

        return SlipRow.Paragraph(paper, marks, SerialSize, width)
            .Concat(SlipRow.Paragraph(paper, [new Run(code, Weight.Bold)], CodeSize, width));
    }

    private static SlipRow Reversed(SlipPaper paper, string text, double width)
    {
        var size = SlipText.SizeFor(paper, text, Weight.Bold, 9, SlipText.LeastSize, width - 8);
        var lines = SlipText.Lines(paper, text, Weight.Bold, size, width - 8);
        var height = (lines.Count * size * SlipText.Leading) + 4;
        return new SlipRow(height + 2, (sheet, at) =>
        {
            sheet.Rectangle(at.X, at.Y + 1, width, height);
            for (var i = 0; i < lines.Count; i++)
            {
                var baseline = at.Y + 3 + (size * (SlipText.Ascent + (i * SlipText.Leading)));
                sheet.Text(lines[i], Weight.Bold, size, new Spot(at.X + 4, baseline), Ink.White);
            }
        });
    }
}
