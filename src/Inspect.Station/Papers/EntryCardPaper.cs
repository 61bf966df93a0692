using Inspect.Station.Slip;

namespace Inspect.Station.Papers;

/// <summary>The card of an entry.</summary>
/// <param name="Event">The event's name.</param>
/// <param name="Number">The bowler's number.</param>
/// <param name="Bowler">The bowler's name; null once struck.</param>
/// <param name="Squad">The squad and when it begins, in words; null for none.</param>
/// <param name="Address">What the code leads to.</param>
internal sealed record EntryCard(string Event, string Number, string? Bowler, string? Squad, string Address);

/// <summary>Entry cards, eight a sheet, with lines to cut along.</summary>
internal static class EntryCardPaper
{
    private const int Columns = 2;
    private const int Rows = 4;
    private const double EdgePt = 24;
    private const double PadPt = 14;
    private const double QrPt = 96;
    private const string Use = "Scan this with your phone and write down the balls that you bring. Show the card at the inspection table.";

    // The resolution of an office printer, as for the A6 slip.
    private const int DotsPerInch = 300;

    /// <summary>Renders the cards in the order given; one sheet at least.</summary>
    public static RenderedPaper Render(PaperSize size, IReadOnlyList<EntryCard> cards)
    {
        using var paper = new SlipPaper("Entry cards");
        var (width, height) = ((size.WidthPt - (2 * EdgePt)) / Columns, (size.HeightPt - (2 * EdgePt)) / Rows);
        var sheets = cards.Chunk(Columns * Rows).DefaultIfEmpty([]).ToList();
        foreach (var sheet in sheets)
        {
            paper.NewPage(size.WidthPt, size.HeightPt);
            foreach (var (i, card) in sheet.Index())
            {
                var corner = new Spot(EdgePt + (i % Columns * width), EdgePt + (i / Columns * height));
                paper.Frame(corner.X, corner.Y, width, height, 0.4);
                Draw(paper, card, corner, width, height);
            }
        }

        return new RenderedPaper(paper.Save(), sheets.Count, paper.Lacking);
    }

    private static void Draw(SlipPaper paper, EntryCard card, Spot corner, double width, double height)
    {
        var modules = QrModules.Encode(card.Address);
        var dot = 72.0 / DotsPerInch;
        var module = modules.DotsAModule(DotsPerInch, QrPt) * dot;
        var quiet = QrModules.QuietZone * module;
        var side = modules.Size * module;
        var left = corner.X + PadPt;

        // The quiet zone reaches into the padding, so that the code stands as far from the edge as the text.
        var code = new Spot(corner.X + width - PadPt - side + quiet, corner.Y + height - PadPt - side + quiet);
        var beside = code.X + quiet - left - 8;
        var whole = width - (2 * PadPt);

        var title = SlipText.SizeFor(paper, card.Event, Weight.Medium, 9, 6, whole);
        var name = SlipText.Lines(paper, card.Event, Weight.Medium, title, whole)[0];
        var y = Line(paper, name, Weight.Medium, title, left, corner.Y + PadPt);
        y = Line(paper, card.Number, Weight.Bold, SlipText.SizeFor(paper, card.Number, Weight.Bold, 34, 12, beside), left, y + 2);
        y = Lines(paper, card.Bowler ?? "Name struck", Weight.Bold, 12, beside, left, y + 2, most: 3);
        if (card.Squad is { } squad)
        {
            y = Lines(paper, $"Squad {squad}", Weight.Medium, 9, beside, left, y + 1, most: 2);
        }

        Lines(paper, Use, Weight.Medium, 7.5, beside, left, y + 4, most: 6);
        paper.Modules(
            modules,
            new Spot(Math.Floor(code.X / dot) * dot, Math.Ceiling(code.Y / dot) * dot), module);
    }

    private static double Line(SlipPaper paper, string text, Weight weight, double size, double x, double y)
    {
        paper.Text(SlipText.Lines(paper, text, weight, size, double.MaxValue)[0], weight, size, new Spot(x, y + (size * SlipText.Ascent)));
        return y + (size * SlipText.Leading);
    }

    private static double Lines(SlipPaper paper, string text, Weight weight, double size, double width, double x, double y, int most)
    {
        foreach (var line in SlipText.Lines(paper, text, weight, size, width).Take(most))
        {
            y = Line(paper, line, weight, size, x, y);
        }

        return y;
    }
}
