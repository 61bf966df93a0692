using System.Globalization;
using System.Text.Json.Nodes;
using Inspect.Sheets;

namespace Inspect.Rules.Judging;

/// <summary>Writes an event's terms as the JSON that <see cref="TermsReader"/> reads; supplements are files of their own.</summary>
public static class TermsJson
{
    /// <summary>Terms as the JSON in which they are recorded; empty when there are none.</summary>
    public static JsonObject Write(JudgingTerms terms)
    {
        var written = new JsonObject();
        if (terms.DecisionRule.Kind != DecisionKind.Simple)
        {
            written["decision"] = VerdictJson.WordOf(terms.DecisionRule.Kind);
            written["guardFactor"] = terms.DecisionRule.Factor.ToString(CultureInfo.InvariantCulture);
        }

        if (terms.Uncertainties.Count > 0)
        {
            written["uncertainties"] = new JsonArray([.. terms.Uncertainties.Select(Write)]);
        }

        if (terms.Confirmations.Count > 0)
        {
            written["confirmations"] = new JsonArray([.. terms.Confirmations.Select(Write)]);
        }

        return written;
    }

    private static JsonObject Write(Uncertainty uncertainty)
    {
        var written = new JsonObject { ["quantity"] = WordOf(uncertainty.Quantity) };
        Add(written, "resolution", uncertainty.Resolution?.Text);
        Add(written, "repeatability", uncertainty.Repeatability?.Text);
        Add(written, "betweenOperators", uncertainty.BetweenOperators?.Text);
        Add(written, "calibration", uncertainty.Calibration?.Text);
        return written;
    }

    private static JsonObject Write(Confirmation confirmation)
    {
        var written = new JsonObject { ["rule"] = confirmation.Rule };
        Add(written, "limit", confirmation.Limit);
        written["by"] = confirmation.By;
        written["on"] = confirmation.On.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
        written["document"] = confirmation.Document;
        if (confirmation.Given is { } given)
        {
            var limit = new JsonObject { ["quantity"] = WordOf(given.Quantity) };
            var least = given.Quantity == RuleQuantity.Made ? "notBefore" : given.Limit.Least?.Inclusive == false ? "over" : "atLeast";
            Add(limit, least, given.Limit.Least?.Text);
            Add(limit, given.Limit.Most?.Inclusive == false ? "under" : "atMost", given.Limit.Most?.Text);
            written["given"] = limit;
        }

        return written;
    }

    private static string WordOf(RuleQuantity quantity) => Catalogue.Of(quantity).Rule!.Word;

    private static void Add(JsonObject written, string name, string? text)
    {
        if (text is not null)
        {
            written[name] = text;
        }
    }
}
