using System.Globalization;
using System.Runtime.InteropServices;
using System.Text.Json;
using Inspect.Rules.Rulesets;

namespace Inspect.Rules.Judging;

/// <summary>Reads a verdict back from the JSON that <see cref="VerdictJson"/> wrote, as a record holds it.</summary>
public static class VerdictReader
{
    /// <summary>The verdict in a record: its words as recorded, and its numbers.</summary>
    /// <param name="written">The verdict.</param>
    /// <param name="version">The version of the record.</param>
    /// <exception cref="FormatException">The JSON is not a verdict of this program.</exception>
    public static Verdict Read(JsonElement written, int version) => new()
    {
        Outcome = Word(written, "outcome", VerdictJson.Outcomes),
        Cause = Find(written, "cause") is null ? null : Word(written, "cause", VerdictJson.Causes),
        Edition = Find(written, "edition") is { ValueKind: JsonValueKind.Object } edition
            ? new EditionMark(Text(edition, "id"), Text(edition, "sha256"))
            : null,
        Supplements = List(written, "supplements").Select(item => Object(item))
            .Select(mark => new SupplementMark(Text(mark, "id"), Day(mark, "version"), Text(mark, "sha256"))).ToList(),
        DecisionRule = Find(written, "decision") is null ? DecisionRule.Simple : Decision(written),
        Findings = List(written, "findings").Select(item => Finding(Object(item), version)).ToList(),
        NotChecked = List(written, "notChecked").Select(item => item.GetString()!).ToList(),
        Notes = List(written, "notes").Select(item => Object(item)).Select(note => new Note(Text(note, "id"), Text(note, "text"))).ToList(),
    };

    private static Finding Finding(JsonElement written, int version)
    {
        var (path, reference) = (Optional(written, "path"), Object(Find(written, "reference")));
        var (measured, limit, margin) = (Optional(written, "measured"), Optional(written, "limit"), Optional(written, "margin"));
        var isWords = version == VerdictJson.WordsOnly;
        var numbers = isWords ? default : Numbers(written);
        return new Finding(
            Text(written, "rule"),
            Text(written, "subject"),
            path,
            Word(written, "outcome", VerdictJson.Outcomes),
            Find(written, "cause") is null ? null : Word(written, "cause", VerdictJson.Causes),
            measured is null ? null : isWords ? FirstVersion.Measured(measured, path) : new Amount(measured, numbers.Measured),
            limit is null ? null : isWords ? FirstVersion.Allowed(limit, path) : new Allowed(limit, numbers.Limit),
            margin is null ? null : isWords ? FirstVersion.Margin(margin, path) : new Amount(margin, numbers.Margin),
            new Sentence(Text(written, "reason")),
            new Reference(Text(reference, "title"), Optional(reference, "section"), Word(reference, "basis", RulesetWords.Bases)),
            Optional(written, "supplement"),
            Optional(written, "conformance"),
            Find(written, "confirmed") is { ValueKind: JsonValueKind.Object } confirmed
                ? new ConfirmedBy(Text(confirmed, "by"), Day(confirmed, "on"), Text(confirmed, "document"))
                : null);
    }

    private static RecordedNumbers Numbers(JsonElement written)
    {
        if (Find(written, "exact") is not { ValueKind: JsonValueKind.Object } exact)
        {
            return default;
        }

        var reader = new Utf8JsonReader(JsonMarshal.GetRawUtf8Value(exact));
        reader.Read();
        return RecordedNumbers.Read(ref reader);
    }

    private static DecisionRule Decision(JsonElement written) =>
        TermsReader.Factor(Text(written, "guardFactor")) is { } factor
            ? DecisionRule.Guarded(Word(written, "decision", VerdictJson.Decisions), factor)
            : throw new FormatException($"The verdict of this record has \"{Text(written, "guardFactor")}\" for a guard factor.");

    private static DateOnly Day(JsonElement written, string name) =>
        DateOnly.TryParseExact(Text(written, name), "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day)
            ? day
            : throw new FormatException($"The verdict of this record has \"{Text(written, name)}\" for a day.");

    private static JsonElement.ArrayEnumerator List(JsonElement written, string name) =>
        Find(written, name) is { ValueKind: JsonValueKind.Array } list ? list.EnumerateArray() : default;

    private static JsonElement Object(JsonElement? element) => element is { ValueKind: JsonValueKind.Object } found ? found
        : throw new FormatException("The verdict of this record has a part that is not an object.");

    private static JsonElement? Find(JsonElement written, string name) =>
        written.TryGetProperty(name, out var found) && found.ValueKind != JsonValueKind.Null ? found : null;

    private static string Text(JsonElement written, string name) =>
        Optional(written, name) ?? throw new FormatException($"The verdict of this record has no \"{name}\".");

    private static string? Optional(JsonElement written, string name) => Find(written, name)?.GetString();

    private static T Word<T>(JsonElement written, string name, IReadOnlyDictionary<string, T> words) =>
        words.TryGetValue(Text(written, name), out var value)
        ? value
        : throw new FormatException($"The verdict of this record has an unknown {name} \"{Text(written, name)}\".");
}
