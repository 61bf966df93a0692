namespace Inspect.Ball;

/// <summary>A sum over the straight pieces that make up a removed body.</summary>
internal interface ILineSum
{
    /// <summary>Adds the piece of the line from <paramref name="foot"/> along <paramref name="axis"/> between two heights.</summary>
    /// <param name="weight">Mass per length of the piece, in oz/in.</param>
    /// <param name="foot">The point of the line at height 0.</param>
    /// <param name="axis">The line's unit direction.</param>
    /// <param name="low">The lower end of the piece.</param>
    /// <param name="high">The higher end of the piece.</param>
    void Add(double weight, in Vector foot, in Vector axis, double low, double high);
}
