using System.Diagnostics;
using System.Net;
using System.Text.Json.Nodes;
using Inspect.Station.Slip;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Record;
using UglyToad.PdfPig;
using UglyToad.PdfPig.DocumentLayoutAnalysis.TextExtractor;

namespace Inspect.Station.Tests.Scan;

/// <summary>From a recorded ball over the printed slip to the page that its QR code leads to, as a phone at the lanes goes.</summary>
/// <remarks>
/// Independent readers: poppler's pdftoppm makes pixels at 203 dots an inch (a thermal label printer's), zbarimg reads the QR code
/// (ISO/IEC 18004), PdfPig reads the text.
/// </remarks>
public sealed class SlipToScanTests
{
    [Theory]
    [InlineData("label", true)]
    [InlineData("label", false)]
    [InlineData("a6", false)]
    [InlineData("receipt", true)]
    [InlineData("roll62", false)]
    public async Task Slip_PrintedAndScanned_LeadsToTheSameVerdict(string stock, bool legal)
    {
        await using var station = new StationFixture().Listen();
        using var inspector = await station.Client("inspector");
        var recorded = await inspector.Recorded(legal ? SampleSheets.Legal() : SampleSheets.TooHeavyOnTheLeft());
        var pdf = await inspector.GetByteArrayAsync($"{recorded["links"]!["slip"]}?stock={stock}");

        var address = await ScannedFrom(pdf);

        using var phone = await station.Client();
        using var answer = await phone.GetAsync(new Uri(address));
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        var page = await answer.Read();
        Assert.Equal(legal ? "Pass" : "Fail", page.QuerySelector(".scanned .verdict strong")!.TextContent);
        Assert.Contains(recorded["number"]!.GetValue<string>(), page.Body!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Slip_OfAPass_HoldsEveryFinding()
    {
        var (recorded, text) = await Printed(SampleSheets.Legal());

        foreach (var finding in recorded["verdict"]!["findings"]!.AsArray())
        {
            var title = Inspect.Rules.Judging.Explanation.RuleTitle(finding!["rule"]!.GetValue<string>());
            Assert.Contains(title, text, StringComparison.OrdinalIgnoreCase);
            if (finding["measured"] is { } measured)
            {
                Assert.Contains(Set(measured.GetValue<string>().TrimStart('-')), text, StringComparison.Ordinal);
            }
        }

        // The side stands where a program's answer has a sign.
        Assert.Contains(Set("1/4 oz thumb"), text, StringComparison.Ordinal);
        Assert.Contains("us-national/2020-08-01", text, StringComparison.Ordinal);
        Assert.Contains(recorded["number"]!.GetValue<string>(), text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Slip_OfAFail_HoldsTheReasonAndNoOtherFinding()
    {
        var (recorded, text) = await Printed(SampleSheets.TooHeavyOnTheLeft());

        var findings = recorded["verdict"]!["findings"]!.AsArray();
        var failed = Assert.Single(findings, finding => finding!["outcome"]!.GetValue<string>() == "fail")!;
        Assert.Contains(Set(failed["reason"]!.GetValue<string>()), text, StringComparison.Ordinal);
        Assert.Contains($"{findings.Count - 1} other checks in order.", text, StringComparison.Ordinal);
        Assert.DoesNotContain("Gross weight", text, StringComparison.Ordinal);
        Assert.Contains("us-national/2020-08-01", text, StringComparison.Ordinal);
    }

    private static string Set(string written) => SlipPaper.Settable(written).Replace('\u00a0', ' ');

    private static async Task<(JsonObject Recorded, string Text)> Printed(JsonObject sheet)
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        var recorded = await inspector.Recorded(sheet);
        using var document = PdfDocument.Open(await inspector.GetByteArrayAsync(recorded["links"]!["slip"]!.GetValue<string>()));
        var text = string.Join(' ', document.GetPages().Select(page => ContentOrderTextExtractor.GetText(page)));
        return (recorded, string.Join(' ', text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)));
    }

    private static async Task<string> ScannedFrom(byte[] pdf)
    {
        var folder = Directory.CreateTempSubdirectory("inspect-slip-").FullName;
        try
        {
            var file = Path.Combine(folder, "slip.pdf");
            await File.WriteAllBytesAsync(file, pdf);
            await Run("pdftoppm", "-r", "203", "-gray", "-f", "1", "-l", "1", "-singlefile", file, Path.Combine(folder, "slip"));
            return (await Run("zbarimg", "--quiet", "--raw", Path.Combine(folder, "slip.pgm"))).Trim();
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static async Task<string> Run(string program, params string[] arguments)
    {
        try
        {
            using var process = Process.Start(
                new ProcessStartInfo(program, arguments) { RedirectStandardOutput = true, RedirectStandardError = true })!;
            var output = await process.StandardOutput.ReadToEndAsync();
            await process.WaitForExitAsync();
            Assert.True(process.ExitCode == 0, $"{program} ended with {process.ExitCode}: {await process.StandardError.ReadToEndAsync()}");
            return output;
        }
        catch (System.ComponentModel.Win32Exception)
        {
            throw new InvalidOperationException($"{program} is not installed; tests/run installs it.");
        }
    }
}
