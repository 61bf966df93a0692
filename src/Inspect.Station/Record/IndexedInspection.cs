using System.Globalization;
using Inspect.Rules.Judging;
using Inspect.Station.Storage;

namespace Inspect.Station.Record;

/// <summary>What the indexes keep of an inspection: taken from the one that was just recorded, or read from its entry.</summary>
internal sealed record IndexedInspection
{
    public required string Number { get; init; }

    public required string Code { get; init; }

    public required string Event { get; init; }

    public required string Entry { get; init; }

    public required string? Ball { get; init; }

    public required string? Supersedes { get; init; }

    public required string At { get; init; }

    public required string By { get; init; }

    public required string Play { get; init; }

    public required string? Maker { get; init; }

    public required string? Model { get; init; }

    public required string? Serial { get; init; }

    public required string? Tag { get; init; }

    public required string? Edition { get; init; }

    public required string Outcome { get; init; }

    /// <summary>The rules that it did not pass, each once, however many holes fail it, with the worse outcome.</summary>
    public required IReadOnlyList<(string Rule, string Outcome)> Rules { get; init; }

    /// <summary>The instruments that its readings name, each once.</summary>
    public required IReadOnlyList<string> Instruments { get; init; }

    public static IndexedInspection Of(Inspection inspection) => new()
    {
        Number = inspection.Number.ToString(),
        Code = inspection.Code.ToString(),
        Event = inspection.Event,
        Entry = inspection.Entry,
        Ball = inspection.Ball,
        Supersedes = inspection.Supersedes?.ToString(),
        At = InspectionBody.Instant(inspection.At),
        By = inspection.By.Person.ToString(),
        Play = inspection.Sheet.Play.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
        Maker = inspection.Sheet.Ball?.Maker,
        Model = inspection.Sheet.Ball?.Model,
        Serial = inspection.Sheet.Ball?.Serial,
        Tag = inspection.Tag,
        Edition = inspection.Verdict.Edition?.Id,
        Outcome = VerdictJson.WordOf(inspection.Verdict.Outcome),
        Rules = NotPassed(inspection.Verdict.Findings.Select<Finding, (string?, string?)>(
            finding => (finding.Rule, VerdictJson.WordOf(finding.Outcome)))),
        Instruments = EachOnce(inspection.Observations.Select(observation => observation.Instrument)),
    };

    public static IndexedInspection Of(RegisterEntry entry) => new()
    {
        Number = entry.Text("number"),
        Code = entry.Text("code"),
        Event = entry.Text("event"),
        Entry = entry.Text("entry"),
        Ball = entry.TextOrNull("ball"),
        Supersedes = entry.TextOrNull("supersedes"),
        At = entry.Text("at"),
        By = entry.Text("by", "person"),
        Play = entry.Text("sheet", "play"),
        Maker = entry.TextOrNull("sheet", "ball", "maker"),
        Model = entry.TextOrNull("sheet", "ball", "model"),
        Serial = entry.TextOrNull("sheet", "ball", "serial"),
        Tag = entry.TextOrNull("tag"),
        Edition = entry.TextOrNull("edition", "id"),
        Outcome = entry.Text("verdict", "outcome"),
        Rules = NotPassed(entry.ListAt("verdict", "findings")
            .Select(finding => (RegisterEntry.TextIn(finding, "rule"), RegisterEntry.TextIn(finding, "outcome")))),
        Instruments = EachOnce(entry.ListAt("observations").Select(observation => RegisterEntry.TextIn(observation, "instrument"))),
    };

    private static List<(string Rule, string Outcome)> NotPassed(IEnumerable<(string? Rule, string? Outcome)> findings) =>
    [
        .. findings.Where(finding => finding is { Rule: not null, Outcome: "fail" or "hold" })
            .GroupBy(finding => finding.Rule!)
            .Select(rule => (rule.Key, rule.Any(finding => finding.Outcome == "fail") ? "fail" : "hold")),
    ];

    private static List<string> EachOnce(IEnumerable<string?> names) => [.. names.OfType<string>().Distinct(StringComparer.Ordinal)];
}
