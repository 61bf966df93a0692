using System.Data.Common;
using Inspect.Metrology;
using Inspect.Rules.Judging;
using Inspect.Sheets;
using Inspect.Sheets.Readings;

namespace Inspect.Station.Instruments;

/// <summary>One instrument's uncertainty for one group of quantities, which a director can use for an event.</summary>
/// <param name="Instrument">The instrument.</param>
/// <param name="Label">The group in words, which is also its name in a form.</param>
/// <param name="Quantities">The quantities of the rules it reads.</param>
public sealed record UncertaintyOffer(Instrument Instrument, string Label, IReadOnlyList<RuleQuantity> Quantities)
{
    /// <summary>Every offer of the instruments in service, in the order of the rules' quantities.</summary>
    public static IReadOnlyList<UncertaintyOffer> All(DbConnection connection, DbTransaction? transaction = null)
    {
        var all = InstrumentBook.All(connection, transaction).Where(one => !one.IsRetired && one.Resolution is not null).ToList();
        return [.. Catalogue.Terms.Where(term => term.Group is not null).GroupBy(term => term.Group!)
            .SelectMany(group => all.Where(one => InstrumentKinds.For(group.First().Quantity).Contains(one.Kind))
                .Select(one => new UncertaintyOffer(one, group.Key, [.. group.Select(term => term.Quantity)])))];
    }

    /// <summary>The combined standard uncertainty in the unit of the display.</summary>
    public string Size => InUnit(Instrument.Uncertainty!.Standard);

    /// <summary>Its parts and its degrees of freedom.</summary>
    public string Parts => string.Join(", ", Instrument.Uncertainty!.Parts.Select(part => $"{part.Name} {InUnit(part.Standard)}"))
        + (Instrument.Uncertainty!.WholeFreedom is { } freedom ? FormattableString.Invariant($"; {freedom} degrees of freedom") : "");

    /// <summary>Whether an event uses exactly these figures for the whole group.</summary>
    public bool IsUsed(JudgingTerms terms) => Quantities.All(quantity => terms.Uncertainties.Any(used => used.Quantity == quantity
        && used.Resolution?.Value == Instrument.Resolution?.Value && used.Repeatability?.Value == Instrument.Repeatability?.Value
        && used.Calibration?.Value == Instrument.Calibration?.Value));

    /// <summary>The event's terms with these figures in place of its own. The part between inspectors and the
    /// decision rule are kept.</summary>
    public JudgingTerms TakenOver(JudgingTerms terms) => terms with
    {
        Uncertainties =
        [
            .. terms.Uncertainties.Where(used => !Quantities.Contains(used.Quantity)),
            .. Quantities.Select(quantity => new Uncertainty(
                quantity,
                Instrument.Resolution,
                Instrument.Repeatability,
                terms.Uncertainties.FirstOrDefault(used => used.Quantity == quantity)?.BetweenOperators,
                Instrument.Calibration)),
        ],
    };

    private string InUnit(double size) => StatedSize.In(Seam.ToDecimal(size), Checks.UnitOf(Instrument));
}
