using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Inspect.Rules.Rulesets;

namespace Inspect.Rules.Judging;

/// <summary>Reads a verdict back from the JSON that <see cref="VerdictJson"/> wrote, as a record holds it.</summary>
public static class VerdictReader
{
    /// <summary>The verdict in a record: its words as recorded, and its numbers.</summary>
    /// <param name="written">The verdict.</param>
    /// <param name="version">The version of the record.</param>
    /// <exception cref="FormatException">The JSON is not a verdict of this program.</exception>
    public static Verdict Read(JsonObject written, int version) => new()
    {
        Outcome = Word(written, "outcome", VerdictJson.Outcomes),
        Cause = written["cause"] is null ? null : Word(written, "cause", VerdictJson.Causes),
        Edition = written["edition"] is JsonObject edition ? new EditionMark(Text(edition, "id"), Text(edition, "sha256")) : null,
        Supplements = List(written, "supplements").Select(Object)
            .Select(mark => new SupplementMark(Text(mark, "id"), Day(mark, "version"), Text(mark, "sha256"))).ToList(),
        DecisionRule = written["decision"] is null ? DecisionRule.Simple : Decision(written),
        Findings = List(written, "findings").Select(item => Finding(Object(item), version)).ToList(),
        NotChecked = List(written, "notChecked").Select(item => item!.GetValue<string>()).ToList(),
        Notes = List(written, "notes").Select(Object).Select(note => new Note(Text(note, "id"), Text(note, "text"))).ToList(),
    };

    private static Finding Finding(JsonObject written, int version)
    {
        var (path, reference) = (Optional(written, "path"), Object(written["reference"]));
        var (measured, limit, margin) = (Optional(written, "measured"), Optional(written, "limit"), Optional(written, "margin"));
        var isWords = version == VerdictJson.WordsOnly;
        var numbers = isWords ? default : Numbers(written);
        return new Finding(
            Text(written, "rule"),
            Text(written, "subject"),
            path,
            Word(written, "outcome", VerdictJson.Outcomes),
            written["cause"] is null ? null : Word(written, "cause", VerdictJson.Causes),
            measured is null ? null : isWords ? FirstVersion.Measured(measured, path) : new Amount(measured, numbers.Measured),
            limit is null ? null : isWords ? FirstVersion.Allowed(limit, path) : new Allowed(limit, numbers.Limit),
            margin is null ? null : isWords ? FirstVersion.Margin(margin, path) : new Amount(margin, numbers.Margin),
            new Sentence(Text(written, "reason")),
            new Reference(Text(reference, "title"), Optional(reference, "section"), Word(reference, "basis", RulesetWords.Bases)),
            Optional(written, "supplement"),
            Optional(written, "conformance"),
            written["confirmed"] is JsonObject confirmed
                ? new ConfirmedBy(Text(confirmed, "by"), Day(confirmed, "on"), Text(confirmed, "document"))
                : null);
    }

    private static RecordedNumbers Numbers(JsonObject written)
    {
        if (written["exact"] is not JsonObject exact)
        {
            return default;
        }

        var reader = new Utf8JsonReader(Encoding.UTF8.GetBytes(exact.ToJsonString()));
        reader.Read();
        return RecordedNumbers.Read(ref reader);
    }

    private static DecisionRule Decision(JsonObject written) =>
        TermsReader.Factor(Text(written, "guardFactor")) is { } factor
            ? DecisionRule.Guarded(Word(written, "decision", VerdictJson.Decisions), factor)
            : throw new FormatException($"The verdict of this record has \"{Text(written, "guardFactor")}\" for a guard factor.");

    private static DateOnly Day(JsonObject written, string name) =>
        DateOnly.TryParseExact(Text(written, name), "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day)
            ? day
            : throw new FormatException($"The verdict of this record has \"{Text(written, name)}\" for a day.");

    private static JsonArray List(JsonObject written, string name) => written[name] as JsonArray ?? [];

    private static JsonObject Object(JsonNode? node) =>
        node as JsonObject ?? throw new FormatException("The verdict of this record has a part that is not an object.");

    private static string Text(JsonObject written, string name) =>
        Optional(written, name) ?? throw new FormatException($"The verdict of this record has no \"{name}\".");

    private static string? Optional(JsonObject written, string name) => written[name]?.GetValue<string>();

    private static T Word<T>(JsonObject written, string name, IReadOnlyDictionary<string, T> words) =>
        words.TryGetValue(Text(written, name), out var value)
        ? value
        : throw new FormatException($"The verdict of this record has an unknown {name} \"{Text(written, name)}\".");
}
