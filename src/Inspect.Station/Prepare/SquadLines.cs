using System.Globalization;
using Inspect.Station.Web;

namespace Inspect.Station.Prepare;

/// <summary>Reads the squads of a new event, one on each line: <c>A, 2027-03-14 09:30</c>.</summary>
public static class SquadLines
{
    /// <summary>The form field, which is also the place of its faults.</summary>
    public const string Field = "squads";

    private const int LongestName = 40;
    private static readonly string[] Moments = ["yyyy-MM-dd HH:mm", "yyyy-MM-dd H:mm", "yyyy-MM-ddTHH:mm"];

    /// <summary>The squads in the order in which they begin. Adds a fault for each line that cannot be read.</summary>
    /// <param name="text">What was typed.</param>
    /// <param name="days">The event's days; null when they could not be read.</param>
    /// <param name="faults">Where faults are added, each with the number of its line.</param>
    public static IReadOnlyList<Squad> Read(string text, (DateOnly From, DateOnly To)? days, Faults faults)
    {
        var squads = new List<Squad>();
        foreach (var line in SeparatedLines.Read(text))
        {
            if (Squad(line, squads, days, out var fault) is { } squad)
            {
                squads.Add(squad);
            }
            else
            {
                faults.Add(Field, $"Line {line.Number}: {fault}.");
            }
        }

        return [.. squads.OrderBy(squad => squad.Starts)];
    }

    private static Squad? Squad(SeparatedLine line, List<Squad> before, (DateOnly From, DateOnly To)? days, out string? fault)
    {
        fault = line.Fault;
        if (fault is not null)
        {
            return null;
        }

        if (line.Parts.Count != 2 || line.Parts[0].Length is 0 or > LongestName)
        {
            fault = $"\"{string.Join(", ", line.Parts)}\" is not a squad; write its name of at most {LongestName} characters, a comma, "
                + "and when it begins, as A, 2027-03-14 09:30";
            return null;
        }

        var (name, moment) = (line.Parts[0], line.Parts[1]);
        if (!DateTime.TryParseExact(moment, Moments, CultureInfo.InvariantCulture, DateTimeStyles.None, out var starts))
        {
            fault = $"\"{moment}\" is not a day and time; write them as 2027-03-14 09:30";
            return null;
        }

        if (before.Exists(squad => string.Equals(squad.Name, name, StringComparison.OrdinalIgnoreCase)))
        {
            fault = $"squad \"{name}\" is in an earlier line already; give each squad a different name";
            return null;
        }

        if (days is var (from, to) && (DateOnly.FromDateTime(starts) < from || DateOnly.FromDateTime(starts) > to))
        {
            fault = string.Create(CultureInfo.InvariantCulture, $"\"{moment}\" is not in the event, "
                + $"which runs from {from:yyyy-MM-dd} to {to:yyyy-MM-dd}");
            return null;
        }

        return new Squad(name, starts);
    }
}
