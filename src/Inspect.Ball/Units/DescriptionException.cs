namespace Inspect.Ball;

/// <summary>A description cannot be that of a ball or hole. It has every fault found.</summary>
public sealed class DescriptionException : Exception
{
    public DescriptionException()
        : this([])
    {
    }

    public DescriptionException(string message)
        : this([new DescriptionFault("", message)])
    {
    }

    public DescriptionException(string message, Exception innerException)
        : base(message, innerException)
    {
        Faults = [new DescriptionFault("", message)];
    }

    public DescriptionException(IReadOnlyList<DescriptionFault> faults)
        : base(string.Join(" ", (faults ?? throw new ArgumentNullException(nameof(faults))).Select(fault => fault.Message)))
    {
        Faults = faults;
    }

    /// <summary>Every fault, in the order of the members in a description.</summary>
    public IReadOnlyList<DescriptionFault> Faults { get; }
}
