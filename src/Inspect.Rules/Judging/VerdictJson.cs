using System.Globalization;
using System.Text.Json.Nodes;
using Inspect.Rules.Rulesets;
using Inspect.Sheets;

namespace Inspect.Rules.Judging;

/// <summary>Writes a verdict as JSON: members in a fixed order, those without a value left out.</summary>
public static class VerdictJson
{
    /// <summary>The version of a record whose findings are words alone.</summary>
    public const int WordsOnly = 1;

    /// <summary>The version of a record whose findings have their exact numbers next to the words.</summary>
    public const int WithNumbers = 2;

    /// <summary>A verdict as the JSON of an answer: in words.</summary>
    public static JsonObject Write(Verdict verdict) => Write(verdict, finding => Write(finding, WithNumbers));

    /// <summary>A verdict as the JSON that a record of that version holds and that is hashed.</summary>
    public static JsonObject Recorded(Verdict verdict, int version) => Write(verdict, finding =>
    {
        var written = Write(finding, version);
        if (version >= WithNumbers && RecordedNumbers.Write(finding) is { } exact)
        {
            written["exact"] = exact;
        }

        return written;
    });

    private static JsonObject Write(Verdict verdict, Func<Finding, JsonObject> write)
    {
        var written = new JsonObject { ["outcome"] = WordOf(verdict.Outcome) };
        if (verdict.Cause is { } cause)
        {
            written["cause"] = WordOf(cause);
        }

        if (verdict.Edition is { } edition)
        {
            written["edition"] = new JsonObject { ["id"] = edition.Id, ["sha256"] = edition.Sha256 };
        }

        if (verdict.Supplements.Count > 0)
        {
            written["supplements"] = new JsonArray([.. verdict.Supplements.Select(Write)]);
        }

        if (verdict.DecisionRule.Kind != DecisionKind.Simple)
        {
            written["decision"] = WordOf(verdict.DecisionRule.Kind);
            written["guardFactor"] = verdict.DecisionRule.Factor.ToString(CultureInfo.InvariantCulture);
        }

        written["findings"] = new JsonArray([.. verdict.Findings.Select(write)]);
        if (verdict.NotChecked.Count > 0)
        {
            written["notChecked"] = new JsonArray([.. verdict.NotChecked.Select(id => JsonValue.Create(id))]);
        }

        if (verdict.Notes.Count > 0)
        {
            written["notes"] = new JsonArray([.. verdict.Notes.Select(note => new JsonObject { ["id"] = note.Id, ["text"] = note.Text })]);
        }

        return written;
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

    private static JsonObject Write(SupplementMark mark) => new()
    {
        ["id"] = mark.Id,
        ["version"] = Day(mark.Version),
        ["sha256"] = mark.Sha256,
    };

    private static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    private static JsonObject Write(Finding finding, int version)
    {
        var written = new JsonObject();
        Add(written, "rule", finding.Rule);
        Add(written, "subject", finding.Subject);
        Add(written, "path", finding.Path);
        Add(written, "outcome", WordOf(finding.Outcome));
        Add(written, "cause", finding.Cause is { } cause ? WordOf(cause) : null);
        Add(written, "measured", finding.Measured?.ToString());
        Add(written, "limit", finding.Limit?.ToString());
        Add(written, "margin", version == WordsOnly ? FirstVersion.MarginOf(finding) : finding.Margin?.ToString());
        Add(written, "conformance", finding.Conformance);
        Add(written, "reason", finding.Sentence.In(version));
        var reference = new JsonObject();
        Add(reference, "title", finding.Reference.Title);
        Add(reference, "section", finding.Reference.Section);
        Add(reference, "basis", WordOf(finding.Reference.Basis));
        written["reference"] = reference;
        Add(written, "supplement", finding.Supplement);
        if (finding.Confirmed is { } confirmed)
        {
            written["confirmed"] = new JsonObject { ["by"] = confirmed.By, ["on"] = Day(confirmed.On), ["document"] = confirmed.Document };
        }

        return written;
    }

    private static void Add(JsonObject written, string name, string? value)
    {
        if (value is not null)
        {
            written[name] = value;
        }
    }
}
