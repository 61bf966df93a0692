using System.Globalization;
using System.Text.Json.Nodes;
using Inspect.Rules.Rulesets;

namespace Inspect.Rules.Judging;

/// <summary>Reads a verdict back from the JSON that <see cref="VerdictJson"/> wrote, as it stands in a record.</summary>
public static class VerdictReader
{
    /// <summary>The verdict in a record.</summary>
    /// <exception cref="FormatException">The JSON is no verdict of this program.</exception>
    public static Verdict Read(JsonObject written) => new()
    {
        Outcome = Word(written, "outcome", VerdictJson.Outcomes),
        Cause = written["cause"] is null ? null : Word(written, "cause", VerdictJson.Causes),
        Edition = written["edition"] is JsonObject edition ? new EditionMark(Text(edition, "id"), Text(edition, "sha256")) : null,
        Supplements = List(written, "supplements").Select(Object)
            .Select(mark => new SupplementMark(Text(mark, "id"), Day(mark, "version"), Text(mark, "sha256"))).ToList(),
        DecisionRule = written["decision"] is null ? DecisionRule.Simple : Decision(written),
        Findings = List(written, "findings").Select(item => Finding(Object(item))).ToList(),
        NotChecked = List(written, "notChecked").Select(item => item!.GetValue<string>()).ToList(),
        Notes = List(written, "notes").Select(Object).Select(note => new Note(Text(note, "id"), Text(note, "text"))).ToList(),
    };

    private static Finding Finding(JsonObject written)
    {
        var reference = Object(written["reference"]);
        return new Finding(
            Text(written, "rule"),
            Text(written, "subject"),
            Optional(written, "path"),
            Word(written, "outcome", VerdictJson.Outcomes),
            written["cause"] is null ? null : Word(written, "cause", VerdictJson.Causes),
            Optional(written, "measured"),
            Optional(written, "limit"),
            Optional(written, "margin"),
            Text(written, "reason"),
            new Reference(Text(reference, "title"), Optional(reference, "section"), Word(reference, "basis", RulesetWords.Bases)),
            Optional(written, "supplement"),
            Optional(written, "conformance"),
            written["confirmed"] is JsonObject confirmed
                ? new ConfirmedBy(Text(confirmed, "by"), Day(confirmed, "on"), Text(confirmed, "document"))
                : null);
    }

    private static DecisionRule Decision(JsonObject written) =>
        TermsReader.Factor(Text(written, "guardFactor")) is { } factor
            ? DecisionRule.Guarded(Word(written, "decision", VerdictJson.Decisions), factor)
            : throw new FormatException($"The verdict of this record has a guard factor \"{Text(written, "guardFactor")}\" that is none.");

    private static DateOnly Day(JsonObject written, string name) =>
        DateOnly.TryParseExact(Text(written, name), "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day)
            ? day
            : throw new FormatException($"The verdict of this record has \"{Text(written, name)}\" for a day.");

    private static JsonArray List(JsonObject written, string name) => written[name] as JsonArray ?? [];

    private static JsonObject Object(JsonNode? node) => node as JsonObject ?? throw new FormatException("The verdict of this record has a part that is no object.");

    private static string Text(JsonObject written, string name) =>
        Optional(written, name) ?? throw new FormatException($"The verdict of this record has no \"{name}\".");

    private static string? Optional(JsonObject written, string name) => written[name]?.GetValue<string>();

    private static T Word<T>(JsonObject written, string name, IReadOnlyDictionary<string, T> words) => words.TryGetValue(Text(written, name), out var value)
        ? value
        : throw new FormatException($"The verdict of this record has an unknown {name} \"{Text(written, name)}\".");
}
