using System.Text.Json.Nodes;
using Inspect.Rules.Rulesets;

namespace Inspect.Rules.Judging;

/// <summary>Writes a verdict as JSON: members in a fixed order, those without a value left out.</summary>
public static class VerdictJson
{
    public static JsonObject Write(Verdict verdict)
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

        written["findings"] = new JsonArray([.. verdict.Findings.Select(Write)]);
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

    /// <summary>The word for an outcome.</summary>
    public static string WordOf(Outcome outcome) => outcome switch
    {
        Outcome.Pass => "pass",
        Outcome.Fail => "fail",
        _ => "hold",
    };

    /// <summary>The word for a cause.</summary>
    public static string WordOf(HoldCause cause) => cause switch
    {
        HoldCause.NotMeasured => "not-measured",
        HoldCause.NearLimit => "near-limit",
        HoldCause.LimitUnconfirmed => "limit-unconfirmed",
        HoldCause.Discretion => "discretion",
        HoldCause.NoEdition => "no-edition",
        _ => "rule-error",
    };

    /// <summary>The word for a basis.</summary>
    public static string WordOf(Basis basis) => basis switch
    {
        Basis.Official => "official",
        Basis.Reprint => "reprint",
        Basis.Summary => "summary",
        _ => "memory",
    };

    private static JsonObject Write(Finding finding)
    {
        var written = new JsonObject();
        Add(written, "rule", finding.Rule);
        Add(written, "subject", finding.Subject);
        Add(written, "path", finding.Path);
        Add(written, "outcome", WordOf(finding.Outcome));
        Add(written, "cause", finding.Cause is { } cause ? WordOf(cause) : null);
        Add(written, "measured", finding.Measured);
        Add(written, "limit", finding.Limit);
        Add(written, "margin", finding.Margin);
        Add(written, "reason", finding.Reason);
        var reference = new JsonObject();
        Add(reference, "title", finding.Reference.Title);
        Add(reference, "section", finding.Reference.Section);
        Add(reference, "basis", WordOf(finding.Reference.Basis));
        written["reference"] = reference;
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
