using System.Globalization;
using Inspect.Metrology;
using Inspect.Rules.Judging;
using Inspect.Station.Slip;

namespace Inspect.Station.Papers;

/// <summary>Sets the closing report of an event on paper.</summary>
/// <remarks>
/// It carries what ISO/IEC 17020:2012, 7.4.2 asks of an inspection report: issuer, unique number and date of issue, date of inspection, the
/// items, the statement of conformity, the results, and room for the authorised person's signature. It claims no accreditation.
/// </remarks>
internal static class ClosingReportPaper
{
    /// <summary>Renders it; a draft has no number and no line for a signature.</summary>
    public static RenderedPaper Render(ClosingReport report, PaperSize size, bool isDraft = false) => PaperDocument.Render(
        size,
        new PaperEdges(
            TitleOf(report, isDraft), $"Closing report, {report.Event}", isDraft ? "draft, not issued" : report.Number,
            $"Made from a {SlipWords.RegisterOf(report.RegisterSize)}, root {report.RegisterRoot[..12]}"),
        (paper, width) => Body(paper, report, width, isDraft));

    private static IEnumerable<SlipRow> Body(SlipPaper paper, ClosingReport report, double width, bool isDraft) =>
    [
        .. PaperRows.Title(paper, TitleOf(report, isDraft), report.Event, width),
        .. PaperRows.Facts(paper, Facts(report, isDraft), width),
        .. PaperRows.Heading("Results of the inspections", width),
        .. Conformity(paper, report, width),
        .. PerDay(paper, report, width),
        .. Shares(paper, report, width),
        .. AtTheTables(paper, report, width),
        .. PaperRows.Heading("Rules applied", width),
        .. Rules(paper, report, width),
        .. PaperRows.Heading("Failures by rule", width),
        .. Failures(paper, report, width),
        .. PaperRows.Heading("Replaced and ruled on", width),
        .. Changed(paper, report, width),
        .. PaperRows.Heading("What is still open", width),
        .. Open(paper, report, width),
        .. PaperRows.Heading("Who measured, and with what", width),
        .. Means(paper, report, width),
        .. PaperRows.Heading("The register behind this report", width),
        .. Register(paper, report, width),
        .. PaperRows.Heading(isDraft ? "Not issued" : "Issued", width),
        .. isDraft
            ? PaperRows.Text(
                paper, "This is a draft. It shows what was in the register when it was made. It is not kept and does not count.", width)
            : Issued(paper, report, width),
    ];

    private static string TitleOf(ClosingReport report, bool isDraft) =>
        isDraft ? "Draft of a closing report" : $"Closing report {report.Number}";

    private static IEnumerable<(string, string)> Facts(ClosingReport report, bool isDraft) =>
    [
        (isDraft ? "Made by" : "Issued by", report.IssuedBy),
        (isDraft ? "Made on" : "Issued on",
            string.Create(CultureInfo.InvariantCulture, $"{report.IssuedAt:d MMMM yyyy, HH:mm} ({report.TimeZone})")),
        ("Station", report.Station),
        ("Event", $"{report.Event}, {report.Days}"),
        ("Rules of play", report.Authority),
        ("Inspected", report.Measured is { } measured
            ? string.Create(CultureInfo.InvariantCulture, $"from {measured.First:d MMMM yyyy, HH:mm} to {measured.Last:d MMMM yyyy, HH:mm}")
            : "nothing"),
        ("Items", $"{Number(report.Balls)} bowling balls of an event with {Number(report.Entries)} entries, "
            + $"in {Number(report.Inspections)} inspections"),
        ("Spot checks", report.SpotChecks.All == 0 ? "none"
            : $"{Number(report.SpotChecks.All)}, of which {Number(report.SpotChecks.Differing)} found another ball than was recorded"),
        ("Names", report.Names),
    ];

    private static IEnumerable<SlipRow> Conformity(SlipPaper paper, ClosingReport report, double width)
    {
        if (report.Inspections == 0)
        {
            return PaperRows.Text(paper, "No ball was inspected at this event.", width);
        }

        return PaperRows.Text(paper, "Of the inspections that count when this report is issued, each for one ball and one grip:", width)
            .Append(SlipRow.Space(2) with { KeepsNext = true })
            .Concat(PaperTable.Rows(
                paper,
                [new PaperColumn("Statement", 0.85), new PaperColumn("Inspections", 0.15, IsRight: true, Weight.Bold)],
                report.Standing.Select(each => new[] { each.Words, Number(each.Inspections) }),
                width));
    }

