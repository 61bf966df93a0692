namespace Inspect.Metrology;

/// <summary>The readings of a gauge study: every inspector measured every part the same number of times with one instrument.</summary>
public sealed record GaugeTable
{
    private readonly double[,,] _readings;

    /// <summary>A complete table.</summary>
    /// <param name="parts">The names of the parts, at least two.</param>
    /// <param name="inspectors">Who measured, at least one.</param>
    /// <param name="readings">By part, inspector and trial: at least two trials, every reading finite.</param>
    /// <exception cref="ArgumentException">The table is not of that shape.</exception>
    public GaugeTable(IReadOnlyList<string> parts, IReadOnlyList<string> inspectors, double[,,] readings)
    {
        ArgumentNullException.ThrowIfNull(readings);
        if (parts.Count < 2 || inspectors.Count < 1 || readings.GetLength(0) != parts.Count || readings.GetLength(1) != inspectors.Count
            || readings.GetLength(2) < 2 || readings.Cast<double>().Any(reading => !double.IsFinite(reading)))
        {
            throw new ArgumentException(
                "A gauge study needs at least two parts, one inspector and two trials, and every reading.", nameof(readings));
        }

        (Parts, Inspectors, _readings) = (parts, inspectors, readings);
    }

    /// <summary>The names of the balls, at least two.</summary>
    public IReadOnlyList<string> Parts { get; }

    /// <summary>Who measured, at least one.</summary>
    public IReadOnlyList<string> Inspectors { get; }

    /// <summary>How often each inspector measured each ball, at least twice.</summary>
    public int Trials => _readings.GetLength(2);

    /// <summary>One reading.</summary>
    public double At(int part, int inspector, int trial) => _readings[part, inspector, trial];

    /// <summary>One inspector's readings of one part.</summary>
    public IEnumerable<double> Cell(int part, int inspector) => Enumerable.Range(0, Trials).Select(trial => At(part, inspector, trial));

    /// <summary>All inspectors' readings of one part.</summary>
    public IEnumerable<double> OfPart(int part) => Enumerable.Range(0, Inspectors.Count).SelectMany(inspector => Cell(part, inspector));

    /// <summary>One inspector's readings of all parts.</summary>
    public IEnumerable<double> OfInspector(int inspector) => Enumerable.Range(0, Parts.Count).SelectMany(part => Cell(part, inspector));

    /// <summary>Every reading.</summary>
    public IEnumerable<double> All => Enumerable.Range(0, Parts.Count).SelectMany(OfPart);
}
