using Inspect.Sheets;
using Inspect.Sheets.Form;
using Inspect.Sheets.Readings;
using Inspect.Station.Slip;

namespace Inspect.Station.Papers;

/// <summary>A sheet to be filled in by hand.</summary>
/// <param name="Event">The event's name.</param>
/// <param name="Number">The bowler's number; empty on a sheet for anyone.</param>
/// <param name="Bowler">The bowler's name; empty on a sheet for anyone.</param>
/// <param name="Ball">What the bowler wrote of the ball; null when nothing was.</param>
internal sealed record EmptySheet(string Event, string Number, string Bowler, Record.BallAsWritten? Ball);

/// <summary>The measuring form on paper, one ball a page, for when the station cannot be used. Its boxes are those of the form and come
/// from the same catalogue.</summary>
internal static class EmptySheetPaper
{
    private const double EdgePt = 36;
    private const double BoxPt = 30;
    private const double LinePt = 17;
    private const double LabelPt = 6.5;
    private const double WordPt = 8.5;

    /// <summary>Renders the sheets in the order given; one page at least.</summary>
    public static RenderedPaper Render(PaperSize size, IReadOnlyList<EmptySheet> sheets)
    {
        using var paper = new SlipPaper("Inspection sheets");
        foreach (var sheet in sheets)
        {
            paper.NewPage(size.WidthPt, size.HeightPt);
            new Page(paper, size.WidthPt - (2 * EdgePt)).Draw(sheet);
        }

        return new RenderedPaper(paper.Save(), sheets.Count, paper.Lacking);
    }

    /// <summary>A box to write in, or a few words to tick.</summary>
    private sealed record Box(string Label, double Share, string Unit = "", string? Filled = null, IReadOnlyList<string>? Ticks = null);

    private sealed class Page(SlipPaper paper, double width)
    {
        private double _y = EdgePt;

        public void Draw(EmptySheet sheet)
        {
            Text($"{sheet.Event}: inspection sheet", Weight.Bold, SlipText.SizeFor(paper, sheet.Event, Weight.Bold, 13, 8, width - 130));
            const string Use = "Typed in later, under More, \"Measured earlier and written on paper\". The verdict is the station's.";
            Text(Use, Weight.Medium, 7.5);
            Boxes(
                new("Entry", 1, Filled: sheet.Number), new("Bowler", 3, Filled: sheet.Bowler), new("Day measured", 1.3), new("Time", 1),
                new("Table", 1), new("Inspector", 2));
            Heading("Ball and grip");
            Boxes(
                new(Label("ball.maker"), 2, Filled: sheet.Ball?.Maker), new(Label("ball.model"), 2, Filled: sheet.Ball?.Model),
                new(Label("ball.serial"), 2, Filled: sheet.Ball?.Serial), new("Seal or tag", 1), new("Made", 1));
            Boxes(
                new(Label("ball.listed"), 2, Ticks: [.. Words.Listings.Keys]), new(Label("grip.hand"), 1.2, Ticks: ["right", "left"]),
                new(Label("grip.digits"), 3.4, Ticks: FormFields.DigitWords));
            Heading("Weighed");
            Boxes([
                new(Label("weights.gross"), 1.2, Mark("weights.gross")),
                .. Catalogue.Imbalances.Select(member => new Box(
                    member.Label, 1.6, Mark(member.Path), Ticks: [member.Sides!.Positive, member.Sides.Negative]))]);
            Heading("Gauged");
            foreach (var gauged in Catalogue.Gauged.GroupBy(member => member.Stops > 0))
            {
                // Below, what is gauged only where the rules ask for it.
                Boxes([.. gauged.SelectMany(member => member.FieldNames.Take(Math.Max(member.Open, 1))
                    .Select((field, i) => new Box(member.LabelOf(i), 1, member.Unit is { } unit ? Unit(unit) : "")))]);
            }

            Heading("Holes");
            var digits = MeasureForm.Digits.Select(digit => Words.Capital(Words.Of(digit)));
            foreach (var row in (IEnumerable<string>)[.. digits, "Other hole", "Other hole"])
            {
                Boxes(
                    new(row, 0.8), new("Diameter", 1, "in"), new("Depth", 1, "in"),
                    new("In the hole", 2.4, Ticks: [.. Words.Devices.Keys]));
            }

            Heading("Looked at");
            foreach (var pair in Catalogue.Seen.Chunk(2))
            {
                Lines([.. pair.Select(member => member.Kind == MemberKind.Flag
                    ? new Box(member.Label, 1, Ticks: ["yes", "no"])
                    : new Box(member.Label, 1, Ticks: []))]);
            }

            Lines([
                new Box("Extra hole inside a finger or thumb hole", 1, Ticks: ["yes", "no"]),
                new Box("Any other holes", 1, Ticks: ["yes", "no"])]);
            Heading("Left out, and why; remarks");
            paper.Frame(EdgePt, _y, width, 48, 0.5);
        }

