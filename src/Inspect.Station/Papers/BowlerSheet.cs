using System.Globalization;
using Inspect.Station.Slip;

namespace Inspect.Station.Papers;

/// <summary>All balls of one entry, each as its slip has it.</summary>
/// <param name="Event">The event's name.</param>
/// <param name="Days">Its days of play in words.</param>
/// <param name="Bowler">The bowler's name.</param>
/// <param name="Entry">The bowler's number, with the squad.</param>
/// <param name="PrintedAt">When, by the clock at the venue.</param>
/// <param name="Balls">The inspections that were not replaced, in the order in which the balls were first seen.</param>
/// <param name="Replaced">The numbers of those that were.</param>
/// <param name="RegisterSize">Entries in the register.</param>
/// <param name="RegisterRoot">The first digits of its root.</param>
internal sealed record BowlerSheet(
    string Event, string Days, string Bowler, string Entry, DateTimeOffset PrintedAt, IReadOnlyList<SlipContent> Balls, IReadOnlyList<string> Replaced,
    long RegisterSize, string RegisterRoot)
{
    private const double QrPt = 62;
    private const double MarkPt = 24;
    private const double CodePt = 7.5;
    private const double Gap = 12;

    // Of an office printer, as the A6 slip's.
    private const int DotsPerInch = 300;

    /// <summary>Renders it: a block a ball that is never broken over pages, with the QR code of each slip that still counts.</summary>
    public RenderedPaper Render(PaperSize size) => PaperDocument.Render(
        size,
        new PaperEdges(
            $"Balls of entry {Entry}", $"{Event}, {Days}", $"entry {Entry}",
            $"Drawn up from a {SlipWords.RegisterOf(RegisterSize)}, root {RegisterRoot}"),
        (paper, width) => Body(paper, width));

    private IEnumerable<SlipRow> Body(SlipPaper paper, double width) =>
    [
        .. PaperRows.Title(paper, $"{Event}, {Days}", Bowler, width),
        .. PaperRows.Facts(
            paper,
            [
                ("Entry", Entry), ("Printed", PrintedAt.ToString("d MMMM yyyy, HH:mm", CultureInfo.InvariantCulture)), ("Balls", Counts()),
                .. Replaced.Count == 0 ? Array.Empty<(string, string)>() : [("Replaced before", string.Join(", ", Replaced))],
            ],
            width),
        SlipRow.Space(6),
        .. Balls.Select(ball => Block(paper, ball, width)),
        .. PaperRows.Text(paper, Balls.Count == 0 ? "No ball of this entry was inspected yet." : $"{SlipWords.Belongs} This sheet is for the bag: a scan of the code says what counts.", width),
    ];

    private string Counts()
    {
        var parts = new[] { (SlipOutcome.Pass, "passed"), (SlipOutcome.Fail, "failed"), (SlipOutcome.Hold, "on hold") }
            .Select(outcome => (Count: Balls.Count(ball => ball.Outcome == outcome.Item1), outcome.Item2)).Where(part => part.Count > 0)
            .Select(part => $"{part.Count} {part.Item2}");
        return Balls.Count == 0 ? "none" : string.Create(CultureInfo.InvariantCulture, $"{Balls.Count}: {string.Join(", ", parts)}");
    }

    private static SlipRow Block(SlipPaper paper, SlipContent ball, double width)
    {
        const double Size = PaperDocument.TextPt;
        var modules = QrModules.Encode(ball.ScanUrl);
        var dot = 72.0 / DotsPerInch;
        var module = modules.DotsAModule(DotsPerInch, QrPt) * dot;
        var side = modules.Size * module;
        var counts = !SlipWords.IsVoid(ball);
        var code = counts ? ball.Code.Grouped : "slip does not count";
        var codeWidth = paper.WidthOf(code, Weight.Bold, CodePt);
        var beside = Math.Max(side, codeWidth);
        var text = width - MarkPt - Gap - beside - Gap;
        List<SlipRow> rows =
        [
            .. SlipRow.Paragraph(paper, [new Run($"{OutcomeMark.WordOf(ball.Outcome)}  {ball.BallMaker} {ball.BallModel}", Weight.Bold)], 11.5, text),
            .. SlipRow.Paragraph(paper, [new Run($"Serial {ball.BallSerial} \u00B7 slip {ball.Number} \u00B7 {SlipWords.Moment(ball.RecordedAt)}", Weight.Medium)], Size, text),
            .. PaperRows.Text(paper, SlipWords.Standing(ball), text, Weight.Bold),
            .. ball.Ruling is null ? [] : PaperRows.Text(paper, ball.Ruling, text),
            .. ball.Reasons.SelectMany(reason => PaperRows.Text(paper, reason, text)),
            .. ball.Findings.Where(finding => finding.Outcome == SlipOutcome.Fail).SelectMany(finding => PaperRows.Text(paper, Failed(finding), text)),
            .. OpenPoints(ball) is { Length: > 0 } open ? PaperRows.Text(paper, open, text) : [],
        ];
        var height = Math.Max(rows.Sum(row => row.HeightPt), (counts ? side : 0) + (CodePt * SlipText.Leading)) + 10;
        return new SlipRow(height, (sheet, at) =>
        {
            sheet.Rectangle(at.X, at.Y, width, 0.5);
            var top = at.Y + 5;
            OutcomeMark.Draw(sheet, ball.Outcome, at with { Y = top + 1 }, MarkPt);
            var y = top;
            foreach (var row in rows)
            {
                row.Draw(sheet, new Spot(at.X + MarkPt + Gap, y));
                y += row.HeightPt;
            }

            if (counts)
            {
                // On whole dots; its quiet zone reaches into the page's margin.
                var left = at.X + width + (QrModules.QuietZone * module) - side;
                sheet.Modules(modules, new Spot(Math.Floor(left / dot) * dot, Math.Ceiling(top / dot) * dot), module);
            }

            sheet.Text(
                code, Weight.Bold, CodePt, new Spot(at.X + width - codeWidth, top + (counts ? side : 0) + (CodePt * SlipText.Ascent)));
        });
    }

    private static string Failed(SlipFinding finding) =>
        $"{SlipWords.NameOf(finding)}: {finding.Measured ?? "not met"}"
        + (finding.Limit is { } limit ? $", allowed {limit}" : "") + (finding.Margin is { } margin ? $", margin {margin}" : "") + ".";

    private static string OpenPoints(SlipContent ball)
    {
        var open = ball.Findings.Where(finding => finding.Outcome == SlipOutcome.Hold).Select(SlipWords.NameOf).Distinct().ToList();
        return open.Count == 0 ? "" : $"Open: {string.Join(", ", open)}.";
    }
}