    private static IEnumerable<SlipRow> PerDay(SlipPaper paper, ClosingReport report, double width) => report.PerDay.Count == 0 ? [] :
    [
        SlipRow.Space(8),
        .. PaperTable.Rows(
            paper,
            [
                new PaperColumn("Day of play, everything recorded", 0.4), new PaperColumn("Inspections", 0.15, true),
                new PaperColumn("Pass", 0.15, true),
                new PaperColumn("Fail", 0.15, true), new PaperColumn("Hold", 0.15, true),
            ],
            [
                .. report.PerDay.Select(day => new[]
                {
                    day.Day.ToString("dddd d MMMM yyyy", CultureInfo.InvariantCulture), Number(day.Inspections), Number(day.Passed),
                    Number(day.Failed), Number(day.Held),
                }),
                ["All days", Number(report.PerDay.Sum(day => day.Inspections)), Number(report.PerDay.Sum(day => day.Passed)),
                    Number(report.PerDay.Sum(day => day.Failed)), Number(report.PerDay.Sum(day => day.Held))],
            ],
            width),
    ];

    private static IEnumerable<SlipRow> Shares(SlipPaper paper, ClosingReport report, double width)
    {
        if (report.Inspections == 0)
        {
            return [];
        }

        (string Outcome, int Count)[] counts =
        [
            ("Pass", report.PerDay.Sum(day => day.Passed)), ("Fail", report.PerDay.Sum(day => day.Failed)),
            ("Hold", report.PerDay.Sum(day => day.Held)),
        ];
        return PaperTable.Rows(
                paper,
                [
                    new PaperColumn("Outcome, everything recorded", 0.4), new PaperColumn("Inspections", 0.2, true),
                    new PaperColumn("Share", 0.15, true), new PaperColumn("Between, at 95 %", 0.25, true),
                ],
                counts.Select(each => new[]
                {
                    each.Outcome, OutOf(each.Count, report.Inspections),
                    string.Create(CultureInfo.InvariantCulture, $"{100.0 * each.Count / report.Inspections:0} %"),
                    Between(each.Count, report.Inspections),
                }),
                width)
            .Prepend(SlipRow.Space(8));
    }

    private static IEnumerable<SlipRow> AtTheTables(SlipPaper paper, ClosingReport report, double width) => report.AtTheTables.Count == 0
        ? [] :
    [
        SlipRow.Space(8),
        .. PaperTable.Rows(
            paper,
            [
                new PaperColumn("At the tables on", 0.4), new PaperColumn("From", 0.12, true), new PaperColumn("To", 0.12, true),
                new PaperColumn("Balls an hour", 0.16, true), new PaperColumn("Minutes a ball, median", 0.2, true),
            ],
            report.AtTheTables.Select(day => new[]
            {
                day.Day.ToString("dddd d MMMM yyyy", CultureInfo.InvariantCulture), Clock(day.First), Clock(day.Last), Rate(day.PerHour),
                Rate(day.MinutesABall),
            }),
            width),
    ];

    private static string Clock(DateTime at) => at.ToString("HH:mm", CultureInfo.InvariantCulture);

    private static string Rate(double? rate) => rate?.ToString("0.0", CultureInfo.InvariantCulture) ?? "–";

    private static string OutOf(int count, int of) => $"{Number(count)} of {Number(of)}";

    /// <summary>The shares that a count is compatible with, as in <c>10 % to 56 %</c>: the exact binomial interval at 95 %.</summary>
    internal static string Between(int count, int of)
    {
        var (low, high) = BinomialInterval.Of(count, of);
        return string.Create(CultureInfo.InvariantCulture, $"{100 * low:0} % to {100 * high:0} %");
    }

    private static IEnumerable<SlipRow> Rules(SlipPaper paper, ClosingReport report, double width)
    {
        if (report.Editions.Count + report.Supplements.Count == 0)
        {
            return PaperRows.Text(paper, "No edition was applied.", width);
        }

        var lines = report.Editions.Select(used => Line("Edition", used))
            .Concat(report.Supplements.Select(used => Line("Supplement", used)));
        return PaperTable.Rows(
                paper,
                [
                    new PaperColumn("Kind", 0.13), new PaperColumn("Rules, id and SHA-256 of their bytes", 0.72),
                    new PaperColumn("Inspections", 0.15, true),
                ],
                lines,
                width)
            .Append(SlipRow.Space(4))
            .Concat(report.Decisions.SelectMany(
                decision => PaperRows.Text(paper, $"{decision.Sentence} ({Number(decision.Inspections)} inspections)", width)));

        static string[] Line(string kind, RulesUsed used) =>
            [kind, $"{used.Name}\n{used.Mark.Id}{(used.Mark.Version is { } version ? $", version {version}" : "")}\n{used.Mark.Sha256}",
                Number(used.Inspections)];
    }

    private static IEnumerable<SlipRow> Failures(SlipPaper paper, ClosingReport report, double width) => report.Rules.Count == 0
        ? PaperRows.Text(paper, report.Inspections == 0 ? "Nothing was checked." : "Every rule that was checked was met.", width)
        : PaperTable.Rows(
            paper,
            [
                new PaperColumn("Rule", 0.4), new PaperColumn("Not met", 0.2, true), new PaperColumn("Between, at 95 %", 0.25, true),
                new PaperColumn("Open", 0.15, true),
            ],
            report.Rules.Select(rule => new[]
            {
                Explanation.RuleTitle(rule.Rule), OutOf(rule.Failed, rule.Of), Between(rule.Failed, rule.Of), Number(rule.Held),
            }),
            width);

