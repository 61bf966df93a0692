namespace Inspect.Ball;

/// <summary>One axis read twice, as it lies and turned by 180 degrees, which tells the ball's imbalance from the scale's own
/// error.</summary>
/// <remarks>For a scale that shows ounces against its null in each position: turned, the ball shows the opposite sign, the scale's
/// error does not.</remarks>
public readonly record struct TwoPositionReading
{
    private TwoPositionReading(double firstOz, double turnedOz)
    {
        FirstOz = firstOz;
        TurnedOz = turnedOz;
    }

    /// <summary>The signed reading as the ball lies.</summary>
    public double FirstOz { get; }

    /// <summary>The signed reading of the same scale with the ball turned by 180 degrees.</summary>
    public double TurnedOz { get; }

    /// <summary>The imbalance, free of the scale's zero error.</summary>
    public double ValueOz => (FirstOz - TurnedOz) / 2;

    /// <summary>What the scale shows of a ball in perfect balance.</summary>
    public double ZeroErrorOz => (FirstOz + TurnedOz) / 2;

    /// <exception cref="DescriptionException">A reading is not a number within 100 oz either way.</exception>
    public static TwoPositionReading Of(double firstOz, double turnedOz)
    {
        var faults = new FaultList();
        faults.Within("first", firstOz, -100, 100, "a reading in ounces");
        faults.Within("turned", turnedOz, -100, 100, "a reading in ounces");
        faults.ThrowIfAny();
        return new TwoPositionReading(firstOz, turnedOz);
    }
}
