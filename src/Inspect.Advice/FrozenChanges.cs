using Inspect.Rules.Judging;
using Inspect.Sheets;
using Inspect.Sheets.Readings;

namespace Inspect.Advice;

/// <summary>Something of a ball that differs although the ball was not to be changed.</summary>
/// <param name="What">What it is, as an inspector says it.</param>
/// <param name="Then">As the earlier inspection has it; null where there was nothing.</param>
/// <param name="Now">As it is now; null where there is nothing.</param>
/// <param name="Apart">How far two readings are apart; null for a hole or a serial.</param>
/// <param name="Allowed">What two readings of an unchanged ball may differ by; null for a hole or a serial.</param>
/// <param name="IsAssumed">Whether <paramref name="Allowed"/> is assumed, because the event states no uncertainty.</param>
public sealed record FrozenChange(string What, string? Then, string? Now, string? Apart, string? Allowed, bool IsAssumed)
{
    /// <summary>The change in a sentence.</summary>
    public string Sentence => this switch
    {
        { Apart: null, Then: null } => $"{What}: {Now} now, not on the slip.",
        { Apart: null, Now: null } => $"{What}: {Then} on the slip, not there now.",
        { Apart: null } => $"{What} {Now} now, {Then} on the slip.",
        { IsAssumed: true } =>
            $"{What} {Now} now, {Then} on the slip: {Apart} apart. The event states no uncertainty; {Allowed} is assumed.",
        _ => $"{What} {Now} now, {Then} on the slip: {Apart} apart, the instruments allow {Allowed}.",
    };
}

/// <summary>Compares two inspections of a ball that was not to be changed in between: what differs by more than its
/// instruments do.</summary>
/// <remarks>
/// Two readings of an unchanged ball differ by at most twice the root of the sum of the squares of their standard uncertainties, about
/// 19 times in 20 (JCGM 100:2008, 5.1.2 and 6.2.1 with k = 2). A reading taken only once says nothing.
/// </remarks>
public static class FrozenChanges
{
    /// <summary>What is assumed where an event states no uncertainty: about four times the error of one reading; judgement, no source.
    /// Roughness has none, since a surface wears in use.</summary>
    private static readonly Dictionary<RuleQuantity, (decimal Amount, Unit Unit)> Assumed = new()
    {
        [RuleQuantity.Gross] = (1m, Unit.Ounce),
        [RuleQuantity.TopBottom] = (0.5m, Unit.Ounce),
        [RuleQuantity.LeftRight] = (0.5m, Unit.Ounce),
        [RuleQuantity.FingerThumb] = (0.5m, Unit.Ounce),
        [RuleQuantity.AnyHalves] = (0.5m, Unit.Ounce),
        [RuleQuantity.Diameters] = (0.01m, Unit.Inch),
        [RuleQuantity.Circumference] = (0.04m, Unit.Inch),
        [RuleQuantity.Hardness] = (4m, Unit.ShoreD),
        [RuleQuantity.HoleDiameter] = (3m / 64, Unit.Inch),
        [RuleQuantity.HoleDepth] = (3m / 16, Unit.Inch),
    };

    /// <summary>What differs, in the order of the sheet; empty where the ball may be unchanged.</summary>
    /// <param name="then">The earlier sheet.</param>
    /// <param name="thenTerms">What the event set when it was recorded.</param>
    /// <param name="now">The later sheet, with the same grip.</param>
    /// <param name="nowTerms">What the event sets now.</param>
    public static IReadOnlyList<FrozenChange> Between(Sheet then, JudgingTerms thenTerms, Sheet now, JudgingTerms nowTerms) =>
    [
        .. Serial(then.Ball?.Serial, now.Ball?.Serial),
        .. SheetChanges.Between(then, now, nowTerms, thenTerms)
            .Select(change => change.IsHole ? Hole(change, then, now) : change.Apart is { } apart ? Reading(change, apart) : null)
            .OfType<FrozenChange>(),
    ];

    private static IEnumerable<FrozenChange> Serial(string? then, string? now) =>
        then is null || now is null || Bare(then) == Bare(now) ? [] : [new FrozenChange("Serial", then, now, null, null, false)];

    private static string Bare(string serial) => string.Concat(serial.Where(char.IsLetterOrDigit)).ToUpperInvariant();

    // Holes that nobody looked for are not gone.
    private static FrozenChange? Hole(SheetChange change, Sheet then, Sheet now) => then.Holes is null || now.Holes is null
        ? null : new FrozenChange(change.Label, change.Before, change.Now, null, null, false);

    private static FrozenChange? Reading(SheetChange change, decimal apart)
    {
        if (change.Spread == SpreadOfReadings.Within)
        {
            return null;
        }

        var (allowed, isAssumed) = (change.Allowed, false);
        if (change.Spread == SpreadOfReadings.NotStated)
        {
            if (change.Quantity is not { } quantity || !Assumed.TryGetValue(quantity, out var usual)
                || apart <= usual.Amount * Units.Factor(usual.Unit))
            {
                return null;
            }

            (allowed, isAssumed) = (Written.Difference(usual.Amount * Units.Factor(usual.Unit), change.Notation), true);
        }

        var apartInWords = Written.Difference(apart, change.Notation).Trim();
        return new FrozenChange(change.Label, change.Before, change.Now, apartInWords, allowed?.Trim(), isAssumed);
    }
}