        private void Text(string text, Weight weight, double size)
        {
            var line = SlipText.Lines(paper, text, weight, size, width)[0];
            paper.Text(line, weight, size, new Spot(EdgePt, _y + (size * SlipText.Ascent)));
            _y += (size * SlipText.Leading) + 2;
        }

        private void Heading(string text)
        {
            _y += 5;
            Text(text, Weight.Bold, 9);
        }

        private void Boxes(params IReadOnlyList<Box> boxes) => Row(boxes, BoxPt, (box, x, wide) =>
        {
            paper.Frame(x, _y, wide, BoxPt, 0.5);
            paper.Text(Fitted(box.Label, wide - 6, LabelPt), Weight.Medium, LabelPt, new Spot(x + 3, _y + 8));
            if (box.Filled is { Length: > 0 } filled)
            {
                var size = SlipText.SizeFor(paper, filled, Weight.Bold, 11, 6, wide - 6);
                paper.Text(Fitted(filled, wide - 6, size), Weight.Bold, size, new Spot(x + 3, _y + BoxPt - 6));
            }

            var unit = SlipPaper.Settable(box.Unit);
            paper.Text(unit, Weight.Medium, LabelPt, new Spot(x + wide - 3 - paper.WidthOf(unit, Weight.Medium, LabelPt), _y + 8));
            Ticks(box, box.Unit.Length > 0 ? x + (wide * 0.45) : x + 3, _y + BoxPt - 6);
        });

        private void Lines(IReadOnlyList<Box> boxes) => Row(boxes, LinePt, (box, x, wide) =>
        {
            paper.Text(Fitted(box.Label, wide - 80, WordPt), Weight.Medium, WordPt, new Spot(x, _y + 11));
            if (box.Ticks is { Count: > 0 })
            {
                Ticks(box, x + wide - 75, _y + 11);
            }
            else
            {
                paper.Frame(x + wide - 75, _y + 1, 60, LinePt - 4, 0.5);
            }
        });

        private void Row(IReadOnlyList<Box> boxes, double height, Action<Box, double, double> draw)
        {
            var (x, whole) = (EdgePt, boxes.Sum(box => box.Share));
            foreach (var box in boxes)
            {
                var wide = width * box.Share / whole;
                draw(box, x, wide);
                x += wide;
            }

            _y += height;
        }

        private void Ticks(Box box, double x, double baseline)
        {
            foreach (var word in box.Ticks ?? [])
            {
                paper.Frame(x, baseline - 7, 8, 8, 0.6);
                paper.Text(word, Weight.Medium, WordPt, new Spot(x + 10, baseline));
                x += 15 + paper.WidthOf(word, Weight.Medium, WordPt);
            }
        }

        private string Fitted(string text, double room, double size) => SlipText.Lines(paper, text, Weight.Medium, size, room)[0];

        private static string Label(string path) => Catalogue.At(path)!.Label;

        private static string Mark(string path) => Catalogue.At(path)!.Unit is { } unit ? Unit(unit) : "";

        private static string Unit(Unit unit) => unit == Inspect.Sheets.Readings.Unit.ShoreD ? "D" : Units.Mark(unit);
    }
}
