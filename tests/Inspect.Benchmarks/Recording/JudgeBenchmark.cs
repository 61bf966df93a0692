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

        Report.Head();
        Report.Line("a sheet to a verdict", Cost.Of(() => SheetJudge.Judge(book, sheet, [])!.Findings.Count),
            "compared by hand", Cost.Of(() => byHand.Judge().Count));
        Report.Line("the JSON of a sheet to the JSON of a verdict", Cost.Of(() => Answer(book, utf8).Length),
            "read, compared, written", Cost.Of(() => ByHand.JudgeJson(utf8, verdict).Length));
    }

    private static byte[] Answer(EditionLibrary book, byte[] utf8)
    {
        var faults = new List<Fault>();
        return JsonSerializer.SerializeToUtf8Bytes(SheetJudge.Judge(book, SheetReader.Read(utf8, faults)!, faults)!, JsonSettings.Options);
    }
}
