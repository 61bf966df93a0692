using Inspect.Station.Access;

namespace Inspect.Station.Queue;

/// <summary>The state of a bowler who came to be inspected.</summary>
public enum PlaceState
{
    /// <summary>Marked in at the door, not called yet.</summary>
    Waiting,

    /// <summary>Called to a table and not seen there yet.</summary>
    Called,

    /// <summary>At the table: an inspector said so, or a ball was recorded.</summary>
    AtTable,

    /// <summary>Finished.</summary>
    Done,

    /// <summary>Went away unfinished.</summary>
    Left,
}

/// <summary>One bowler's place in the queue.</summary>
/// <param name="Id">Its number in forms.</param>
/// <param name="Entry">The bowler's number.</param>
/// <param name="Bowler">The bowler's name; null once struck.</param>
/// <param name="Squad">The squad entered for, or null.</param>
/// <param name="Begins">When that squad begins, or null.</param>
/// <param name="State">Where the bowler is.</param>
/// <param name="ArrivedAt">When the bowler was marked in.</param>
/// <param name="WaitsSince">The time that the order of the calls uses: later than <paramref name="ArrivedAt"/> for a bowler who was
/// called and did not come.</param>
/// <param name="Table">The table called to, or null while waiting.</param>
/// <param name="Inspector">Whose table it is, or null while waiting.</param>
public sealed record Place(
    long Id,
    string Entry,
    string? Bowler,
    string? Squad,
    DateTimeOffset? Begins,
    PlaceState State,
    DateTimeOffset ArrivedAt,
    DateTimeOffset WaitsSince,
    string? Table,
    PersonId? Inspector)
{
    /// <summary>Whether the bowler is under age: the wall screen shows no name.</summary>
    public bool IsUnderAge { get; init; }
}

/// <summary>A table that is open.</summary>
/// <param name="Name">As called out, such as Table 2.</param>
/// <param name="Inspector">Who works at it.</param>
/// <param name="InspectorName">That person's name; null once struck.</param>
public sealed record OpenTable(string Name, PersonId Inspector, string? InspectorName);

/// <summary>The words for states, in the store.</summary>
internal static class PlaceStates
{
    /// <summary>The state for a word in the store.</summary>
    public static PlaceState Parse(string word) => word switch
    {
        "waiting" => PlaceState.Waiting,
        "called" => PlaceState.Called,
        "at-table" => PlaceState.AtTable,
        "done" => PlaceState.Done,
        "left" => PlaceState.Left,
        _ => throw new InvalidDataException($"\"{word}\" is not a state of a place in the queue."),
    };
}
