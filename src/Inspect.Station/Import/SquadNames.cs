using System.Globalization;
using Inspect.Station.Access;
using Inspect.Station.Prepare;

namespace Inspect.Station.Import;

/// <summary>The squads of an event as lists write them.</summary>
internal static class SquadNames
{
    /// <summary>The squad that a cell means: by its name, with or without the word "squad", or by when it begins. Null when there
    /// is none.</summary>
    public static Squad? Find(IReadOnlyList<Squad> squads, string cell) =>
        squads.FirstOrDefault(squad => string.Equals(squad.Name, cell, StringComparison.OrdinalIgnoreCase))
        ?? Only(squads.Where(squad => Core(squad.Name) is { Length: > 0 } core && core == Core(cell)))
        ?? Only(squads.Where(squad => squad.Starts.ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture) == cell));

    private static string Core(string name) => string.Join(' ', NameFold.Words(name).Where(word => word != "squad"));

    private static Squad? Only(IEnumerable<Squad> squads) => squads.Take(2).ToList() is [var only] ? only : null;
}
