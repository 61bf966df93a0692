using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using Inspect.Sheets.Json;
using PdfSharp.Drawing;
using PdfSharp.Events;
using PdfSharp.Fonts;
using PdfSharp.Pdf;

namespace Inspect.Station.Slip;

/// <summary>The two font weights used in print.</summary>
internal enum Weight
{
    Medium,
    Bold,
}

/// <summary>Black, or white within black: a thermal printer has no shades.</summary>
internal enum Ink
{
    Black,
    White,
}

/// <summary>A point on a page, in points of 1/72 inch from its top left corner.</summary>
internal readonly record struct Spot(double X, double Y);

/// <summary>The pages of one slip or other paper, written as PDF: the only file that knows the PDF library.</summary>
/// <remarks>
/// Not thread-safe, but each thread may have its own. PDFsharp finds no fonts on its own on a plain Linux (empira/PDFsharp#351), so Inter
/// comes from the assembly. It silently draws an empty box for a letter that the font lacks. Here a solid square is drawn
/// and <see cref="Lacking"/> lists those letters.
/// </remarks>
internal sealed partial class SlipPaper : IDisposable
{
    /// <summary>Printed for each letter that the font lacks.</summary>
    public const char Substitute = '\u25A0';

    private const string Family = "Inter";

    private static readonly Lock FontLock = new();
    private static bool fontsReady;

    [GeneratedRegex(@"(?<=\d) (?=\d+/\d)|(?<=[\d\u00BD\u00BC\u00BE]) (?=(in|oz|lb|mm|cm|g|kg|F|C)\b)|(?<=\blb) (?=\d)")]
    private static partial Regex InsideFigure();

    // A proper fraction of the kind that rules and drill bits have; a day or a serial with strokes in it is none.
    [GeneratedRegex(@"(?<![\w/.,]|\w-)(?:(?<whole>\d+)\u00A0)?(?<over>\d{1,3})/(?<under>2|4|8|16|32|64|128)(?![\w/])")]
    private static partial Regex Fraction();

    private readonly PdfDocument document = new();
    private readonly XGraphics measure;
    private readonly Dictionary<(Weight Weight, double Size), XFont> fonts = [];
    private readonly Dictionary<(string Text, Weight Weight), double> widths = [];
    private readonly Dictionary<string, string[]> words = [];
    private readonly SortedSet<int> lacking = [];
    private XGraphics? page;

    /// <summary>Starts a document without pages. Text can be measured right away.</summary>
    public SlipPaper(string title)
    {
        SetFontsOnce();
        document.Info.Title = title;
        // Packing tighter takes a fifth of the time of a slip and saves 7 of its 36 kB.
        document.Options.FlateEncodeMode = PdfFlateEncodeMode.BestSpeed;
        document.RenderEvents.RenderTextEvent += SubstituteLacking;
        measure = XGraphics.CreateMeasureContext(
            new XSize(1000, 1000), XGraphicsUnit.Point, XPageDirection.Downwards, document.RenderEvents);
    }

    /// <summary>The letters met so far, in text drawn or measured, that the font lacks, each as <c>U+9AD8</c>.</summary>
    public IReadOnlyList<string> Lacking => [.. lacking.Select(point => "U+" + point.ToString("X4", CultureInfo.InvariantCulture))];

    /// <summary>
    /// The text as it can be set: composed (form C, since nothing here shapes letters), and every run of white space one space. Half a
    /// surrogate pair becomes a replacement character, which the font lacks and which is therefore shown and reported. A figure and its
    /// unit are tied together, so that no line ends between them, and a fraction is raised beside its whole number.
    /// </summary>
    public static string Settable(string text)
    {
        var whole = new StringBuilder(text.Length);
        Span<char> letter = stackalloc char[2];
        foreach (var rune in text.EnumerateRunes())
        {
            if (!Rune.IsWhiteSpace(rune) && !Rune.IsControl(rune))
            {
                whole.Append(letter[..rune.EncodeToUtf16(letter)]);
            }
            else if (whole.Length > 0 && whole[^1] != ' ')
            {
                whole.Append(' ');
            }
        }

        return Fraction().Replace(
            InsideFigure().Replace(PlainText.Normalized(whole.ToString().TrimEnd(), NormalizationForm.FormC), "\u00A0"), Raised);
    }

    /// <summary>The words of a text as they can be set. A slip is laid out in several sizes, so each text is cut once.</summary>
    public string[] Words(string text)
    {
        if (!words.TryGetValue(text, out var cut))
        {
            cut = Settable(text).Split(' ', StringSplitOptions.RemoveEmptyEntries);
            words.Add(text, cut);
        }

        return cut;
    }

    /// <summary>The width of a settable text in points.</summary>
    public double WidthOf(string text, Weight weight, double size)
    {
        // The same words recur in several sizes. Width grows with size, so each is measured once.
        if (!widths.TryGetValue((text, weight), out var width))
        {
            width = measure.MeasureString(Spaced(text), Font(weight, 1)).Width;
            widths.Add((text, weight), width);
        }

        return width * size;
    }

    public void NewPage(double widthPt, double heightPt)
    {
        page?.Dispose();
        var sheet = document.AddPage();
        sheet.Width = XUnit.FromPoint(widthPt);
        sheet.Height = XUnit.FromPoint(heightPt);
        page = XGraphics.FromPdfPage(sheet);
    }

    /// <summary>Sets a text with its left end on the base line at <paramref name="at"/>.</summary>
    public void Text(string text, Weight weight, double size, Spot at, Ink ink = Ink.Black) =>
        Page.DrawString(Spaced(text), Font(weight, size), Brush(ink), at.X, at.Y);

