namespace Inspect.Station.Slip;

/// <summary>The foot of every page: outcome and number, whose slip it is, and the state of the register.</summary>
internal static class SlipFoot
{
    private const double Size = SlipText.LeastSize;

    /// <summary>The rows of the foot of one page.</summary>
    public static IReadOnlyList<SlipRow> Rows(SlipPaper paper, SlipContent content, double width, int page, int pages)
    {
        var outcome = OutcomeMark.WordOf(content.Outcome);
        Run[] belongs = [new(SlipWords.Belongs, Weight.Bold), new(SlipWords.Scan, Weight.Medium)];
        Run[] closing =
        [
            new($"{outcome} {content.Number}", Weight.Bold),
            new($"\u00B7 page {page} of {pages} \u00B7 {SlipWords.Register(content)}", Weight.Medium),
        ];
        Run[] again = content.Again is var (first, now) ? [new(SlipWords.Again(first, now), Weight.Bold)] : [];
        return
        [
            SlipRow.Rule(width, 0.7),
            .. again.Length == 0 ? [] : SlipRow.Paragraph(paper, again, Size, width),
            .. SlipRow.Paragraph(paper, belongs, Size, width),
            .. SlipRow.Paragraph(paper, closing, Size, width),
        ];
    }
}
