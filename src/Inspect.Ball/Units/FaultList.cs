using System.Globalization;

namespace Inspect.Ball;

/// <summary>Collects the faults of one description, so that all of them are reported at once.</summary>
internal sealed class FaultList
{
    private readonly List<DescriptionFault> _faults = [];

    public IReadOnlyList<DescriptionFault> Faults => _faults;

    /// <summary>Adds a fault unless the value is finite and within both ends.</summary>
    /// <returns>Whether the value can be used in a further check.</returns>
    public bool Within(string member, double value, double low, double high, string what)
    {
        if (double.IsFinite(value) && value >= low && value <= high)
        {
            return true;
        }

        Add(member, value, $"{what} lies between {Text(low)} and {Text(high)}");
        return false;
    }

    /// <summary>Adds a fault unless the value is finite, above zero and at most the limit.</summary>
    /// <returns>Whether the value can be used in a further check.</returns>
    public bool Positive(string member, double value, double high, string what)
    {
        if (double.IsFinite(value) && value > 0 && value <= high)
        {
            return true;
        }

        Add(member, value, $"{what} is more than 0 and at most {Text(high)}");
        return false;
    }

    public void Add(string member, double value, string wouldBeRight) => Add(member, $"'{Text(value)}' cannot be: {wouldBeRight}.");

    public void Add(string member, string message) => _faults.Add(new DescriptionFault(member, message));

    /// <exception cref="DescriptionException">There is a fault.</exception>
    public void ThrowIfAny()
    {
        if (_faults.Count > 0)
        {
            throw new DescriptionException(_faults);
        }
    }

    public static string Text(double value) => value.ToString("0.######", CultureInfo.InvariantCulture);
}