    /// <summary>Sets a text around <paramref name="centre"/>, turned clockwise.</summary>
    public void TurnedText(string text, Weight weight, double size, Spot centre, double degrees, Ink ink)
    {
        var state = Page.Save();
        Page.RotateAtTransform(degrees, new XPoint(centre.X, centre.Y));
        // The middle of a capital is 0.36 em above the base line.
        Text(text, weight, size, new Spot(centre.X - (WidthOf(text, weight, size) / 2), centre.Y + (size * 0.36)), ink);
        Page.Restore(state);
    }

    public void Rectangle(double x, double y, double width, double height, Ink ink = Ink.Black) =>
        Page.DrawRectangle(Brush(ink), x, y, width, height);

    /// <summary>Draws an outline whose stroke lies inside the rectangle.</summary>
    public void Frame(double x, double y, double width, double height, double stroke) =>
        Page.DrawRectangle(new XPen(XColors.Black, stroke), x + (stroke / 2), y + (stroke / 2), width - stroke, height - stroke);

    public void Disc(Spot centre, double radius, Ink ink = Ink.Black) =>
        Page.DrawEllipse(Brush(ink), centre.X - radius, centre.Y - radius, 2 * radius, 2 * radius);

    public void Polygon(ReadOnlySpan<Spot> corners, Ink ink = Ink.Black) =>
        Page.DrawPolygon(Brush(ink), Points(corners), XFillMode.Winding);

    public void Stroke(ReadOnlySpan<Spot> along, double width, Ink ink = Ink.Black) =>
        Page.DrawLines(new XPen(ink == Ink.Black ? XColors.Black : XColors.White, width) { LineJoin = XLineJoin.Miter }, Points(along));

    /// <summary>Fills all the runs of a QR code as one path, so that no hairline shows between them.</summary>
    public void Modules(QrModules modules, Spot topLeft, double modulePt)
    {
        var path = new XGraphicsPath { FillMode = XFillMode.Winding };
        foreach (var run in modules.Runs)
        {
            path.AddRectangle(topLeft.X + (run.Column * modulePt), topLeft.Y + (run.Row * modulePt), run.Length * modulePt, modulePt);
        }

        Page.DrawPath(XBrushes.Black, path);
    }

    public byte[] Save()
    {
        page?.Dispose();
        page = null;
        using var bytes = new MemoryStream();
        document.Save(bytes);
        return bytes.ToArray();
    }

    public void Dispose()
    {
        page?.Dispose();
        measure.Dispose();
        document.Dispose();
    }

    private XGraphics Page => page ?? throw new InvalidOperationException("A page is begun before anything is drawn on it.");

    // 1 9/16 as one whole and nine sixteenths; the digits above and below the stroke are letters of the font.
    private static string Raised(Match fraction)
    {
        const string Above = "\u2070\u00B9\u00B2\u00B3\u2074\u2075\u2076\u2077\u2078\u2079";
        var (over, under) = (fraction.Groups["over"].Value, fraction.Groups["under"].Value);
        return int.Parse(over, CultureInfo.InvariantCulture) >= int.Parse(under, CultureInfo.InvariantCulture) ? fraction.Value
            : fraction.Groups["whole"].Value + string.Concat(over.Select(digit => Above[digit - '0'])) + '\u2044'
                + string.Concat(under.Select(digit => (char)('\u2080' + digit - '0')));
    }

    // The space that keeps a figure and its unit in one line is printed as any other: one space, before a fraction too.
    private static string Spaced(string text) => text.Replace('\u00A0', ' ');

    private static XSolidBrush Brush(Ink ink) => ink == Ink.Black ? XBrushes.Black : XBrushes.White;

    private static XPoint[] Points(ReadOnlySpan<Spot> spots)
    {
        var points = new XPoint[spots.Length];
        for (var i = 0; i < spots.Length; i++)
        {
            points[i] = new XPoint(spots[i].X, spots[i].Y);
        }

        return points;
    }

    private XFont Font(Weight weight, double size)
    {
        if (!fonts.TryGetValue((weight, size), out var font))
        {
            var style = weight == Weight.Bold ? XFontStyleEx.Bold : XFontStyleEx.Regular;
            font = new XFont(Family, size, style, new XPdfFontOptions(PdfFontEncoding.Unicode, PdfFontEmbedding.TryComputeSubset));
            fonts.Add((weight, size), font);
        }

        return font;
    }

    private void SubstituteLacking(object sender, RenderTextEventArgs args)
    {
        var pairs = args.CodePointGlyphIndexPairs;
        for (var i = 0; i < pairs.Length; i++)
        {
            if (pairs[i].GlyphIndex == 0)
            {
                lacking.Add(pairs[i].CodePoint);
                pairs[i].CodePoint = Substitute;
                args.ReevaluateGlyphIndices = true;
            }
        }
    }

    private static void SetFontsOnce()
    {
        lock (FontLock)
        {
            if (!fontsReady)
            {
                GlobalFontSettings.FontResolver = new EmbeddedInter();
                fontsReady = true;
            }
        }
    }

    private sealed class EmbeddedInter : IFontResolver
    {
        public FontResolverInfo? ResolveTypeface(string familyName, bool isBold, bool isItalic) =>
            familyName == Family ? new FontResolverInfo(isBold ? "Inter-Bold" : "Inter-Medium") : null;

        public byte[]? GetFont(string faceName)
        {
            using var resource = typeof(EmbeddedInter).Assembly.GetManifestResourceStream($"slip/fonts/{faceName}.ttf")
                ?? throw new InvalidOperationException($"The font '{faceName}' is missing from the program.");
            var bytes = new byte[resource.Length];
            resource.ReadExactly(bytes);
            return bytes;
        }
    }
}
