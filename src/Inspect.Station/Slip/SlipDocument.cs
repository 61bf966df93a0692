using Inspect.Station.Record;
namespace Inspect.Station.Slip;

/// <summary>A slip as PDF, and the letters that could not be printed.</summary>
/// <param name="Pdf">The document's bytes. They differ from one rendering to the next: never hash them.</param>
/// <param name="Pages">How many pages it has.</param>
/// <param name="Lacking">Letters that the font lacks, each as <c>U+9AD8</c>. A solid square is printed for
/// each, and the slip says so.</param>
public sealed record RenderedSlip(byte[] Pdf, int Pages, IReadOnlyList<string> Lacking);

/// <summary>Sets a slip on one of the stocks. Safe to call from several threads at once.</summary>
public static class SlipDocument
{
    // Space between the border and its content.
    private const double PaddingPt = 4;

    private static readonly double[] Sizes = [8, 7.5, 7, 6.5];

    // Without a table there is room for letters that can be read at arm's length.
    private static readonly double[] LargerSizes = [10.5, 10, 9.5, 9, 8.5, .. Sizes];

    /// <summary>Renders the slip in the largest letters that need no more pages than the smallest would.</summary>
    /// <param name="content">What it says.</param>
    /// <param name="stock">What it is printed on.</param>
    /// <param name="dotsPerInch">The printer's resolution, 150 to 1200; without it, the stock's usual one.</param>
    public static RenderedSlip Render(SlipContent content, SlipStock stock, int? dotsPerInch = null)
    {
        ArgumentNullException.ThrowIfNull(content);
        ArgumentNullException.ThrowIfNull(stock);
        var dots = dotsPerInch ?? stock.DotsPerInch;
        ArgumentOutOfRangeException.ThrowIfLessThan(dots, 150, nameof(dotsPerInch));
        ArgumentOutOfRangeException.ThrowIfGreaterThan(dots, 1200, nameof(dotsPerInch));

        using var paper = new SlipPaper($"{SlipPaper.Settable(content.Number)} {OutcomeMark.WordOf(content.Outcome)}");
        var width = stock.WidthPt - (2 * (stock.MarginPt + SlipBorder.BandPt + PaddingPt));
        List<SlipRow> head = [.. SlipHead.Rows(paper, content, width, dots)];
        var table = new FindingTable(paper, content, width);
        var pages = Paginate(paper, content, stock, width, (head, table));
        if (paper.Lacking.Count > 0)
        {
            // By now every letter was measured: lay out once more, with the note that names the missing ones.
            pages = Paginate(paper, content, stock, width, (head, table));
        }

        for (var i = 0; i < pages.Count; i++)
        {
            DrawPage(paper, content.Outcome, stock, dots, [.. head, .. pages[i]], SlipFoot.Rows(paper, content, width, i + 1, pages.Count));
        }

        return new RenderedSlip(paper.Save(), pages.Count, paper.Lacking);
    }

    /// <summary>Renders a small slip and discards it, so that the fonts are loaded before the first bowler of the day.</summary>
    public static void WarmUp() => Render(
        new SlipContent
        {
            Outcome = SlipOutcome.Hold,
            Number = "0",
            Code = SlipCode.Draw(),
            ScanUrl = "HTTP://LOCALHOST/",
            Event = "-",
            GoodFrom = DateOnly.MinValue,
            GoodTo = DateOnly.MinValue,
            Play = DateOnly.MinValue,
            Bowler = "-",
            Entry = "0",
            BallMaker = "-",
            BallModel = "-",
            BallSerial = "-",
            Grip = "-",
            Inspector = "-",
            RecordedAt = DateTimeOffset.UnixEpoch,
            RegisterSize = 0,
            RegisterRoot = "-",
        },
        SlipStock.Label);

    private static List<List<SlipRow>> Paginate(
        SlipPaper paper, SlipContent content, SlipStock stock, double width, (List<SlipRow> Head, FindingTable Table) set)
    {
        var bare = content with { Balance = null };
        var sizes = SlipWords.ListsReadings(content) ? Sizes : LargerSizes;
        if (stock.HeightPt is not { } height)
        {
            // A roll has the picture only for a ball that is no plain pass, to save paper.
            return [Body(sizes[1], SlipWords.ListsReadings(content) ? bare : content)];
        }

        var fixedRows = set.Head.Concat(SlipFoot.Rows(paper, content, width, 99, 99));
        var room = height - (2 * (stock.MarginPt + SlipBorder.BandPt + PaddingPt)) - fixedRows.Sum(row => row.HeightPt);

        // What fits on one page in large letters is not laid out in smaller ones.
        var fewest = new Lazy<int>(() => Pages(SlipText.LeastSize, bare).Count);
        var (letters, pages) = sizes.Append(SlipText.LeastSize).Select(size => (size, Pages(size, bare)))
            .First(laid => laid.Item2.Count == 1 || laid.Item2.Count <= fewest.Value);

        // The picture fills room that is left. It never makes letters smaller or adds a page.
        return content.Balance is not null && Pages(letters, content) is { } fuller && fuller.Count <= pages.Count ? fuller : pages;

        List<List<SlipRow>> Pages(double size, SlipContent said) => SlipRow.Fill(Body(size, said), room);

        List<SlipRow> Body(double size, SlipContent said) => [.. SlipBody.Rows(paper, said, set.Table, size, width)];
    }

    private static void DrawPage(
        SlipPaper paper, SlipOutcome outcome, SlipStock stock, int dots, List<SlipRow> above, IReadOnlyList<SlipRow> foot)
    {
        var footHeight = foot.Sum(row => row.HeightPt);
        var inset = stock.MarginPt + SlipBorder.BandPt + PaddingPt;
        // A roll is cut at a whole number of dots below the last line.
        var height = stock.HeightPt
            ?? Math.Ceiling((above.Sum(row => row.HeightPt) + footHeight + (2 * inset)) * dots / 72) * 72 / dots;

        paper.NewPage(stock.WidthPt, height);
        var margin = stock.MarginPt;
        SlipBorder.Draw(paper, outcome, margin, margin, stock.WidthPt - (2 * margin), height - (2 * margin));
        var y = inset;
        foreach (var row in above)
        {
            row.Draw(paper, new Spot(inset, y));
            y += row.HeightPt;
        }

        y = height - inset - footHeight;
        foreach (var row in foot)
        {
            row.Draw(paper, new Spot(inset, y));
            y += row.HeightPt;
        }
    }
}