    private static IEnumerable<SlipRow> Changed(SlipPaper paper, ClosingReport report, double width)
    {
        if (report.Replaced.Count + report.Rulings.Count == 0)
        {
            return PaperRows.Text(paper, "No inspection was replaced, and none was ruled on.", width);
        }

        return PaperTable.Rows(
                paper,
                [new PaperColumn("Inspection", 0.3), new PaperColumn("It was", 0.2), new PaperColumn("Replaced by", 0.3),
                    new PaperColumn("That is", 0.2)],
                report.Replaced.Select(each => new[] { each.Number, each.Was, each.By, each.Is }),
                width)
            .Concat(report.Replaced.Count == 0 ? [] : [SlipRow.Space(8)])
            .Concat(PaperTable.Rows(
                paper, [new PaperColumn("Inspection", 0.2), new PaperColumn("Ruling in force", 0.8)],
                report.Rulings.Select(each => new[] { each.Number, each.Sentence }), width));
    }

    private static IEnumerable<SlipRow> Open(SlipPaper paper, ClosingReport report, double width)
    {
        if (report.Open.Count == 0)
        {
            return PaperRows.Text(paper, "Nothing: every ball inspected was passed, settled or withdrawn.", width);
        }

        return PaperTable.Rows(
            paper,
            [new PaperColumn("Inspection", 0.17, Weight: Weight.Bold), new PaperColumn("Entry", 0.09), new PaperColumn("State", 0.14),
                new PaperColumn("What is open", 0.6)],
            report.Open.Select(item => new[] { item.Number, item.Entry, item.Group.Title, string.Join("\n", item.Points) }),
            width,
            8.5);
    }

    private static IEnumerable<SlipRow> Means(SlipPaper paper, ClosingReport report, double width) =>
    [
        .. PaperTable.Rows(
            paper, [new PaperColumn("Inspector", 0.8), new PaperColumn("Inspections", 0.2, true)],
            report.Inspectors.Select(one => new[] { one.Name, Number(one.Inspections) }), width),
        SlipRow.Space(8),
        .. report.Instruments.Count == 0
            ? PaperRows.Text(paper, "No reading names the instrument it was taken with.", width)
            : PaperTable.Rows(
                paper,
                [new PaperColumn("Instrument", 0.4), new PaperColumn("Rules decided with it", 0.2, true),
                    new PaperColumn("Not met", 0.15, true), new PaperColumn("Its checks", 0.25, true)],
                report.Instruments.Select(one => new[] { one.Name, Number(one.Of), Number(one.Failed), ChecksOf(report, one.Name) }),
                width),
    ];

    private static string ChecksOf(ClosingReport report, string instrument) =>
        report.Checks.TryGetValue(instrument, out var checks) ? $"{Number(checks.Good)} good, {Number(checks.Failed)} failed" : "none";

    private static IEnumerable<SlipRow> Register(SlipPaper paper, ClosingReport report, double width) =>
    [
        .. PaperRows.Facts(
            paper,
            [
                ("Entries", Number(report.RegisterSize)),
                ("Root (RFC 6962)", report.RegisterRoot),
                ("Key fingerprint", report.Fingerprint),
                ("Signed checkpoint", ""),
            ],
            width),
        .. report.Checkpoint.TrimEnd('\n').Split('\n').SelectMany(line => line.Length == 0
            ? [SlipRow.Space(4)]
            : SlipRow.Paragraph(
                paper, [new Run(line, Weight.Medium)], SlipText.SizeFor(paper, line, Weight.Medium, 8, SlipText.LeastSize, width), width)),
        SlipRow.Space(4),
        .. PaperRows.Text(
            paper,
            "Anyone with an export of the register can check every figure above: the export leads to this root, "
            + "and the checkpoint is signed with the key of this fingerprint.",
            width),
    ];

    private static IEnumerable<SlipRow> Issued(SlipPaper paper, ClosingReport report, double width)
    {
        const double High = 64;
        var half = (width - 24) / 2;
        return
        [
            .. PaperRows.Text(
                paper,
                "This report shows what was in the register when it was issued, for the balls and grips named in it. "
                    + "A report of this event "
                + "with a higher number counts in its place. The register has an entry for this report, with its number and the SHA-256 of "
                + "its file. Contents as in ISO/IEC 17020:2012, 7.4.2; the report claims no accreditation.",
                width),
            new SlipRow(High, (sheet, at) =>
            {
                foreach (var (x, label) in new[] { (at.X, $"Signature, {report.IssuedBy}"), (at.X + half + 24, "Place and date") })
                {
                    sheet.Rectangle(x, at.Y + High - 16, half, 0.7);
                    var line = SlipText.Lines(sheet, label, Weight.Medium, 8, half)[0];
                    sheet.Text(line, Weight.Medium, 8, new Spot(x, at.Y + High - 6));
                }
            }),
        ];
    }

    private static string Number(long count) => count.ToString("N0", CultureInfo.InvariantCulture);
}
