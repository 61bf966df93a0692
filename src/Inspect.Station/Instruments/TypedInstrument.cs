using System.Globalization;
using Inspect.Metrology;
using Inspect.Sheets;
using Inspect.Sheets.Readings;
using Inspect.Station.Web;

namespace Inspect.Station.Instruments;

/// <summary>The form that adds or changes an instrument, as typed, and the instrument made from it.</summary>
public sealed class TypedInstrument
{
    /// <summary>The fields, in the order in which the form asks for them.</summary>
    public static readonly IReadOnlyList<string> Fields =
    [
        "name", "kind", "serial", "value", "class", "resolution", "repeatability", "tolerance", "calibration", "calibrated", "due",
        "certificate", "constant", "ringDiameter", "ringCircumference",
    ];

    private const int LongestName = 40;
    private const int LongestText = 120;

    private readonly Func<string, string> _typed;

    private TypedInstrument(Func<string, string> typed) => _typed = typed;

    /// <summary>The empty form.</summary>
    public static TypedInstrument None { get; } = new(_ => "");

    public static TypedInstrument From(IFormCollection form) => new(name => form[name].ToString().Trim());

    /// <summary>The answers that give this instrument.</summary>
    public static TypedInstrument Of(Instrument instrument) => new(name => name switch
    {
        "name" => instrument.Name,
        "kind" => InstrumentKinds.WordOf(instrument.Kind),
        "serial" => instrument.Serial,
        "value" => instrument.Value?.Text,
        "class" => instrument.AccuracyClass,
        "resolution" => instrument.Resolution?.Text,
        "repeatability" => instrument.Repeatability?.Text,
        "tolerance" => instrument.Tolerance?.Text,
        "calibration" => instrument.Calibration?.Text,
        "calibrated" => Day(instrument.Calibrated),
        "due" => Day(instrument.Due),
        "certificate" => instrument.Certificate,
        "constant" => instrument.ScaleConstant?.Text,
        "ringDiameter" => instrument.Rings.Diameter?.Text,
        "ringCircumference" => instrument.Rings.Circumference?.Text,
        _ => null,
    } ?? "");

    /// <summary>What was typed into a field.</summary>
    public string Typed(string name) => _typed(name);

    /// <summary>The instrument, or null with the faults added.</summary>
    /// <param name="before">The instrument that is changed: its name and kind stay. Null for a new one.</param>
    /// <param name="faults">The faults are added here.</param>
    public Instrument? Read(Instrument? before, Faults faults)
    {
        var name = before?.Name ?? ReadName(faults);
        var kind = before?.Kind ?? InstrumentKinds.Named(Typed("kind"));
        if (kind is not { } known)
        {
            faults.Add("kind", "Choose what kind of instrument it is.");
            return null;
        }

        var (calibrated, due) = (ReadDay("calibrated", faults), ReadDay("due", faults));
        if (calibrated is { } from && due is { } until && until < from)
        {
            faults.Add("due", $"\"{Typed("due")}\" is before the calibration; give the last day on which it is valid.");
        }

        var repeatability = Size("repeatability", known, faults);
        var made = new Instrument
        {
            Name = name,
            Kind = known,
            Version = before?.Version ?? 1,
            Serial = Text("serial", faults),
            Resolution = Size("resolution", known, faults),
            Repeatability = repeatability,
            RepeatabilityFreedom = repeatability?.Text == before?.Repeatability?.Text ? before?.RepeatabilityFreedom : null,
            RepeatabilityFrom = repeatability is null ? null : repeatability.Text == before?.Repeatability?.Text ? before?.RepeatabilityFrom
                : "typed in",
            Tolerance = Size("tolerance", known, faults),
            Calibration = Size("calibration", known, faults),
            Calibrated = calibrated,
            Due = due,
            Certificate = Text("certificate", faults),
            ScaleConstant = Constant(known, faults),
            Rings = known == InstrumentKind.RingGauge ? (Ring("ringDiameter", faults), Ring("ringCircumference", faults)) : default,
            Value = Value(known, faults),
            AccuracyClass = known == InstrumentKind.CheckWeight && Typed("class").Length > 0 ? Typed("class") : null,
            IsRetired = before?.IsRetired ?? false,
        };
        Check(made, faults);
        return faults.AreNone ? made : null;
    }

    /// <summary>A size of what an instrument of a kind reads: a step, a deviation.</summary>
    internal static (Reading? Size, string? Refusal) ReadSize(string text, InstrumentKind kind) => kind == InstrumentKind.CheckBlock
        ? ReadValue(text, kind) is { Value: { } value } ? (value, null) : (null, $"\"{text}\" is not a size; write {BlockExample}.")
        : StatedSize.Parse(text, InstrumentKinds.QuantityOf(kind), InstrumentKinds.UnitOf(kind));

