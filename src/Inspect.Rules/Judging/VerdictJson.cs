using System.Buffers;
using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using Inspect.Rules.Rulesets;
using Inspect.Sheets;

namespace Inspect.Rules.Judging;

/// <summary>Writes a verdict as JSON: members in the order of their names, as the register has them, those without a value left out.</summary>
public static class VerdictJson
{
    /// <summary>The version of a record whose findings are words alone.</summary>
    public const int WordsOnly = 1;

    /// <summary>The version of a record whose findings have their exact numbers next to the words.</summary>
    public const int WithNumbers = 2;

    /// <summary>A verdict as the JSON of an answer: in words.</summary>
    public static void Write(Utf8JsonWriter to, Verdict verdict) => Write(to, verdict, WithNumbers, withNumbers: false);

    /// <summary>A verdict as the JSON that a record of that version holds and that is hashed.</summary>
    public static void Record(Utf8JsonWriter to, Verdict verdict, int version) => Write(to, verdict, version, version >= WithNumbers);

    /// <summary>The JSON of an answer as nodes.</summary>
    public static JsonObject Write(Verdict verdict) => Nodes(verdict, Write);

    /// <summary>The JSON of a record of that version as nodes.</summary>
    public static JsonObject Recorded(Verdict verdict, int version) => Nodes(verdict, (to, written) => Record(to, written, version));

    private static JsonObject Nodes(Verdict verdict, Action<Utf8JsonWriter, Verdict> write)
    {
        var utf8 = new ArrayBufferWriter<byte>();
        using var to = new Utf8JsonWriter(utf8);
        write(to, verdict);
        to.Flush();
        return JsonNode.Parse(utf8.WrittenSpan)!.AsObject();
    }

    private static void Write(Utf8JsonWriter to, Verdict verdict, int version, bool withNumbers)
    {
        to.WriteStartObject();
        Add(to, "cause"u8, verdict.Cause is { } cause ? WordOf(cause) : null);
        var isGuarded = verdict.DecisionRule.Kind != DecisionKind.Simple;
        Add(to, "decision"u8, isGuarded ? WordOf(verdict.DecisionRule.Kind) : null);
        if (verdict.Edition is { } edition)
        {
            to.WriteStartObject("edition"u8);
            to.WriteString("id"u8, edition.Id);
            to.WriteString("sha256"u8, edition.Sha256);
            to.WriteEndObject();
        }

        to.WriteStartArray("findings"u8);
        foreach (var finding in verdict.Findings)
        {
            Write(to, finding, version, withNumbers);
        }

        to.WriteEndArray();
        Add(to, "guardFactor"u8, isGuarded ? verdict.DecisionRule.Factor.ToString(CultureInfo.InvariantCulture) : null);
        if (verdict.NotChecked.Count > 0)
        {
            to.WriteStartArray("notChecked"u8);
            foreach (var id in verdict.NotChecked)
            {
                to.WriteStringValue(id);
            }

            to.WriteEndArray();
        }

        if (verdict.Notes.Count > 0)
        {
            to.WriteStartArray("notes"u8);
            foreach (var note in verdict.Notes)
            {
                to.WriteStartObject();
                to.WriteString("id"u8, note.Id);
                to.WriteString("text"u8, note.Text);
                to.WriteEndObject();
            }

            to.WriteEndArray();
        }

        to.WriteString("outcome"u8, WordOf(verdict.Outcome));
        if (verdict.Supplements.Count > 0)
        {
            to.WritePropertyName("supplements"u8);
            Write(to, verdict.Supplements);
        }

        to.WriteEndObject();
    }

    /// <summary>The marks of supplements.</summary>
    public static void Write(Utf8JsonWriter to, IReadOnlyList<SupplementMark> marks)
    {
        to.WriteStartArray();
        foreach (var mark in marks)
        {
            to.WriteStartObject();
            to.WriteString("id"u8, mark.Id);
            to.WriteString("sha256"u8, mark.Sha256);
            to.WriteString("version"u8, Day(mark.Version));
            to.WriteEndObject();
        }

        to.WriteEndArray();
    }

    public static readonly IReadOnlyDictionary<string, Outcome> Outcomes =
        Words.Written(("pass", Outcome.Pass), ("fail", Outcome.Fail), ("hold", Outcome.Hold));

    internal static readonly IReadOnlyDictionary<string, HoldCause> Causes = Words.Written(
        ("not-measured", HoldCause.NotMeasured), ("near-limit", HoldCause.NearLimit), ("limit-unconfirmed", HoldCause.LimitUnconfirmed),
        ("discretion", HoldCause.Discretion), ("no-edition", HoldCause.NoEdition), ("rule-error", HoldCause.RuleError));

    internal static readonly IReadOnlyDictionary<string, DecisionKind> Decisions = Words.Written(
        ("simple", DecisionKind.Simple), ("guarded-acceptance", DecisionKind.GuardedAcceptance),
        ("guarded-rejection", DecisionKind.GuardedRejection));

    /// <summary>The word for an outcome.</summary>
    public static string WordOf(Outcome outcome) => Outcomes.WordOf(outcome);

    /// <summary>The word for a cause.</summary>
    public static string WordOf(HoldCause cause) => Causes.WordOf(cause);

    /// <summary>The word for a decision rule.</summary>
    public static string WordOf(DecisionKind kind) => Decisions.WordOf(kind);

    /// <summary>The word for a basis.</summary>
    public static string WordOf(Basis basis) => RulesetWords.Bases.WordOf(basis);

    private static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    private static void Write(Utf8JsonWriter to, Finding finding, int version, bool withNumbers)
    {
        to.WriteStartObject();
        Add(to, "cause"u8, finding.Cause is { } cause ? WordOf(cause) : null);
        if (finding.Confirmed is { } confirmed)
        {
            to.WriteStartObject("confirmed"u8);
            to.WriteString("by"u8, confirmed.By);
            to.WriteString("document"u8, confirmed.Document);
            to.WriteString("on"u8, Day(confirmed.On));
            to.WriteEndObject();
        }

        Add(to, "conformance"u8, finding.Conformance);
        if (withNumbers)
        {
            RecordedNumbers.Write(to, finding);
        }

        Add(to, "limit"u8, finding.Limit?.ToString());
        Add(to, "margin"u8, version == WordsOnly ? FirstVersion.MarginOf(finding) : finding.Margin?.ToString());
        Add(to, "measured"u8, finding.Measured?.ToString());
        to.WriteString("outcome"u8, WordOf(finding.Outcome));
        Add(to, "path"u8, finding.Path);
        to.WriteString("reason"u8, finding.Sentence.In(version));
        to.WriteStartObject("reference"u8);
        to.WriteString("basis"u8, WordOf(finding.Reference.Basis));
        Add(to, "section"u8, finding.Reference.Section);
        to.WriteString("title"u8, finding.Reference.Title);
        to.WriteEndObject();
        to.WriteString("rule"u8, finding.Rule);
        to.WriteString("subject"u8, finding.Subject);
        Add(to, "supplement"u8, finding.Supplement);
        to.WriteEndObject();
    }

    private static void Add(Utf8JsonWriter to, ReadOnlySpan<byte> name, string? value)
    {
        if (value is not null)
        {
            to.WriteString(name, value);
        }
    }
}
