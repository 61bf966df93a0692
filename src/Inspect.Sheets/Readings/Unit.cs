namespace Inspect.Sheets.Readings;

/// <summary>A unit a reading can be typed in.</summary>
public enum Unit
{
    Inch,
    Millimetre,
    Centimetre,
    Pound,

    /// <summary>Whole pounds and ounces together, as in <c>15 lb 1 1/2 oz</c>.</summary>
    PoundOunce,
    Ounce,
    Gram,
    Kilogram,

    /// <summary>A point of the Shore D scale, 0 to 100.</summary>
    ShoreD,
    Fahrenheit,
    Celsius,
    Degree,
    GramPerCubicCentimetre,
    Minute,
    CubicInch,
    CubicCentimetre,

    /// <summary>A first moment: ounces of mass times inches.</summary>
    OunceInch,

    /// <summary>A millionth of an inch, 0.0254 µm.</summary>
    MicroInch,
    Micrometre,
}

/// <summary>The exact factor from each unit to the base unit of its quantity, and the mark that each is printed with.</summary>
/// <remarks>1 in = 25.4 mm and 1 oz = 28.349523125 g exactly (international yard and pound agreement of 1959).</remarks>
public static class Units
{
    /// <summary>Exact.</summary>
    public const decimal MillimetresPerInch = 25.4m;

    /// <summary>Exact: a millionth of 25.4 mm.</summary>
    public const decimal MicrometresPerMicroInch = 0.0254m;

    /// <summary>Exact; the avoirdupois ounce.</summary>
    public const decimal GramsPerOunce = 28.349523125m;

    /// <summary>Exact.</summary>
    public const decimal OuncesPerPound = 16m;

    /// <summary>Exact: 2.54 to the third power.</summary>
    public const decimal CubicCentimetresPerCubicInch = 16.387064m;

    /// <summary>How many base units one <paramref name="unit"/> is. Celsius also has an offset, which the parser adds.</summary>
    public static decimal Factor(Unit unit) => unit switch
    {
        Unit.Inch => MillimetresPerInch,
        Unit.Millimetre => 1m,
        Unit.Centimetre => 10m,
        Unit.Pound or Unit.PoundOunce => OuncesPerPound * GramsPerOunce,
        Unit.Ounce => GramsPerOunce,
        Unit.Gram => 1m,
        Unit.Kilogram => 1000m,
        Unit.ShoreD or Unit.Fahrenheit or Unit.Degree or Unit.GramPerCubicCentimetre or Unit.Minute
            or Unit.CubicCentimetre or Unit.OunceInch or Unit.Micrometre => 1m,
        Unit.MicroInch => MicrometresPerMicroInch,
        Unit.CubicInch => CubicCentimetresPerCubicInch,
        Unit.Celsius => 1.8m,
        _ => throw new ArgumentOutOfRangeException(nameof(unit), unit, null),
    };

    /// <summary>The mark printed after a number, without a space; empty for Shore D.</summary>
    public static string Mark(Unit unit) => unit switch
    {
        Unit.Inch => "in",
        Unit.Millimetre => "mm",
        Unit.Centimetre => "cm",
        Unit.Pound => "lb",
        Unit.PoundOunce => "lb-oz",
        Unit.Ounce => "oz",
        Unit.Gram => "g",
        Unit.Kilogram => "kg",
        Unit.ShoreD => "",
        Unit.Fahrenheit => "F",
        Unit.Celsius => "C",
        Unit.Degree => "deg",
        Unit.GramPerCubicCentimetre => "g/cm3",
        Unit.Minute => "min",
        Unit.CubicInch => "in3",
        Unit.CubicCentimetre => "cm3",
        Unit.OunceInch => "oz.in",
        Unit.MicroInch => "µin",
        Unit.Micrometre => "µm",
        _ => throw new ArgumentOutOfRangeException(nameof(unit), unit, null),
    };

    /// <summary>The word for a unit in records: its mark, or <c>shore-d</c> for Shore D, which has no mark.</summary>
    public static string Word(Unit unit) => unit == Unit.ShoreD ? "shore-d" : Mark(unit);

    /// <summary>The unit that <see cref="Word"/> names, or null.</summary>
    public static Unit? OfWord(string word) => Words.TryGetValue(word, out var unit) ? unit : null;

    /// <summary>The base unit in which values of this unit's quantity are kept.</summary>
    public static Unit Base(Unit unit) => unit switch
    {
        Unit.Inch or Unit.Millimetre or Unit.Centimetre => Unit.Millimetre,
        Unit.Pound or Unit.PoundOunce or Unit.Ounce or Unit.Gram or Unit.Kilogram => Unit.Gram,
        Unit.Fahrenheit or Unit.Celsius => Unit.Fahrenheit,
        Unit.CubicInch or Unit.CubicCentimetre => Unit.CubicCentimetre,
        Unit.MicroInch or Unit.Micrometre => Unit.Micrometre,
        Unit.ShoreD or Unit.Degree or Unit.GramPerCubicCentimetre or Unit.Minute or Unit.OunceInch => unit,
        _ => throw new ArgumentOutOfRangeException(nameof(unit), unit, null),
    };

