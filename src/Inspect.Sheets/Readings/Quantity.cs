namespace Inspect.Sheets.Readings;

/// <summary>What a reading measures. The quantity decides which units and signs are allowed.</summary>
public enum Quantity
{
    /// <summary>A length of the ball or of a hole; base unit millimetre, above zero.</summary>
    Length,

    /// <summary>A length that may point either way (a pitch) or be zero (a plan); base unit millimetre.</summary>
    SignedLength,

    /// <summary>The weight of the ball; base unit gram, above zero.</summary>
    Weight,

    /// <summary>The difference between two halves; base unit gram; the sign gives the side.</summary>
    Imbalance,

    /// <summary>Surface hardness in Shore D points, 0 to 100.</summary>
    Hardness,

    /// <summary>Temperature; base unit degree Fahrenheit, because 1.8 F per degree Celsius is exact and its inverse is not.</summary>
    Temperature,

    /// <summary>An angle in degrees, any sign.</summary>
    Angle,

    /// <summary>Density; base unit gram per cubic centimetre, above zero.</summary>
    Density,

    /// <summary>A span of time in minutes, zero or more.</summary>
    Duration,

    /// <summary>A volume; base unit cubic centimetre, above zero.</summary>
    Volume,

    /// <summary>A first moment in oz·in: what a balance scale shows, times its constant; any sign.</summary>
    Moment,

    /// <summary>Roughness of a surface as the average Ra (ISO 21920-2, ASME B46.1); base unit micrometre, zero or more.</summary>
    Roughness,
}
