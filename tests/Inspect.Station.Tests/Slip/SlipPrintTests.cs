using Inspect.Station.Slip;
using UglyToad.PdfPig;

namespace Inspect.Station.Tests.Slip;

/// <summary>The slip as dots on paper: its QR code reads, and lies on whole printer dots.</summary>
/// <remarks>Source: zbarimg, an independent reader, and the quiet zone of ISO/IEC 18004; the layout is defined by this project.</remarks>
public class SlipPrintTests
{
    public static TheoryData<string, SlipOutcome, int> Everything
    {
        get
        {
            var data = new TheoryData<string, SlipOutcome, int>();
            foreach (var stock in SlipStock.All)
            {
                foreach (var outcome in Enum.GetValues<SlipOutcome>())
                {
                    data.Add(stock.Name, outcome, 203);
                    data.Add(stock.Name, outcome, 300);
                }
            }

            return data;
        }
    }

    [Theory]
    [MemberData(nameof(Everything))]
    public void Render_AnySlip_CarriesItsAddressOnEveryPage(string stockName, SlipOutcome outcome, int dotsPerInch)
    {
        Assert.True(SlipStock.TryFind(stockName, out var stock));
        var content = SlipSamples.Of(outcome);
        var slip = SlipDocument.Render(content, stock, dotsPerInch);
        var pages = PrintedPage.All(slip.Pdf, dotsPerInch);
        Assert.Equal(slip.Pages, pages.Count);
        Assert.All(pages, page => Assert.Equal(content.ScanUrl, page.ReadQr()));
    }

    [Theory]
    [MemberData(nameof(Everything))]
    public void Render_AnySlip_PutsEachModuleOnWholeDots(string stockName, SlipOutcome outcome, int dotsPerInch)
    {
        Assert.True(SlipStock.TryFind(stockName, out var stock));
        var content = SlipSamples.Of(outcome);
        var modules = QrModules.Encode(content.ScanUrl);
        var slip = SlipDocument.Render(content, stock, dotsPerInch);
        using var document = PdfDocument.Open(slip.Pdf);
        foreach (var (page, printed) in document.GetPages().Zip(PrintedPage.All(slip.Pdf, dotsPerInch)))
        {
            var code = page.Paths.Single(path => path.Count > 100);
            var boxes = code.Select(part => part.GetBoundingRectangle()!.Value).ToList();
            Assert.Equal(modules.Runs.Count, boxes.Count);
            double Dots(double points) => points * dotsPerInch / 72;
            var left = Dots(boxes.Min(box => box.Left));
            var top = Dots(page.Height - boxes.Max(box => box.Top));
            var across = Dots(boxes.Max(box => box.Right)) - left;
            var side = across / (modules.Size - (2 * QrModules.QuietZone));
            AssertWhole(side);
            AssertWhole(left);
            AssertWhole(top);
            Assert.True(Math.Round(side) >= QrModules.FewestDots(dotsPerInch));
            Assert.All(boxes, box => AssertWhole(Dots(box.Left)));

            // The paper agrees, quiet zone and all: each module is dark or light to its very edge.
            var dark = modules.Runs.SelectMany(run => Enumerable.Range(run.Column, run.Length).Select(column => (run.Row, column)))
                .ToHashSet();
            var dots = (int)Math.Round(side);
            var (x0, y0) = ((int)Math.Round(left) - (4 * dots), (int)Math.Round(top) - (4 * dots));
            for (var y = 0; y < modules.Size * dots; y++)
            {
                for (var x = 0; x < modules.Size * dots; x++)
                {
                    Assert.Equal(dark.Contains((y / dots, x / dots)), printed[x0 + x, y0 + y] < 128);
                }
            }
        }
    }

    [Fact]
    public void Render_OnALabel_LeavesNothingOutsideThePrintableRoom()
    {
        foreach (var page in PrintedPage.All(SlipDocument.Render(SlipSamples.Of(SlipOutcome.Fail), SlipStock.Label).Pdf, 203))
        {
            Assert.Equal((812, 1218), (page.Width, page.Height));
            for (var x = 0; x < page.Width; x++)
            {
                Assert.All([0, 5, page.Height - 6, page.Height - 1], y => Assert.Equal(255, page[x, y]));
            }
        }
    }

    [Fact]
    public void Render_OnALabel_UsesNoGreyButAtTheEdgesOfShapes()
    {
        var page = PrintedPage.All(SlipDocument.Render(SlipSamples.Of(SlipOutcome.Hold), SlipStock.Label).Pdf, 812)[0];
        long between = 0;
        for (var y = 1; y + 1 < page.Height; y++)
        {
            for (var x = 1; x + 1 < page.Width; x++)
            {
                var around = new[] { page[x, y], page[x - 1, y], page[x + 1, y], page[x, y - 1], page[x, y + 1] };
                between += around.All(dot => dot is > 40 and < 215) ? 1 : 0;
            }
        }

        Assert.Equal(0, between);
    }

    [Fact]
    public void Render_OutcomesOfOneBall_DifferInShapeAndBorder()
    {
        var shares = Enum.GetValues<SlipOutcome>().ToDictionary(outcome => outcome, outcome =>
        {
            var page = PrintedPage.All(SlipDocument.Render(SlipSamples.Of(outcome), SlipStock.Label).Pdf, 203)[0];
            // The band runs from 5 to 14 points inside the left edge.
            var dots = Enumerable.Range(200, 800).SelectMany(y => Enumerable.Range(18, 18).Select(x => page[x, y]));
            return dots.Average(dot => dot < 128 ? 1.0 : 0.0);
        });
        Assert.InRange(shares[SlipOutcome.Pass], 0.0, 0.30);
        Assert.InRange(shares[SlipOutcome.Hold], 0.35, 0.65);
        Assert.InRange(shares[SlipOutcome.Fail], 0.80, 1.0);
    }

    private static void AssertWhole(double dots) => Assert.InRange(Math.Abs(dots - Math.Round(dots)), 0, 0.03);
}
