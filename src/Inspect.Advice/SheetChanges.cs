using Inspect.Rules.Judging;
using Inspect.Rules.Rulesets;
using Inspect.Sheets;
using Inspect.Sheets.Readings;

namespace Inspect.Advice;

/// <summary>How a difference compares with what two readings of one unchanged ball may differ by.</summary>
public enum SpreadOfReadings
{
    /// <summary>No uncertainty is set for this quantity.</summary>
    NotStated,

    /// <summary>Two readings of an unchanged ball may differ by as much.</summary>
    Within,

    /// <summary>It is more than two readings of an unchanged ball differ by, except in about one pair in twenty.</summary>
    Beyond,
}

/// <summary>One thing that changed.</summary>
/// <param name="Label">What it is, as an inspector says it.</param>
/// <param name="Before">The earlier reading, a side in words; null when it was not measured.</param>
/// <param name="Now">The later reading; null when it was not measured.</param>
/// <param name="Difference">Now less before, with its sign and unit; null where one of the two is missing or both are words.</param>
/// <param name="Spread">How the difference compares with the instruments' spread; null where there is no difference to compare.</param>
/// <param name="Allowed">What two readings of an unchanged ball may differ by, where an uncertainty is set.</param>
public sealed record SheetChange(string Label, string? Before, string? Now, string? Difference, SpreadOfReadings? Spread, string? Allowed)
{
    /// <summary>What was read, where a rule can limit it.</summary>
    public RuleQuantity? Quantity { get; init; }

    /// <summary>How far the two readings are apart, in its base unit; null where one is missing or both are words.</summary>
    public decimal? Apart { get; init; }

    /// <summary>How the later reading was written.</summary>
    public Notation Notation { get; init; }

    /// <summary>Whether it is a hole that appeared or is gone.</summary>
    public bool IsHole { get; init; }
}

/// <summary>What changed when a ball was measured again, and whether the instruments alone may explain it.</summary>
/// <remarks>
/// Two readings with standard uncertainties u and v differ by more than 2 sqrt(u² + v²), which is 2 sqrt2 u for equal ones, about once in
/// twenty times: the reproducibility limit of ISO 5725-6, whose factor is 2.8 (from memory).
/// </remarks>
public static class SheetChanges
{
    /// <summary>Everything that differs, in the order of the sheet. What reads the same is left out.</summary>
    /// <param name="then">The sheet of the inspection that was replaced.</param>
    /// <param name="now">The sheet of the one that replaced it.</param>
    /// <param name="terms">What the event sets: the uncertainty of each quantity.</param>
    /// <param name="before">The same when the earlier sheet was recorded; null: no other.</param>
    public static IReadOnlyList<SheetChange> Between(Sheet then, Sheet now, JudgingTerms terms, JudgingTerms? before = null) =>
        Between(then, now, (before ?? terms, terms));

    private static IReadOnlyList<SheetChange> Between(Sheet then, Sheet now, (JudgingTerms Then, JudgingTerms Now) terms) =>
    [
        .. Texts("Maker", then.Ball?.Maker, now.Ball?.Maker),
        .. Texts("Model", then.Ball?.Model, now.Ball?.Model),
        .. Texts("Serial", then.Ball?.Serial, now.Ball?.Serial),
        .. OfTheBall.Where(IsWeighed).SelectMany(member => Readings(member, then, now, terms)),
        .. Holes(then, now, terms),
        .. OfTheBall.Where(member => !IsWeighed(member)).SelectMany(member => Readings(member, then, now, terms)),
    ];

    private static readonly IReadOnlyList<SheetMember> OfTheBall =
        [.. Catalogue.All.Where(member => member is { Rule: not null, Kind: MemberKind.Reading, IsOfHole: false })];

    private static bool IsWeighed(SheetMember member) => member.Path.StartsWith("weights.", StringComparison.Ordinal);

    private static IEnumerable<SheetChange> Texts(string label, string? then, string? now) =>
        string.Equals(then, now, StringComparison.Ordinal) ? [] : [new SheetChange(label, then, now, null, null, null)];

    private static IEnumerable<SheetChange> Readings(
        SheetMember member, Sheet then, Sheet now, (JudgingTerms Then, JudgingTerms Now) terms) =>
        Compared(member.Label, member.Rule!.Quantity, Figure(member, then), Figure(member, now), terms);

    private static IEnumerable<SheetChange> Readings(string label, RuleQuantity quantity, Reading? then, Reading? now,
        (JudgingTerms Then, JudgingTerms Now) terms) =>
        Compared(label, quantity, Single(then, null), Single(now, null), terms);

    private static Compound? Figure(SheetMember member, Sheet sheet)
    {
        var readings = member.Readings(sheet).Select(read => read.Reading).ToList();
        if (readings.Count < 2)
        {
            return Single(readings.FirstOrDefault(), member.Sides);
        }

        var mean = readings.Average(reading => reading.Value);
        return new Compound($"{Written.As(mean, readings[0].Notation)}, average of {readings.Count}", mean, readings[0].Notation,
            readings.Count);
    }