    /// <summary>The value of a check weight or block. For a block it is a length with its unit, or a hardness as a number.</summary>
    internal static (Reading? Value, string? Refusal) ReadValue(string text, InstrumentKind kind)
    {
        if (kind == InstrumentKind.CheckWeight)
        {
            var weight = ReadingParser.Parse(text, Quantity.Weight, Unit.Gram);
            return (weight.Reading, weight.Refusal);
        }

        var value = InstrumentKinds.Measuring.Select(InstrumentKinds.QuantityOf)
            .Where(quantity => quantity is not (Quantity.Weight or Quantity.Imbalance)).Distinct()
            .Select(quantity => ReadingParser.Parse(text, quantity).Reading).FirstOrDefault(reading => reading is not null);
        return value is null ? (null, $"\"{text}\" is not a value of a block; write {BlockExample}.") : (value, null);
    }

    private const string BlockExample = "1 in or 25.4 mm for a ring or block, 60 for a hardness block";

    private static void Check(Instrument made, Faults faults)
    {
        if (made.Kind == InstrumentKind.RingGauge)
        {
            if (made.Rings == default && faults.AreNone)
            {
                faults.Add("ringCircumference", "Enter the limits of the two rings, as circumferences or as diameters.");
            }

            return;
        }

        if (InstrumentKinds.Measures(made.Kind))
        {
            if (made.Resolution is null && faults.At("resolution") is null)
            {
                faults.Add("resolution", $"Give the smallest step it shows, such as {Step(made.Kind)}.");
            }

            return;
        }

        if (made.Value is null && faults.At("value") is null)
        {
            faults.Add("value", "Enter its certified value, with its unit.");
        }
        else if (made is { Kind: InstrumentKind.CheckWeight, AccuracyClass: { } name, Value: { } value }
            && CheckWeightClass.ErrorOf(name, value.Value) is null)
        {
            faults.Add("class", $"Class {name} has no weight of {value.Text}; give how far it may be off instead, from its certificate.");
        }
        else if (made is { AccuracyClass: null, Tolerance: null } && faults.At("tolerance") is null)
        {
            faults.Add("tolerance", "Enter its tolerance, from its certificate.");
        }
    }

    private static string Step(InstrumentKind kind) => InstrumentKinds.QuantityOf(kind) switch
    {
        Quantity.Weight or Quantity.Imbalance => "0.1 oz",
        Quantity.Hardness => "0.5",
        Quantity.Temperature => "1 F",
        Quantity.Length => "1/64 in or 0.001 in",
        var quantity => Units.Example(quantity),
    };

    private string ReadName(Faults faults)
    {
        var name = Typed("name");
        if (name.Length is 0 or > LongestName || !char.IsLetterOrDigit(name[0])
            || !name.All(sign => char.IsLetterOrDigit(sign) || sign is ' ' or '-' or '.'))
        {
            faults.Add("name", name.Length == 0
                ? "Give the short name that readings will use, such as Scale 1."
                : $"\"{name}\" cannot be a name; use letters, digits, spaces, hyphens and full stops, {LongestName} at most, "
                    + "a letter or digit first.");
        }

        // The addresses with these names are other pages.
        if (name.ToLowerInvariant() is "new" or "in-use")
        {
            faults.Add("name", $"\"{name}\" cannot be a name; give one that tells which it is, such as Scale 1.");
        }

        return name;
    }

    private string? Text(string field, Faults faults)
    {
        var text = Typed(field);
        if (text.Length > LongestText)
        {
            faults.Add(field, $"This is longer than {LongestText} characters; shorten it.");
        }

        return text.Length == 0 ? null : text;
    }

    private Reading? Size(string field, InstrumentKind kind, Faults faults)
    {
        if (Typed(field) is not { Length: > 0 } typed)
        {
            return null;
        }

        var (size, refusal) = ReadSize(typed, kind);
        if (refusal is not null)
        {
            faults.Add(field, refusal);
        }

        return size;
    }

    private Reading? Constant(InstrumentKind kind, Faults faults)
    {
        if (kind is not (InstrumentKind.BalanceScale or InstrumentKind.Scale) || Typed("constant") is not { Length: > 0 } typed)
        {
            return null;
        }

        var constant = ReadingParser.Parse(typed, Quantity.Length, Unit.Inch);
        if (constant.Refusal is { } refusal)
        {
            faults.Add("constant", refusal);
        }

        return constant.Reading;
    }

    private GaugeLimits? Ring(string field, Faults faults)
    {
        if (Typed(field) is not { Length: > 0 } typed)
        {
            return null;
        }

        var (limits, refusal) = GaugeLimits.Parse(typed);
        if (refusal is not null)
        {
            faults.Add(field, refusal);
        }

        return limits;
    }

    private Reading? Value(InstrumentKind kind, Faults faults)
    {
        if (InstrumentKinds.Measures(kind) || Typed("value") is not { Length: > 0 } typed)
        {
            return null;
        }

        var (value, refusal) = ReadValue(typed, kind);
        if (refusal is not null)
        {
            faults.Add("value", refusal);
        }

        return value;
    }

    private DateOnly? ReadDay(string field, Faults faults)
    {
        if (Typed(field) is not { Length: > 0 } typed)
        {
            return null;
        }

        if (DateOnly.TryParseExact(typed, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day))
        {
            return day;
        }

        faults.Add(field, $"\"{typed}\" is not a date; write it as 2027-03-14.");
        return null;
    }

    private static string? Day(DateOnly? day) => day?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
