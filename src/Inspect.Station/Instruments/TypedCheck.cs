using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Inspect.Metrology;
using Inspect.Sheets;
using Inspect.Sheets.Readings;
using Inspect.Station.Web;

namespace Inspect.Station.Instruments;

/// <summary>The form of a check: the standards measured, what the instrument showed, and how the check comes out.</summary>
public sealed class TypedCheck
{
    /// <summary>How many standards a form has room for.</summary>
    public const int Rows = 3;

    /// <summary>How many readings of a hardness block a form has room for (ASTM D2240 takes five).</summary>
    public const int HardnessReadings = 5;

    private readonly Func<string, string> _typed;

    private TypedCheck(Func<string, string> typed) => _typed = typed;

    public static TypedCheck None { get; } = new(_ => "");

    public static TypedCheck From(IFormCollection form) => new(name => form[name].ToString().Trim());

    /// <summary>What was typed into a field.</summary>
    public string Typed(string name) => _typed(name);

    /// <summary>Whether an instrument of this kind is first read empty or closed.</summary>
    public static bool HasZero(InstrumentKind kind) =>
        kind is InstrumentKind.Scale or InstrumentKind.BalanceScale or InstrumentKind.Caliper or InstrumentKind.DepthGauge;

    /// <summary>A hash of these answers, so that the second press records what was shown.</summary>
    public string Seen(Instrument instrument) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(
        string.Join('\n', Fields(instrument).Select(Typed).Prepend(instrument.Name)))));

    /// <summary>The outcome of the check, or null with the faults added.</summary>
    /// <param name="instrument">The instrument that is checked.</param>
    /// <param name="standards">The check weights and blocks that may be used today, by name.</param>
    /// <param name="faults">The faults are added here.</param>
    public CheckOutcome? Judge(Instrument instrument, IReadOnlyList<Instrument> standards, Faults faults)
    {
        var points = new List<CheckedPoint>();
        if (HasZero(instrument.Kind))
        {
            if (Shown("zero", instrument, faults, mayBeZero: true) is { } zero)
            {
                points.Add(new CheckedPoint("zero", 0, 0, [zero]));
            }
            else if (faults.At("zero") is null)
            {
                faults.Add("zero", "Enter what it shows when empty.");
            }
        }

        decimal? tolerance = null;
        for (var i = 0; i < Rows; i++)
        {
            if (ReadRow(i, instrument, standards, faults) is var (point, ofBlock))
            {
                points.Add(point);
                tolerance = tolerance is { } other ? Math.Min(other, ofBlock ?? other) : ofBlock;
            }
        }

        if (points.All(point => point.What == "zero") && faults.AreNone)
        {
            faults.Add(Field(0, "shown"), "Measure at least one known standard, and enter what the instrument showed.");
        }

        var unit = Checks.UnitOf(instrument);
        if (!faults.AreNone)
        {
            return null;
        }

        if (instrument.Kind is InstrumentKind.Scale or InstrumentKind.BalanceScale)
        {
            return CheckOfScale.Judge(instrument.Resolution!.Value, points, unit);
        }

        // A durometer's limit is the tolerance on its block's certificate; every other instrument has its own limit of error.
        if ((instrument.Kind == InstrumentKind.Durometer ? tolerance : instrument.Tolerance?.Value) is not { } allowed)
        {
            faults.Add(Faults.Whole, instrument.Kind == InstrumentKind.Durometer
                ? "Give the tolerance that the certificate of the hardness block states."
                : $"The limit of error of \"{instrument.Name}\" is not recorded; a director must add it first.");
            return null;
        }

        return CheckOfStandard.Judge(allowed, points, unit);
    }

    /// <summary>Whether anything was typed or chosen in a row.</summary>
    public bool HasAny(int row) =>
        ((string[])["standard", "nominal", "class", "ownError", "tolerance", "shown"]).Any(name => Typed(Field(row, name)).Length > 0);

    /// <summary>The name of a field in one row.</summary>
    public static string Field(int row, string name) => string.Create(CultureInfo.InvariantCulture, $"points[{row}].{name}");

    private static IEnumerable<string> Fields(Instrument instrument) => Enumerable.Range(0, Rows)
        .SelectMany(row => ((string[])["standard", "nominal", "class", "ownError", "tolerance"]).Concat(ShownFields(instrument))
            .Select(name => Field(row, name)))
        .Prepend("zero");

    /// <summary>The fields for the readings in one row.</summary>
    public static IEnumerable<string> ShownFields(Instrument instrument) => instrument.Kind == InstrumentKind.Durometer
        ? Enumerable.Range(0, HardnessReadings).Select(i => i == 0 ? "shown" : string.Create(CultureInfo.InvariantCulture, $"shown{i + 1}"))
        : ["shown"];

    private (CheckedPoint Point, decimal? Tolerance)? ReadRow(
        int row, Instrument instrument, IReadOnlyList<Instrument> standards, Faults faults)
    {
        var before = faults.All.Count;
        var shown = ShownFields(instrument).Select(name => Shown(Field(row, name), instrument, faults, mayBeZero: false)).OfType<Reading>()
            .ToList();
        var (chosen, nominal) = (Typed(Field(row, "standard")), Typed(Field(row, "nominal")));
        if (faults.All.Count > before || (shown.Count == 0 && chosen.Length == 0 && nominal.Length == 0))
        {
            return null;
        }

        if (shown.Count == 0)
        {
            faults.Add(Field(row, "shown"), "Enter what it showed here.");
        }
        else if (chosen.Length > 0 && nominal.Length > 0)
        {
            faults.Add(Field(row, "nominal"), $"\"{chosen}\" was chosen, and its value is known; leave this empty, or choose none.");
        }
        else if (chosen.Length > 0)
        {
            return OfRegistered(row, chosen, instrument, standards, shown, faults);
        }
        else if (nominal.Length == 0)
        {
            faults.Add(Field(row, "nominal"), "Choose the standard that was measured, or enter its value.");
        }
        else
        {
            return OfTyped(row, nominal, instrument, shown, faults);
        }

        return null;
    }

    private (CheckedPoint Point, decimal? Tolerance)? OfRegistered(
        int row, string name, Instrument instrument, IReadOnlyList<Instrument> standards, IReadOnlyList<Reading> shown, Faults faults)
    {
        if (standards.FirstOrDefault(one => one.Name == name) is not { Value: { } value } standard
            || !Fits(value.Quantity, instrument.Kind))
        {
            faults.Add(Field(row, "standard"), $"\"{name}\" cannot be used for this check; choose one from the list.");
            return null;
        }

        // The tolerance on a block's certificate is both the block's own error and, for a durometer, the durometer's limit. When typed,
        // the two are separate.
        var tolerance = Size(Field(row, "tolerance"), instrument, faults);
        return (new CheckedPoint($"{standard.Name} ({value.Text}{(standard.AccuracyClass is { } mark ? $", {mark}" : "")})", value.Value,
            standard.OwnError ?? 0, shown), tolerance);
    }

    private (CheckedPoint Point, decimal? Tolerance)? OfTyped(
        int row, string nominal, Instrument instrument, IReadOnlyList<Reading> shown, Faults faults)
    {
        var isScale = InstrumentKinds.QuantityOf(instrument.Kind) is Quantity.Weight or Quantity.Imbalance;
        var worth = ReadingParser.Parse(
            nominal, isScale ? Quantity.Weight : InstrumentKinds.QuantityOf(instrument.Kind), InstrumentKinds.UnitOf(instrument.Kind));
        if (worth.Reading is not { } value)
        {
            faults.Add(Field(row, "nominal"), worth.Refusal!);
            return null;
        }

        var (mark, own) = (Typed(Field(row, "class")), Size(Field(row, "ownError"), instrument, faults));
        var ofClass = isScale && mark.Length > 0 ? CheckWeightClass.ErrorOf(mark, value.Value) : null;
        if (isScale && mark.Length > 0 && ofClass is null)
        {
            faults.Add(Field(row, "class"), $"Class {mark} has no weight of {value.Text}; its masses are 1, 2 or 5 times 1 g to 10 kg, "
                + "so give how far it may be off instead.");
        }
        else if (ofClass is null && own is null && faults.At(Field(row, "ownError")) is null)
        {
            faults.Add(Field(row, "ownError"), isScale
                ? "Enter the weight's class, or its tolerance from its certificate."
                : "Enter its tolerance, from its certificate.");
        }

        var what = $"{value.Text}{(mark.Length > 0 ? $" weight of class {mark}" : "")}";
        return (new CheckedPoint(what, value.Value, ofClass ?? own ?? 0, shown), Size(Field(row, "tolerance"), instrument, faults));
    }

    private static bool Fits(Quantity standard, InstrumentKind kind) => InstrumentKinds.QuantityOf(kind) switch
    {
        Quantity.Weight or Quantity.Imbalance => standard == Quantity.Weight,
        var quantity => standard == quantity,
    };

    private decimal? Size(string field, Instrument instrument, Faults faults)
    {
        if (Typed(field) is not { Length: > 0 } typed)
        {
            return null;
        }

        var (size, refusal) = TypedInstrument.ReadSize(typed, instrument.Kind);
        if (refusal is not null)
        {
            faults.Add(field, refusal);
        }

        return size?.Value;
    }

    private Reading? Shown(string field, Instrument instrument, Faults faults, bool mayBeZero)
    {
        if (Typed(field) is not { Length: > 0 } typed)
        {
            return null;
        }

        // An empty scale or a closed caliper shows zero or less; a loaded scale may show pounds and ounces.
        var quantity = InstrumentKinds.QuantityOf(instrument.Kind) switch
        {
            Quantity.Length when mayBeZero => Quantity.SignedLength,
            Quantity.Weight when mayBeZero => Quantity.Imbalance,
            Quantity.Imbalance when !mayBeZero => Quantity.Weight,
            var usual => usual,
        };
        var result = ReadingParser.Parse(typed, quantity, Checks.UnitOf(instrument));
        if (result.Refusal is { } refusal)
        {
            faults.Add(field, refusal);
        }

        return result.Reading;
    }
}
