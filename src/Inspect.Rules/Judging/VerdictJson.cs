using System.Buffers;
using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using Inspect.Rules.Rulesets;
using Inspect.Sheets;
using Inspect.Sheets.Json;
using static Inspect.Sheets.Json.JsonMember;

namespace Inspect.Rules.Judging;

/// <summary>Writes a verdict as JSON: members in a fixed order, those without a value left out.</summary>
public static class VerdictJson
{
    /// <summary>The version of a record whose findings are words alone.</summary>
    public const int WordsOnly = 1;

    /// <summary>The version of a record whose findings have their exact numbers next to the words.</summary>
    public const int WithNumbers = 2;

    /// <summary>The version that is recorded now: as the one before, with an unconfirmed limit in plainer words.</summary>
    public const int Latest = 3;

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

    private static readonly JsonMembers<SupplementMark> Mark = new(
        Text<SupplementMark>("id", mark => mark.Id),
        Text<SupplementMark>("version", mark => Day(mark.Version)),
        Text<SupplementMark>("sha256", mark => mark.Sha256));

    private static readonly JsonMembers<Verdict> InAnswer = Members(Members(Latest));

    private static readonly JsonMembers<Verdict> InWords = Members(Members(WordsOnly));

    private static readonly JsonMembers<Verdict> InNumbers = Members(Members(WithNumbers, Of<Finding>("exact", RecordedNumbers.Write)));

    private static readonly JsonMembers<Verdict> InLatest = Members(Members(Latest, Of<Finding>("exact", RecordedNumbers.Write)));

    /// <summary>Writes a verdict as the JSON of an answer: in words.</summary>
    public static void Write(Utf8JsonWriter to, Verdict verdict) => InAnswer.Write(to, verdict, byName: false);

    /// <summary>Writes a verdict as the JSON that a record of that version holds and that is hashed: members by their names.</summary>
    public static void Record(Utf8JsonWriter to, Verdict verdict, int version) => InRecord(version).Write(to, verdict, byName: true);

    /// <summary>Writes the marks of supplements as a record holds them.</summary>
    public static void Record(Utf8JsonWriter to, IReadOnlyList<SupplementMark> marks)
    {
        to.WriteStartArray();
        foreach (var mark in marks)
        {
            Mark.Write(to, mark, byName: true);
        }

        to.WriteEndArray();
    }

    /// <summary>A verdict as the JSON of an answer.</summary>
    public static JsonObject Write(Verdict verdict) => Nodes(verdict, InAnswer);

    /// <summary>A verdict as the JSON that a record of that version holds.</summary>
    public static JsonObject Recorded(Verdict verdict, int version) => Nodes(verdict, InRecord(version));

    private static JsonMembers<Verdict> InRecord(int version) => version switch
    {
        WordsOnly => InWords,
        WithNumbers => InNumbers,
        _ => InLatest,
    };

    private static JsonObject Nodes(Verdict verdict, JsonMembers<Verdict> members)
    {
        var utf8 = new ArrayBufferWriter<byte>();
        using var to = new Utf8JsonWriter(utf8);
        members.Write(to, verdict, byName: false);
        to.Flush();
        return JsonNode.Parse(utf8.WrittenSpan)!.AsObject();
    }

    private static JsonMembers<Verdict> Members(JsonMembers<Finding> finding) => new(
        Text<Verdict>("outcome", verdict => WordOf(verdict.Outcome)),
        Text<Verdict>("cause", verdict => verdict.Cause is { } cause ? WordOf(cause) : null),
        Part<Verdict, EditionMark>("edition", verdict => verdict.Edition, new JsonMembers<EditionMark>(
            Text<EditionMark>("id", edition => edition.Id),
            Text<EditionMark>("sha256", edition => edition.Sha256))),
        List<Verdict, SupplementMark>("supplements", verdict => AnyOf(verdict.Supplements), Mark),
        Text<Verdict>("decision", verdict => IsGuarded(verdict) ? WordOf(verdict.DecisionRule.Kind) : null),
        Text<Verdict>(
            "guardFactor", verdict => IsGuarded(verdict) ? verdict.DecisionRule.Factor.ToString(CultureInfo.InvariantCulture) : null),
        List<Verdict, Finding>("findings", verdict => verdict.Findings, finding),
        Texts<Verdict, string>("notChecked", verdict => AnyOf(verdict.NotChecked), id => id),
        List<Verdict, Note>("notes", verdict => AnyOf(verdict.Notes), new JsonMembers<Note>(
            Text<Note>("id", note => note.Id),
            Text<Note>("text", note => note.Text))));

    private static JsonMembers<Finding> Members(int version, params JsonMember<Finding>[] besides) => new(
    [
        Text<Finding>("rule", finding => finding.Rule),
        Text<Finding>("subject", finding => finding.Subject),
        Text<Finding>("path", finding => finding.Path),
        Text<Finding>("outcome", finding => WordOf(finding.Outcome)),
        Text<Finding>("cause", finding => finding.Cause is { } cause ? WordOf(cause) : null),
        Text<Finding>("measured", finding => finding.Measured?.ToString()),
        Text<Finding>("limit", finding => finding.Limit?.ToString()),
        Text<Finding>("margin", version == WordsOnly ? FirstVersion.MarginOf : finding => finding.Margin?.ToString()),
        Text<Finding>("conformance", finding => finding.Conformance),
        Text<Finding>("reason", finding => finding.Sentence.In(version)),
        Part<Finding, Reference>("reference", finding => finding.Reference, new JsonMembers<Reference>(
            Text<Reference>("title", reference => reference.Title),
            Text<Reference>("section", reference => reference.Section),
            Text<Reference>("basis", reference => WordOf(reference.Basis)))),
        Text<Finding>("supplement", finding => finding.Supplement),
        Part<Finding, ConfirmedBy>("confirmed", finding => finding.Confirmed, new JsonMembers<ConfirmedBy>(
            Text<ConfirmedBy>("by", confirmed => confirmed.By),
            Text<ConfirmedBy>("on", confirmed => Day(confirmed.On)),
            Text<ConfirmedBy>("document", confirmed => confirmed.Document))),
        .. besides,
    ]);

    private static bool IsGuarded(Verdict verdict) => verdict.DecisionRule.Kind != DecisionKind.Simple;

    private static IReadOnlyList<T>? AnyOf<T>(IReadOnlyList<T> items) => items.Count > 0 ? items : null;

    private static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
