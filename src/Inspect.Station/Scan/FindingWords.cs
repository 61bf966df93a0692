using System.Globalization;
using System.Text.RegularExpressions;
using Inspect.Rules.Judging;
using Inspect.Rules.Rulesets;
using Inspect.Sheets;
using Inspect.Sheets.Readings;
using Inspect.Station.Web;

namespace Inspect.Station.Scan;

/// <summary>A text, and its language where that is not the page's; empty where nobody knows it.</summary>
public readonly record struct Told(string Text, string? Lang = null);

/// <summary>The findings of one verdict in a language: titles, readings in both systems of units, and a sentence for each reason.</summary>
/// <remarks>A sentence is filled from the finding's exact numbers. Where the language has no sentence for a rule, or the record has no
/// number that the sentence asks for, the finding keeps the English words that it was recorded with.</remarks>
/// <param name="words">The words of the language.</param>
/// <param name="sheet">The sheet that was judged.</param>
/// <param name="edition">The edition it was judged under; null where the station does not have it.</param>
internal sealed partial class FindingWords(Phrases words, Sheet sheet, Edition? edition)
{
    private const string English = "en";

    /// <summary>A rule's title; a rule that only a supplement has keeps its id in words.</summary>
    public string Title(string rule) => words.Find($"rule.{rule}") ?? Explanation.RuleTitle(rule);

    /// <summary>A finding's rule, with the hole it is about.</summary>
    public string Title(Finding finding) =>
        Subject(finding) is { } subject ? $"{Title(finding.Rule)}{words["list.comma"]}{subject}" : Title(finding.Rule);

    /// <summary>The hole that a finding is about; null where it is about the ball.</summary>
    public string? Subject(Finding finding)
    {
        if (finding.Subject == "ball")
        {
            return null;
        }

        var place = HolePath().Match(finding.Path ?? "");
        var number = Number(place.Groups["hole"]);
        var hole = place.Success && number < sheet.Holes?.Count ? sheet.Holes[number] : null;
        var name = Words.Digits.ContainsKey(finding.Subject) ? words[$"digit.{finding.Subject}"] : hole switch
        {
            { Kind: HoleKind.Grip, Digit: { } digit } => Digit(digit),
            { Kind: HoleKind.Indentation, Digit: { } digit } => words.Fill("hole.indentation", ("digit", Digit(digit))),
            { Kind: HoleKind.Vent, In: { } host } => words.Fill("hole.vent", ("digit", Digit(host))),
            { Kind: HoleKind.Balance } => words["hole.balance"],
            { Kind: HoleKind.Mill } => words["hole.mill"],
            _ => words.Fill("hole.number", ("number", words.Language.Number(number + 1))),
        };
        return place.Groups["piece"] is { Success: true } piece
            ? words.Fill("hole.piece", ("hole", name), ("number", words.Language.Number(Number(piece) + 1))) : name;
    }

    /// <summary>A digit.</summary>
    public string Digit(Digit digit) => words[$"digit.{Words.Of(digit)}"];

    /// <summary>The reading and what is allowed; null where they are not numbers.</summary>
    public string? Reading(Finding finding) => Measured(finding) is { } measured && Limit(finding) is { } limit
        ? words.Fill("reading", ("measured", measured), ("limit", limit)) : null;

    /// <summary>Why a ball failed, a sentence for each rule that is not met.</summary>
    public IEnumerable<Told> Fails(Verdict verdict) => verdict.Findings.Where(finding => finding.Outcome == Outcome.Fail).Select(Fail);

    /// <summary>What is open: one sentence for all that was not measured, then one for each other cause.</summary>
    public IEnumerable<Told> Open(Verdict verdict)
    {
        if (verdict.Cause == HoldCause.NoEdition)
        {
            yield return new(words["open.noEdition"]);
        }
        else if (verdict.Findings.Count == 0)
        {
            yield return new(words["open.nothing"]);
        }

        var open = verdict.Findings.Where(finding => finding.Outcome == Outcome.Hold).ToLookup(finding => finding.Cause);
        if (open.Contains(HoldCause.NotMeasured))
        {
            var rules = open[HoldCause.NotMeasured].Select(Title).Distinct();
            yield return new(words.Fill("open.notMeasured", ("rules", string.Join(words["list.comma"], rules))));
        }

        foreach (var finding in open.Where(cause => cause.Key != HoldCause.NotMeasured).SelectMany(cause => cause))
        {
            yield return Held(finding);
        }
    }

    private Told Held(Finding finding) => finding.Cause switch
    {
        HoldCause.NearLimit => Filled("open.nearLimit", finding),
        HoldCause.LimitUnconfirmed when finding.Limit?.Limit is not null => Filled("open.unconfirmed", finding),
        HoldCause.LimitUnconfirmed => Filled("open.noLimit", finding),
        HoldCause.Discretion => Filled("open.discretion", finding),
        HoldCause.RuleError => Filled("open.ruleError", finding),
        _ => new(finding.Reason, English),
    };

