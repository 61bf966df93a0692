using System.Globalization;
using System.Text.Json.Nodes;

namespace Inspect.Station.Tests.WholeEvent;

/// <summary>The figures of an event, counted from the lines of its exported register and nothing of the program.</summary>
/// <remarks>Intervals are C. J. Clopper and E. S. Pearson's (Biometrika 26, 1934), found by halving on the binomial sums.</remarks>
internal sealed class Recount
{
    private readonly List<JsonNode> _inspections;
    private readonly Dictionary<string, string> _replaced;
    private readonly Dictionary<string, string> _ruled;
    private readonly List<JsonNode> _spotChecks;

    public Recount(string jsonl)
    {
        var lines = jsonl.Split('\n', StringSplitOptions.RemoveEmptyEntries).Where(line => line[0] == '{')
            .Select(line => JsonNode.Parse(line)!).Where(body => body["kind"] is not null).ToList();
        Lines = lines.Count;
        _inspections = Of("inspection");
        _spotChecks = Of("spot-check");
        _replaced = _inspections.Where(one => one["supersedes"] is not null)
            .ToDictionary(one => (string)one["supersedes"]!, one => (string)one["number"]!);
        _ruled = Of("ruling").GroupBy(one => (string)one["inspection"]!)
            .ToDictionary(one => one.Key, one => (string)one.Last()["decision"]!);

        List<JsonNode> Of(string kind) => [.. lines.Where(body => (string)body["kind"]! == kind)];
    }

    public int Lines { get; }

    public int Inspections => _inspections.Count;

    public int Balls => _inspections.Select(one => (string)one["ball"]!).Distinct().Count();

    /// <summary>What counts now, by the first three letters of its words.</summary>
    public Dictionary<string, int> Standing => _inspections.Where(one => !_replaced.ContainsKey((string)one["number"]!))
        .CountBy(one => (_ruled.GetValueOrDefault((string)one["number"]!), Outcome(one)) switch
        {
            ("withdraw" or "undo", _) => "wit",
            ("accept", _) => "acc",
            ("allow", _) => "all",
            ("remeasure" or "recall", _) => "to ",
            (_, "pass") => "con",
            (_, "hold") => "und",
            _ => "do ",
        }).ToDictionary();

    public IEnumerable<(string, int, int, int)> Rules => _inspections
        .SelectMany(one => one["verdict"]!["findings"]!.AsArray().GroupBy(finding => (string)finding!["rule"]!)
            .Select(rule => (Rule: rule.Key, Worst: rule.Any(finding => Outcome(finding!) == "fail") ? "fail"
                : rule.Any(finding => Outcome(finding!) == "hold") ? "hold" : "pass")))
        .GroupBy(each => each.Rule)
        .Select(rule => (rule.Key, rule.Count(each => each.Worst == "fail"), rule.Count(each => each.Worst == "hold"), rule.Count()))
        .Where(rule => rule.Item2 + rule.Item3 > 0).Order();

    public IEnumerable<(string, int, int, int, int)> Days => _inspections.GroupBy(one => (string)one["sheet"]!["play"]!)
        .OrderBy(day => day.Key, StringComparer.Ordinal)
        .Select(day => (day.Key, day.Count(), Count(day, "pass"), Count(day, "fail"), Count(day, "hold")));

    public IEnumerable<(string, string)> Replaced => _replaced.Select(each => (each.Key, each.Value)).Order();

    public IEnumerable<string> Ruled => _ruled.Keys.Order(StringComparer.Ordinal);

    public IEnumerable<int> By =>
        _inspections.CountBy(one => (string)one["by"]!["person"]!).Select(each => each.Value).OrderDescending();

    public long SpotChecks => _spotChecks.Count;

    public long Differing => _spotChecks.Count(one => one["differs"] is JsonArray { Count: > 0 });

    /// <summary>The exact interval of a count at 95 %, in whole per cent.</summary>
    public static string Between(int count, int of)
    {
        var low = count == 0 ? 0 : Halved(p => 1 - AtMost(count - 1, of, p), 0.025);
        var high = count == of ? 1 : Halved(p => 1 - AtMost(count, of, p), 0.975);
        return string.Create(CultureInfo.InvariantCulture, $"{100 * low:0} % to {100 * high:0} %");
    }

    // Where a rising function of the share reaches a level.
    private static double Halved(Func<double, double> rising, double level)
    {
        var (low, high) = (0.0, 1.0);
        for (var i = 0; i < 60; i++)
        {
            var middle = (low + high) / 2;
            (low, high) = rising(middle) < level ? (middle, high) : (low, middle);
        }

        return low;
    }

    private static double AtMost(int count, int of, double share)
    {
        var (sum, logs) = (0.0, 0.0);
        for (var i = 0; i <= count; i++)
        {
            sum += Math.Exp(logs + (i * Math.Log(share)) + ((of - i) * Math.Log(1 - share)));
            logs += Math.Log(of - i) - Math.Log(i + 1);
        }

        return sum;
    }

    private static string Outcome(JsonNode one) => (string)(one["verdict"]?["outcome"] ?? one["outcome"])!;

    private static int Count(IEnumerable<JsonNode> day, string outcome) => day.Count(one => Outcome(one) == outcome);
}
