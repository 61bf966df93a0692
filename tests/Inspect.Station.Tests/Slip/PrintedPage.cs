using System.ComponentModel;
using System.Diagnostics;
using System.Globalization;
using System.Text;

namespace Inspect.Station.Tests.Slip;

/// <summary>A page as a printer would put it on paper: grey dots, 0 black to 255 white, made by pdftoppm and read by zbarimg.</summary>
internal sealed class PrintedPage
{
    private readonly byte[] file;
    private readonly int start;

    private PrintedPage(byte[] file)
    {
        this.file = file;
        var header = Encoding.ASCII.GetString(file, 0, Math.Min(64, file.Length)).Split([' ', '\n'], 5);
        Assert.Equal("P5", header[0]);
        Width = int.Parse(header[1], CultureInfo.InvariantCulture);
        Height = int.Parse(header[2], CultureInfo.InvariantCulture);
        start = file.Length - (Width * Height);
    }

    public int Width { get; }

    public int Height { get; }

    public byte this[int x, int y] => file[start + (y * Width) + x];

    /// <summary>All pages of a document at that resolution.</summary>
    public static IReadOnlyList<PrintedPage> All(byte[] pdf, int dotsPerInch)
    {
        var folder = Directory.CreateTempSubdirectory("slip-");
        try
        {
            var source = Path.Combine(folder.FullName, "slip.pdf");
            File.WriteAllBytes(source, pdf);
            Run("pdftoppm", "-r", dotsPerInch.ToString(CultureInfo.InvariantCulture), "-gray", source, Path.Combine(
                folder.FullName, "page"));
            return [.. folder.GetFiles("page*.pgm").OrderBy(page => page.Name, StringComparer.Ordinal)
                .Select(page => new PrintedPage(File.ReadAllBytes(page.FullName)))];
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    /// <summary>The first page of a document as a PNG for people.</summary>
    public static byte[] Png(byte[] pdf, int dotsPerInch)
    {
        var folder = Directory.CreateTempSubdirectory("slip-");
        try
        {
            var source = Path.Combine(folder.FullName, "slip.pdf");
            File.WriteAllBytes(source, pdf);
            Run("pdftoppm", "-r", dotsPerInch.ToString(CultureInfo.InvariantCulture), "-gray", "-png", "-singlefile", source, Path.Combine(
                folder.FullName, "page"));
            return File.ReadAllBytes(Path.Combine(folder.FullName, "page.png"));
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    /// <summary>The text of the one QR code on the page.</summary>
    public string ReadQr()
    {
        var folder = Directory.CreateTempSubdirectory("slip-");
        try
        {
            var source = Path.Combine(folder.FullName, "page.pgm");
            File.WriteAllBytes(source, file);
            return Run("zbarimg", "--quiet", "--raw", "-Sdisable", "-Sqrcode.enable", source).TrimEnd('\n');
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    /// <summary>
    /// The texts of the QR codes that stand below each other at the right edge of the page, each read alone as a phone held over it does:
    /// over a page with many, zbarimg mixes up the corners of two about once in a thousand codes.
    /// </summary>
    /// <param name="left">Where their column begins, in dots.</param>
    public IReadOnlyList<string> ReadQrColumn(int left)
    {
        // A code may have a row of modules without a dark one; between two codes there is more white than that.
        var white = (Width - left) / 20;
        List<string> texts = [];
        for (var top = 0; top < Height; top++)
        {
            var bottom = top;
            while (Enumerable.Range(bottom, white).Any(y => y < Height && Enumerable.Range(left, Width - left).Any(x => this[x, y] < 128)))
            {
                bottom++;
            }

            if (bottom - top > (Width - left) / 3)
            {
                texts.Add(Band(top, bottom).ReadQr());
            }

            top = bottom;
        }

        return texts;
    }

    // Its rows on white paper.
    private PrintedPage Band(int top, int bottom)
    {
        const int Quiet = 20;
        var head = Encoding.ASCII.GetBytes($"P5\n{Width} {bottom - top + (2 * Quiet)}\n255\n");
        var paper = Enumerable.Repeat((byte)255, Quiet * Width);
        return new PrintedPage([.. head, .. paper, .. file.AsSpan(start + (top * Width), (bottom - top) * Width), .. paper]);
    }

    private static string Run(string tool, params string[] arguments)
    {
        try
        {
            using var process = Process.Start(
                new ProcessStartInfo(tool, arguments) { RedirectStandardOutput = true, RedirectStandardError = true })!;
            var errors = process.StandardError.ReadToEndAsync();
            var output = process.StandardOutput.ReadToEnd();
            process.WaitForExit();
            Assert.True(process.ExitCode == 0, $"{tool} ended with {process.ExitCode}: {errors.Result}");
            return output;
        }
        catch (Win32Exception)
        {
            Assert.Fail($"'{tool}' was not found: run the tests with 'bash tests/run', which brings what they need.");
            throw;
        }
    }
}