    private static Compound? Single(Reading? reading, Sides? sides) => reading is null ? null : new Compound(
        sides is null ? reading.Text : sides.Say(reading), reading.Value, reading.Notation, 1);

    private static IEnumerable<SheetChange> Holes(Sheet then, Sheet now, (JudgingTerms Then, JudgingTerms Now) terms)
    {
        var (before, after) = (Named(then), Named(now));
        foreach (var name in before.Keys.Concat(after.Keys.Where(name => !before.ContainsKey(name))))
        {
            var (old, fresh) = (before.GetValueOrDefault(name), after.GetValueOrDefault(name));
            if (old is null || fresh is null)
            {
                yield return new SheetChange(
                    Words.Capital(name), old is null ? null : Size(old), fresh is null ? null : Size(fresh), null, null, null)
                {
                    IsHole = true,
                };
                continue;
            }

            foreach (var change in
                Readings($"{Words.Capital(name)} diameter", RuleQuantity.HoleDiameter, old.Diameter, fresh.Diameter, terms)
                .Concat(Readings($"{Words.Capital(name)} depth", RuleQuantity.HoleDepth, old.Depth, fresh.Depth, terms))
                .Concat(Pieces(name, old.Pieces ?? [], fresh.Pieces ?? [], terms)))
            {
                yield return change;
            }
        }
    }

    private static IEnumerable<SheetChange> Pieces(string hole, IReadOnlyList<GripPiece> then, IReadOnlyList<GripPiece> now,
        (JudgingTerms Then, JudgingTerms Now) terms) =>
        Enumerable.Range(0, Math.Max(then.Count, now.Count)).SelectMany(i =>
        {
            var (name, old, fresh) = (Words.Capital(Words.Piece(hole, i)), then.ElementAtOrDefault(i), now.ElementAtOrDefault(i));
            return Readings($"{name} diameter", RuleQuantity.HoleDiameter, old?.Diameter, fresh?.Diameter, terms)
                .Concat(Readings($"{name} depth", RuleQuantity.HoleDepth, old?.Depth, fresh?.Depth, terms));
        });

    private static Dictionary<string, Hole> Named(Sheet sheet)
    {
        var named = new Dictionary<string, Hole>(StringComparer.Ordinal);
        foreach (var (index, hole) in (sheet.Holes ?? []).Index())
        {
            var name = Words.Subject(hole, index);
            var count = 1;
            while (!named.TryAdd(count == 1 ? name : FormattableString.Invariant($"{name} {count}"), hole))
            {
                count++;
            }
        }

        return named;
    }

    private static string Size(Hole hole) => (hole.Diameter, hole.Depth) switch
    {
        ({ } diameter, { } depth) => $"{diameter} wide, {depth} deep",
        ({ } diameter, null) => $"{diameter} wide",
        (null, { } depth) => $"{depth} deep",
        _ => "there",
    };

    private static IEnumerable<SheetChange> Compared(
        string label, RuleQuantity quantity, Compound? then, Compound? now, (JudgingTerms Then, JudgingTerms Now) terms)
    {
        if (then is null || now is null)
        {
            return then is null && now is null ? [] : [new SheetChange(label, then?.Text, now?.Text, null, null, null)];
        }

        if (then.Value == now.Value)
        {
            return [];
        }

        var difference = now.Value - then.Value;
        var (one, other) = (Of(terms.Then), Of(terms.Now));
        var stated = one ?? other;
        var allowed = stated is null ? 0 : Allowed(Standard(one ?? stated, then.Count), Standard(other ?? stated, now.Count));
        var sign = difference > 0 ? "+" : "";
        var notation = now.Notation with { Fraction = now.Notation.Fraction || then.Notation.Fraction };
        return
        [
            new SheetChange(
                label,
                then.Text,
                now.Text,
                sign + Written.Difference(difference, notation),
                stated is null ? SpreadOfReadings.NotStated
                    : Math.Abs(difference) > allowed ? SpreadOfReadings.Beyond : SpreadOfReadings.Within,
                stated is null ? null : Written.Difference(allowed, now.Notation with { Fraction = false }))
            {
                Quantity = quantity,
                Apart = Math.Abs(difference),
                Notation = notation,
            },
        ];

        Uncertainty? Of(JudgingTerms set) => set.Uncertainties.FirstOrDefault(each => each.Quantity == quantity);
    }

    private static decimal Allowed(decimal one, decimal other) =>
        2 * Seam.ToDecimal(Math.Sqrt(Seam.ToDouble((one * one) + (other * other))));

    private static decimal Standard(Uncertainty uncertainty, int readings) =>
        uncertainty.Standard(readings == 1 ? Statistic.Single : Statistic.Average, readings);

    /// <summary>A figure of one or several readings.</summary>
    private sealed record Compound(string Text, decimal Value, Notation Notation, int Count);
}