    // The rule's sentence for what was measured, such as the depth of a hole, comes before the one for the whole rule. A rule of a
    // supplement may have the id of an edition's and say something else: only what was measured against a limit is said in its words.
    private Told Fail(Finding finding)
    {
        if (finding is { Supplement: not null, Margin: null })
        {
            return new(finding.Reason, English);
        }

        var key = $"fail.{finding.Rule}";
        var part = finding.Path is { } path ? $"{key}.{path[(path.LastIndexOf('.') + 1)..]}" : key;
        return words.Find(part) is not null ? Filled(part, finding)
            : words.Find(key) is not null ? Filled(key, finding) : new(finding.Reason, English);
    }

    private Told Filled(string key, Finding finding)
    {
        var isWhole = true;
        var sentence = Placeholders.Fill(words[key], place =>
        {
            var filled = Place(place, finding);
            isWhole &= filled is not null;
            return filled;
        });
        return isWhole ? new(Words.Capital(sentence)) : new(finding.Reason, English);
    }

    private string? Place(string place, Finding finding) => place switch
    {
        "rule" => Title(finding),
        "subject" => Subject(finding),
        "measured" => Measured(finding),
        "limit" => Limit(finding),
        "far" => Far(finding),
        "heavier" => Side(finding, (by, value) => by.By(value).Heavier),
        "lighter" => Side(finding, (by, value) => by.By(value).Lighter),
        _ => null,
    };

    private string? Side(Finding finding, Func<Sides, decimal, string> side) =>
        finding is { Path: { } path, Measured.Value: { } value } && Catalogue.At(path)?.Sides is { } sides
            ? words[$"side.{side(sides, value)}"] : null;

    /// <summary>What was measured; the side of an imbalance stands in the sentence or behind the figure, never as a sign.</summary>
    private string? Measured(Finding finding) => finding.Measured?.Exact is { } exact ? Figure(exact.Value, exact.Notation, finding)
        : finding is { Path: "ball.made", Measured: not null } ? sheet.Ball?.Made is { } made ? Made(made) : null : null;

    private string Made(MadeOn made) => made.First == made.Last ? words.Language.Day(made.First) : made.Text;

    private string? Limit(Finding finding) => finding.Path == "ball.made" ? MadeSince(finding) is { } day ? words.Language.Day(day) : null
        : finding.Limit?.Limit is { } limit ? InWords(limit, finding) : null;

    private string InWords(Limit limit, Finding finding) => limit switch
    {
        { Least: null, Most: { Inclusive: true, Value: 0, Notation: null } } => words["limit.none"],
        { Least: null, Most: { } most } => words.Fill(most.Inclusive ? "limit.atMost" : "limit.under", ("most", End(most, finding))),
        { Least: { } least, Most: null } => words.Fill(least.Inclusive ? "limit.atLeast" : "limit.over", ("least", End(least, finding))),
        { Exact: true, Most: { } most } => words.Fill("limit.exactly", ("most", End(most, finding))),
        { Least: { Inclusive: true } least, Most: { Inclusive: true } most } =>
            words.Fill("limit.range", ("least", End(least, finding)), ("most", End(most, finding))),
        _ => words.Fill("limit.both", ("low", InWords(limit with { Most = null }, finding)),
            ("high", InWords(limit with { Least = null }, finding))),
    };

    // A day is no number in a finding, so the edition is asked from which day on balls may have been made.
    private DateOnly? MadeSince(Finding finding) => finding.Supplement is null && edition?.Rules.OfType<Rule.Limited>()
        .Where(rule => rule.Id == finding.Rule && rule.Quantity == RuleQuantity.Made)
        .Select(rule => rule.Cases[0].Limit?.Least).FirstOrDefault() is { } least ? DateOnly.FromDayNumber((int)least.Value) : null;

    private string End(Bound bound, Finding finding) => Figure(bound.Value, bound.Notation, finding);

    // Reading and ends of the limit are rounded together; the size of an imbalance is what its limit is about.
    private string Figure(decimal value, Notation? notation, Finding finding)
    {
        if (notation is not { } written)
        {
            return words.Language.Number((int)value);
        }

        var isSide = finding.Path is { } path && Catalogue.At(path)?.CanBeTurned == true;
        var limit = finding.Limit?.Limit;
        decimal[] all = [.. ((decimal?[])[finding.Measured?.Measure, limit?.Least?.Value, limit?.Most?.Value]).OfType<decimal>()];
        return isSide
            ? BothUnits.Of(Math.Abs(value), written, [.. all.Select(Math.Abs)], words.Language)
            : BothUnits.Of(value, written, all, words.Language);
    }

    private string? Far(Finding finding)
    {
        if (finding.Margin?.Exact is not { Notation: { } notation } margin || finding.Limit?.Limit is not { } limit)
        {
            return null;
        }

        var size = finding.Measured?.Value ?? 0;
        var isAbove = limit.Most is { } most && Math.Abs(size) >= most.Value;
        return margin.Value == 0 ? words["far.on"] : words.Fill(
            isAbove ? "far.above" : "far.below", ("excess", BothUnits.Of(Math.Abs(margin.Value), notation, [0], words.Language)));
    }

    private static int Number(Group digits) => digits.Success ? int.Parse(digits.ValueSpan, CultureInfo.InvariantCulture) : 0;

    /// <summary>The hole, and the piece of it, that a path leads to, counted from 0.</summary>
    [GeneratedRegex(@"^holes\[(?<hole>\d{1,3})\](?:\.pieces\[(?<piece>\d{1,3})\])?")]
    private static partial Regex HolePath();
}
