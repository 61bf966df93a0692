namespace Inspect.Sheets.Readings;

/// <summary>How a number was written: its unit, and as a fraction or a decimal. A margin is written the same way.</summary>
public readonly record struct Notation(Unit Unit, bool Fraction, int Decimals = 0);

/// <summary>One measured value: the text as typed and its exact value.</summary>
/// <param name="Text">As typed, trimmed; the assumed unit of a field is added.</param>
/// <param name="Quantity">The quantity measured.</param>
/// <param name="Value">Exact, in the base unit of the quantity (see <see cref="Readings.Quantity"/>).</param>
/// <param name="Notation">How it was written.</param>
public sealed record Reading(string Text, Quantity Quantity, decimal Value, Notation Notation)
{
    /// <inheritdoc/>
    public override string ToString() => Text;
}

/// <summary>A reading, or one sentence that says what is wrong with the text and what would be right.</summary>
public sealed record ReadingResult
{
    private ReadingResult(Reading? reading, string? refusal) => (Reading, Refusal) = (reading, refusal);

    /// <summary>The reading; null when there is a refusal.</summary>
    public Reading? Reading { get; }

    /// <summary>What is wrong with the text and what would be right; null when there is a reading.</summary>
    public string? Refusal { get; }

    internal static ReadingResult Of(Reading reading) => new(reading, null);

    internal static ReadingResult Refused(string sentence) => new(null, sentence);
}
