using System.Globalization;
using Inspect.Station.Record;
using Inspect.Station.Slip;
using PdfSharp.Drawing;
using PdfSharp.Pdf;
using Clock = System.Diagnostics.Stopwatch;

namespace Inspect.Benchmarks.Slips;

/// <summary>How long a slip takes as a PDF, beside a page by the same library with one line of text and the same code on it.</summary>
internal static class SlipBenchmark
{
    private const int Slips = 300;

    public static void Run()
    {
        // The first ones load fonts and are compiled: a station does that at its start.
        var modules = QrModules.Encode(Content(false, 0).ScanUrl);
        Times(20, number => SlipDocument.Render(Content(number % 2 == 0, number), SlipStock.Label).Pdf);
        Times(20, _ => Bare(modules));
        var (bare, bareCpu, bareBytes) = Times(Slips, _ => Bare(modules));
        Line("reference: a bare page with the code", bare, bareBytes, bare[Slips / 2]);
        Report.Line("reference: processor time, mean", bareCpu, bareCpu);
        foreach (var (what, fails) in new[] { ("slip of a pass, label", false), ("slip of a fail, label", true) })
        {
            var (times, cpu, bytes) = Times(Slips, number => SlipDocument.Render(Content(fails, number), SlipStock.Label).Pdf);
            Line(what, times, bytes, bare[Slips / 2]);
            Report.Line($"{what}: processor time, mean", cpu, bareCpu);
        }
    }

    private static void Line(string what, List<TimeSpan> times, long bytes, TimeSpan reference)
    {
        Report.Line($"{what}: p50", times[times.Count / 2], reference);
        Report.Line($"{what}: p99", times[times.Count * 99 / 100], reference);
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{what}: allocated {bytes / 1e3:0} kB"));
    }

    private static (List<TimeSpan> Times, TimeSpan Cpu, long Bytes) Times(int count, Func<int, byte[]> render)
    {
        var times = new List<TimeSpan>(count);
        var (cpu, bytes) = (Environment.CpuUsage.TotalTime, GC.GetAllocatedBytesForCurrentThread());
        for (var number = 0; number < count; number++)
        {
            var started = Clock.GetTimestamp();
            GC.KeepAlive(render(number));
            times.Add(Clock.GetElapsedTime(started));
        }

        var spent = (Environment.CpuUsage.TotalTime - cpu) / count;
        bytes = (GC.GetAllocatedBytesForCurrentThread() - bytes) / count;
        times.Sort();
        return (times, spent, bytes);
    }

    private static byte[] Bare(QrModules modules)
    {
        using var document = new PdfDocument();
        var page = document.AddPage();
        using (var drawing = XGraphics.FromPdfPage(page))
        {
            var path = new XGraphicsPath { FillMode = XFillMode.Winding };
            foreach (var run in modules.Runs)
            {
                path.AddRectangle(10 + (run.Column * 2), 10 + (run.Row * 2), run.Length * 2, 2);
            }

            drawing.DrawPath(XBrushes.Black, path);
            var options = new XPdfFontOptions(PdfFontEncoding.Unicode, PdfFontEmbedding.TryComputeSubset);
            var font = new XFont("Inter", 8, XFontStyleEx.Regular, options);
            drawing.DrawString("LANTERN-0417 PASS", font, XBrushes.Black, 10, 200);
        }

        using var bytes = new MemoryStream();
        document.Save(bytes);
        return bytes.ToArray();
    }

    private static SlipContent Content(bool fails, int number) => new()
    {
        Outcome = fails ? SlipOutcome.Fail : SlipOutcome.Pass,
        Number = string.Create(CultureInfo.InvariantCulture, $"LANTERN-{number:0000}"),
        Code = SlipCode.Draw(),
        ScanUrl = "HTTP://192.168.17.40:5210/S/7QK4M2RT9WXE",
        Event = "Quillhaven Lantern Open",
        GoodFrom = new DateOnly(2027, 3, 12),
        GoodTo = new DateOnly(2027, 3, 14),
        Play = new DateOnly(2027, 3, 14),
        Bowler = "Ottoline Brackenbury",
        Entry = "117",
        BallMaker = "Cindermoor",
        BallModel = "Nightjar 12",
        BallSerial = "7QK4211A",
        Grip = "Right hand; thumb, middle finger and ring finger in holes.",
        EditionTitle = "Equipment rules of an invented federation, 2026",
        EditionId = "invented/2026-01-01",
        Inspector = "Ida Morrowgate",
        RecordedAt = new DateTimeOffset(2027, 3, 14, 9, 26, 0, TimeSpan.FromHours(1)),
        Findings = [.. Enumerable.Range(0, 29).Select(index => Finding(fails && index % 9 == 4, index))],
        Notes = fails ? ["Once more on another scale: the reading is close to its limit."] : [],
        Advice = fails ? "A weight hole is not allowed; a deeper middle finger hole would take the ball inside the limit." : null,
        RegisterSize = 4_211,
        RegisterRoot = "7c1f04ab99e2",
    };

    private static SlipFinding Finding(bool fails, int index) => new(
        string.Create(CultureInfo.InvariantCulture, $"Rule {index + 1} of the edition"),
        index % 3 == 0 ? "thumb" : "ball",
        "3 1/4 oz",
        "at most 3 oz",
        fails ? "-1/4 oz" : "1/4 oz",
        fails ? SlipOutcome.Fail : SlipOutcome.Pass,
        fails ? "The reading of 3 1/4 oz is 1/4 oz above the limit of 3 oz that the rules set for a ball of this weight." : null);
}
