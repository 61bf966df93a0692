using Inspect.Station.Access;

namespace Inspect.Station.Prepare;

/// <summary>A bowler about to be entered.</summary>
/// <param name="Number">The bowler's number.</param>
/// <param name="Bowler">The name as people read it.</param>
/// <param name="Squad">The squad entered for, or null.</param>
/// <param name="Known">The bowler's id when they are known from another event; null for somebody new.</param>
public sealed record NewEntry(string Number, string Bowler, string? Squad, PersonId? Known = null)
{
    /// <summary>The id that somebody new gets.</summary>
    public PersonId New { get; init; } = PersonId.New();

    /// <summary>Whether the bowler is under age.</summary>
    public bool IsUnderAge { get; init; }

    /// <summary>How a guardian is reached; empty for none.</summary>
    public string Guardian { get; init; } = "";
}
