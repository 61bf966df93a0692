using QRCoder;

namespace Inspect.Station.Slip;

/// <summary>A stretch of dark modules side by side in one row, counted from the outer edge of the quiet zone.</summary>
public readonly record struct QrRun(int Row, int Column, int Length);

/// <summary>The dark and light modules of a QR code at level M, quiet zone included, ready to be drawn as shapes.</summary>
/// <remarks>ISO/IEC 18004. A text of digits, capitals and <c>$%*+-./:</c> takes the alphanumeric mode, and so the smallest code.</remarks>
public sealed class QrModules
{
    /// <summary>Light modules on each side that a reader needs to find the code.</summary>
    public const int QuietZone = 4;

    // 0.42 mm is 5 dots of a 300 dpi printer; at 203 dpi the next whole dot makes it 0.50 mm. Common practice for slips read by phones.
    private const double LeastModuleMm = 0.42;
    private const double MmPerInch = 25.4;

    private QrModules(int version, int size, IReadOnlyList<QrRun> runs)
    {
        Version = version;
        Size = size;
        Runs = runs;
    }

    /// <summary>The version, 1 to 40: a code is 17 + 4 x version modules wide, without its quiet zone.</summary>
    public int Version { get; }

    /// <summary>Modules on a side, quiet zone included.</summary>
    public int Size { get; }

    /// <summary>The dark modules, merged along each row, top to bottom.</summary>
    public IReadOnlyList<QrRun> Runs { get; }

    /// <summary>Encodes a text in the smallest version that holds it.</summary>
    /// <exception cref="ArgumentException">The text is empty.</exception>
    public static QrModules Encode(string text)
    {
        ArgumentException.ThrowIfNullOrEmpty(text);
        using var code = QRCodeGenerator.GenerateQrCode(text, QRCodeGenerator.ECCLevel.M);
        var rows = code.ModuleMatrix;
        var runs = new List<QrRun>();
        for (var row = 0; row < rows.Count; row++)
        {
            for (var column = 0; column < rows.Count; column++)
            {
                var start = column;
                while (column < rows.Count && rows[row][column])
                {
                    column++;
                }

                if (column > start)
                {
                    runs.Add(new QrRun(row, start, column - start));
                }
            }
        }

        return new QrModules(code.Version, rows.Count, runs);
    }

    /// <summary>
    /// Whole printer dots a module: as many as make the code, quiet zone included, no wider than <paramref name="widthPt"/>, but never
    /// fewer than a phone can read.
    /// </summary>
    /// <param name="dotsPerInch">The printer's resolution.</param>
    /// <param name="widthPt">The width wanted, in points of 1/72 inch.</param>
    public int DotsAModule(int dotsPerInch, double widthPt) =>
        Math.Max(FewestDots(dotsPerInch), (int)(widthPt * dotsPerInch / 72 / Size));

    /// <summary>The fewest whole printer dots that make a module a phone can read: 4 at 203 dpi, 5 at 300 dpi.</summary>
    public static int FewestDots(int dotsPerInch) => (int)Math.Ceiling(LeastModuleMm * dotsPerInch / MmPerInch);
}
