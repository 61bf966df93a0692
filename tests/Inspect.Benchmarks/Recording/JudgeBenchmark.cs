using System.Text;
using System.Text.Json;
using Inspect.Benchmarks.Desk;
using Inspect.Rules.Judging;
using Inspect.Rules.Rulesets;
using Inspect.Sheets;
using Inspect.Sheets.Json;
using Inspect.Station.Rulesets;
using Inspect.Station.Web;

namespace Inspect.Benchmarks.Recording;

/// <summary>What it costs to judge a sheet, beside the same comparisons written out by hand.</summary>
internal static class JudgeBenchmark
{
    public static void Run()
    {
        var book = RulesetBook.Open(null, [])!.Editions;
        var json = SampleSheets.Request(1)["sheet"]!.AsObject();
        json["authority"] = "us-national";
        var utf8 = Encoding.UTF8.GetBytes(json.ToJsonString());
        var sheet = SheetReader.Read(utf8, [])!;
        var verdict = SheetJudge.Judge(book, sheet, [])!;
        var byHand = new ByHand(sheet, verdict);
        Console.WriteLine(
            $"{verdict.Findings.Count} findings, {verdict.Outcome}; by hand {byHand.Judge().Count}, {Verdict.Of(byHand.Judge())}");

        Pair("a sheet to a verdict", () => byHand.Judge().Count, () => SheetJudge.Judge(book, sheet, [])!.Findings.Count);
        Pair("the JSON of a sheet to the JSON of a verdict", () => ByHand.JudgeJson(utf8, verdict).Length, () =>
        {
            var faults = new List<Fault>();
            return JsonSerializer.SerializeToUtf8Bytes(
                SheetJudge.Judge(book, SheetReader.Read(utf8, faults)!, faults)!, JsonSettings.Options).Length;
        });
    }

    private static void Pair(string what, Func<double> byHand, Func<double> ours)
    {
        var (reference, time) = (Stopwatch.Median(byHand), Stopwatch.Median(ours));
        Report.Line($"by hand: {what}", reference, reference);
        Report.Line(what, time, reference);
        Report.Bytes($"by hand: {what}", Allocated(byHand), Allocated(byHand));
        Report.Bytes(what, Allocated(ours), Allocated(byHand));
    }

    private static double Allocated(Func<double> call)
    {
        const int Calls = 200;
        var before = GC.GetAllocatedBytesForCurrentThread();
        for (var i = 0; i < Calls; i++)
        {
            call();
        }

        return (double)(GC.GetAllocatedBytesForCurrentThread() - before) / Calls;
    }
}
