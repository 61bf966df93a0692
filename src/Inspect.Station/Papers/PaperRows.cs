using Inspect.Station.Slip;

namespace Inspect.Station.Papers;

/// <summary>The parts of a paper.</summary>
internal static class PaperRows
{
    private const double LabelShare = 0.24;

    /// <summary>The title at the top of the first page.</summary>
    public static IEnumerable<SlipRow> Title(SlipPaper paper, string overline, string title, double width) =>
    [
        .. Text(paper, overline, width),
        .. SlipRow.Paragraph(paper, [new Run(title, Weight.Bold)], 20, width),
        SlipRow.Space(6),
    ];

    /// <summary>A section's heading, which stays with what follows it.</summary>
    public static IEnumerable<SlipRow> Heading(string text, double width) =>
        [SlipRow.Space(11) with { KeepsNext = true }, SlipRow.Heading(text, 11.5, width), SlipRow.Space(2.5) with { KeepsNext = true }];

    /// <summary>A paragraph of running text.</summary>
    public static IEnumerable<SlipRow> Text(SlipPaper paper, string text, double width, Weight weight = Weight.Medium) =>
        SlipRow.Paragraph(paper, [new Run(text, weight)], PaperDocument.TextPt, width);

    /// <summary>Labels with their values, the labels in a column of their own.</summary>
    public static IEnumerable<SlipRow> Facts(SlipPaper paper, IEnumerable<(string Label, string Value)> facts, double width) =>
        facts.SelectMany(fact => Fact(paper, fact, width));

    private static List<SlipRow> Fact(SlipPaper paper, (string Label, string Value) fact, double width)
    {
        const double Size = PaperDocument.TextPt;
        var rows = SlipRow.Paragraph(paper, [new Run(fact.Value, Weight.Medium)], Size, width, width * LabelShare).ToList();
        var first = rows[0];
        rows[0] = first with
        {
            KeepsNext = rows.Count > 1,
            Draw = (sheet, at) =>
            {
                sheet.Text(SlipPaper.Settable(fact.Label), Weight.Bold, Size, new Spot(at.X, at.Y + (Size * SlipText.Ascent)));
                first.Draw(sheet, at);
            },
        };
        rows.Add(SlipRow.Space(2));
        return rows;
    }
}