    private static readonly Dictionary<string, Unit> Words = new[]
    {
        Unit.Inch, Unit.Millimetre, Unit.Centimetre, Unit.Pound, Unit.PoundOunce, Unit.Ounce, Unit.Gram, Unit.Kilogram, Unit.ShoreD,
        Unit.Fahrenheit, Unit.Celsius, Unit.Degree, Unit.GramPerCubicCentimetre, Unit.Minute, Unit.CubicInch, Unit.CubicCentimetre,
        Unit.OunceInch, Unit.MicroInch, Unit.Micrometre,
    }.ToDictionary(Word, StringComparer.Ordinal);

    /// <summary>The unit written as <paramref name="mark"/> (lower case, no full stop), or null.</summary>
    internal static Unit? Named(string mark) => mark switch
    {
        "in" or "inch" or "inches" or "\"" => Unit.Inch,
        "mm" => Unit.Millimetre,
        "cm" => Unit.Centimetre,
        "lb" or "lbs" or "pound" or "pounds" => Unit.Pound,
        "oz" or "ounce" or "ounces" => Unit.Ounce,
        "g" or "gram" or "grams" => Unit.Gram,
        "kg" => Unit.Kilogram,
        "d" or "shore d" => Unit.ShoreD,
        "f" or "°f" => Unit.Fahrenheit,
        "c" or "°c" => Unit.Celsius,
        "deg" or "°" => Unit.Degree,
        "g/cm3" or "g/cm³" => Unit.GramPerCubicCentimetre,
        "min" or "minute" or "minutes" => Unit.Minute,
        "in3" or "in³" => Unit.CubicInch,
        "cm3" or "cm³" => Unit.CubicCentimetre,
        "oz.in" or "oz·in" or "oz in" => Unit.OunceInch,
        "µin" or "uin" or "microinch" or "microinches" => Unit.MicroInch,
        "µm" or "um" or "micrometre" or "micrometres" => Unit.Micrometre,
        _ => null,
    };

    /// <summary>The quantities measured in a unit; a length above zero comes before one of either sign.</summary>
    public static IEnumerable<Quantity> MeasuredIn(Unit unit) => Quantities.Where(quantity => Fits(unit, quantity));

    private static readonly Quantity[] Quantities =
    [
        Quantity.Length, Quantity.SignedLength, Quantity.Weight, Quantity.Imbalance, Quantity.Hardness, Quantity.Temperature,
        Quantity.Angle, Quantity.Density, Quantity.Duration, Quantity.Volume, Quantity.Moment, Quantity.Roughness,
    ];

    /// <summary>Whether a reading of <paramref name="quantity"/> can be given in <paramref name="unit"/>.</summary>
    internal static bool Fits(Unit unit, Quantity quantity) => quantity switch
    {
        Quantity.Length or Quantity.SignedLength => unit is Unit.Inch or Unit.Millimetre or Unit.Centimetre,
        Quantity.Weight => unit is Unit.Pound or Unit.PoundOunce or Unit.Ounce or Unit.Gram or Unit.Kilogram,
        Quantity.Imbalance => unit is Unit.Ounce or Unit.Gram,
        Quantity.Hardness => unit is Unit.ShoreD,
        Quantity.Temperature => unit is Unit.Fahrenheit or Unit.Celsius,
        Quantity.Angle => unit is Unit.Degree,
        Quantity.Density => unit is Unit.GramPerCubicCentimetre,
        Quantity.Duration => unit is Unit.Minute,
        Quantity.Volume => unit is Unit.CubicInch or Unit.CubicCentimetre,
        Quantity.Moment => unit is Unit.OunceInch,
        Quantity.Roughness => unit is Unit.MicroInch or Unit.Micrometre,
        _ => false,
    };

    /// <summary>What an inspector would write for <paramref name="quantity"/>, for use in a refusal.</summary>
    public static string Example(Quantity quantity) => quantity switch
    {
        Quantity.Length => "31/32 in, 2.75 in or 24.6 mm",
        Quantity.SignedLength => "3/8 in, -1/4 in or 9.5 mm",
        Quantity.Weight => "15 lb 1 1/2 oz, 241 oz or 6830 g",
        Quantity.Imbalance => "1 1/4 oz, -0.5 oz or 35.4 g",
        Quantity.Hardness => "74 or 74.5",
        Quantity.Temperature => "72 F or 22 C",
        Quantity.Angle => "45 deg",
        Quantity.Density => "1.18 g/cm3",
        Quantity.Duration => "90 min",
        Quantity.Volume => "70 in3",
        Quantity.Moment => "12.75 oz.in",
        Quantity.Roughness => "18 µin or 0.45 µm",
        _ => throw new ArgumentOutOfRangeException(nameof(quantity), quantity, null),
    };
}
