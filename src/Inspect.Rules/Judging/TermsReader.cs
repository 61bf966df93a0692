using System.Globalization;
using Inspect.Rules.Rulesets;
using Inspect.Sheets.Json;
using Inspect.Sheets.Readings;

namespace Inspect.Rules.Judging;

/// <summary>Reads an event's decision rule, uncertainties and confirmed
/// limits from strict JSON; supplements are files of their own.</summary>
public static class TermsReader
{
    private const int MostConfirmations = 100;
    private const int MostUncertainties = 20;

    /// <summary>The terms in <paramref name="utf8"/>, or null with every fault added.</summary>
    /// <param name="utf8">One JSON object.</param>
    /// <param name="faults">Where faults are collected.</param>
    /// <param name="supplements">The event's supplements, in the order in which a verdict shows them.</param>
    public static JudgingTerms? Read(ReadOnlyMemory<byte> utf8, List<Fault> faults, IReadOnlyList<Supplement>? supplements = null) =>
        StrictJson.Read(utf8, faults) is { } members ? Read(members, faults, supplements) : null;

    /// <summary>The terms in an object that is part of a larger document.</summary>
    public static JudgingTerms? Read(StrictObject members, List<Fault> faults, IReadOnlyList<Supplement>? supplements = null)
    {
        var before = faults.Count;
        var terms = new JudgingTerms
        {
            Supplements = supplements ?? [],
            DecisionRule = ReadDecision(members) ?? DecisionRule.Simple,
            Uncertainties = ReadUncertainties(members),
            Confirmations =
                members.Objects("confirmations", MostConfirmations)?.Select(ReadConfirmation).OfType<Confirmation>().ToList() ?? [],
        };
        members.Close();
        return faults.Count == before ? terms : null;
    }

    /// <summary>The guard factor in <paramref name="text"/>, such as <c>2</c>
    /// or <c>1.645</c>, or null when it is not a guard factor.</summary>
    public static decimal? Factor(string text) =>
        decimal.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var factor)
            && DecisionRule.Takes(factor) ? factor : null;

    private static DecisionRule? ReadDecision(StrictObject members)
    {
        var kind = members.Choice("decision", VerdictJson.Decisions) ?? DecisionKind.Simple;
        var text = members.Text("guardFactor");
        if (kind == DecisionKind.Simple)
        {
            if (text is not null)
            {
                members.Refuse("guardFactor", "Simple acceptance has no guard band; leave the factor out, or name a guarded decision.");
            }

            return DecisionRule.Simple;
        }

        if (text is not null && Factor(text) is { } factor)
        {
            return DecisionRule.Guarded(kind, factor);
        }

        members.Refuse("guardFactor",
            string.IsNullOrEmpty(text)
                ? "A guarded rule needs its factor; write how many standard uncertainties wide its band is, above 0 and at most 10, "
                    + "such as \"2\"."
                : $"\"{text}\" is not a width of a guard band; write how many standard uncertainties wide it is, "
                    + "above 0 and at most 10, such as \"2\".");
        return null;
    }

    private static List<Uncertainty> ReadUncertainties(StrictObject members)
    {
        var read = new List<Uncertainty>();
        foreach (var written in members.Objects("uncertainties", MostUncertainties) ?? [])
        {
            written.Require("quantity");
            var quantity = written.Choice("quantity", RulesetWords.Quantities);
            if (quantity is { } known && RulesetWords.MeasureOf(known) is { } measure)
            {
                if (read.Any(other => other.Quantity == known))
                {
                    written.Refuse("quantity", $"\"{written.Text("quantity")}\" is written twice; write it once.");
                }

                read.Add(new Uncertainty(
                    known,
                    Part(written, "resolution", measure),
                    Part(written, "repeatability", measure),
                    Part(written, "betweenOperators", measure),
                    Part(written, "calibration", measure)));
                written.Close();
            }
            else if (quantity is not null)
            {
                written.Refuse("quantity", "The day of making is not measured, so it has no uncertainty; leave it out.");
            }
        }

        return read;
    }

    private static Reading? Part(StrictObject written, string name, Quantity measure)
    {
        var part = written.Reading(name, measure);
        if (part is { Value: <= 0 })
        {
            written.Refuse(name, $"\"{part.Text}\" is not above zero; leave out what is not known.");
        }

        return part;
    }

    private static Confirmation? ReadConfirmation(StrictObject written)
    {
        foreach (var name in new[] { "rule", "by", "on", "document" })
        {
            written.Require(name);
        }

        var (rule, limit) = (RulesetLoader.Kebab(written, "rule"), written.Text("limit"));
        var (by, on, document) = (written.Text("by"), written.Day("on"), written.Text("document", 300));
        var given = written.Object("given") is { } inner ? ReadGiven(inner) : null;
        if (limit is not null && written.Has("given"))
        {
            written.Refuse("given", "The edition has a limit here; confirm that one, or leave \"limit\" out where it found none.");
        }

        written.Close();
        return rule is null || by is null || on is null || document is null ? null
            : new Confirmation(rule, limit, by, on.Value, document, given);
    }

    private static GivenLimit? ReadGiven(StrictObject members)
    {
        members.Require("quantity");
        if (members.Choice("quantity", RulesetWords.Quantities) is not { } quantity)
        {
            return null;
        }

        var limit = ConditionReader.LimitOf(members, quantity);
        members.Close();
        if (limit is null)
        {
            members.Refuse("quantity", "No limit is given for it; write one with atMost, under, atLeast, over or notBefore.");
            return null;
        }

        return new GivenLimit(quantity, limit);
    }
}
