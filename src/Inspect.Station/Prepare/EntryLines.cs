using Inspect.Station.Access;
using Inspect.Station.Web;

namespace Inspect.Station.Prepare;

/// <summary>A bowler about to be entered.</summary>
/// <param name="Number">The bowler's number.</param>
/// <param name="Bowler">The name as people read it.</param>
/// <param name="Squad">The squad entered for, or null.</param>
/// <param name="Known">The bowler's id when they are known from another event; null for somebody new.</param>
public sealed record NewEntry(string Number, string Bowler, string? Squad, PersonId? Known = null);

/// <summary>Reads a pasted list of entries. Each line has number, name and squad, in this order or in the order of a first
/// line with column heads.</summary>
public static class EntryLines
{
    /// <summary>The form field, which is also the place of its faults.</summary>
    public const string Field = "lines";

    private const int MostLines = 5000;
    private const int LongestNumber = 12;
    private const int LongestName = 200;
    private static readonly string[][] Heads = [["number", "no", "no.", "entry"], ["name", "bowler"], ["squad"]];

    /// <summary>The entries in the order pasted, with a fault for each line that cannot be entered.</summary>
    public static IReadOnlyList<NewEntry> Read(string text, Event into, IReadOnlyList<Entry> there, Faults faults)
    {
        var lines = SeparatedLines.Read(text);
        int[] columns = [0, 1, 2];
        if (lines.Count > 0 && AreHeads(lines[0].Parts))
        {
            if (ColumnsOf(lines[0], faults) is not { } ordered)
            {
                return [];
            }

            columns = ordered;
            lines = [.. lines.Skip(1)];
        }

        if (lines.Count is 0 or > MostLines)
        {
            faults.Add(Field, lines.Count == 0
                ? "Give at least one entry, as 101, Name of the bowler, A."
                : $"These are {lines.Count} entries; add at most {MostLines} at a time.");
            return [];
        }

        var entries = new List<NewEntry>();
        var seen = new Dictionary<string, string>(StringComparer.OrdinalIgnoreCase);
        foreach (var entry in there)
        {
            seen[entry.Number] = $"entry \"{entry.Number}\" is already in {into.Name}, "
                + $"for {entry.Bowler ?? "a bowler whose name was struck"}; take the line out, or give another number";
        }

        foreach (var line in lines)
        {
            if (Entry(line, columns, into, seen, out var fault) is { } entry)
            {
                entries.Add(entry);
                seen[entry.Number] = $"entry \"{entry.Number}\" is in line {line.Number} already; give each bowler a different number";
            }
            else
            {
                faults.Add(Field, $"Line {line.Number}: {fault}.");
            }
        }

        return entries;
    }

    private static bool AreHeads(IReadOnlyList<string> parts) =>
        parts.Any(part => Column(part) == 0) && parts.Any(part => Column(part) == 1);

    private static int Column(string head) => Array.FindIndex(Heads, words => words.Contains(head, StringComparer.OrdinalIgnoreCase));

    // The columns of number, name and squad; -1 when there is no head for the squad.
    private static int[]? ColumnsOf(SeparatedLine heads, Faults faults)
    {
        int[] columns = [-1, -1, -1];
        for (var i = 0; i < heads.Parts.Count; i++)
        {
            var column = Column(heads.Parts[i]);
            if (column < 0 || columns[column] >= 0)
            {
                faults.Add(Field, $"Line {heads.Number}: \"{heads.Parts[i]}\" is not a column head, or is there twice; "
                    + "the heads are number, name and squad.");
                return null;
            }

            columns[column] = i;
        }

        return columns;
    }

    private static NewEntry? Entry(SeparatedLine line, int[] columns, Event into, Dictionary<string, string> seen, out string? fault)
    {
        var most = columns.Max() + 1;
        if (line.Fault is not null || line.Parts.Count < 2 || line.Parts.Count > most)
        {
            fault = line.Fault
                ?? $"\"{string.Join(", ", line.Parts)}\" has {(line.Parts.Count == 1 ? "one part" : $"{line.Parts.Count} parts")}; "
                    + "write number, name and squad, and put a name with a comma in quotes";
            return null;
        }

        var (number, bowler, squad) = (Part(line, columns[0]), Part(line, columns[1]), Part(line, columns[2]));
        fault = FaultOfNumber(number) ?? seen.GetValueOrDefault(number) ?? FaultOfName(number, bowler) ?? FaultOfSquad(squad, into);
        return fault is null ? new NewEntry(number, bowler, squad.Length == 0 ? null : into.Squads.First(each => IsNamed(each, squad)).Name)
            : null;
    }

    private static string Part(SeparatedLine line, int column) => column >= 0 && column < line.Parts.Count ? line.Parts[column] : "";

    // The number is part of addresses, where "add" is the page that adds entries.
    private static string? FaultOfNumber(string number) =>
        number.Length is 0 or > LongestNumber || !number.All(each => char.IsAsciiLetterOrDigit(each) || each == '-')
            ? $"\"{number}\" is not an entry number; give 1 to {LongestNumber} letters A to Z, digits or hyphens"
            : string.Equals(number, "add", StringComparison.OrdinalIgnoreCase)
                ? $"\"{number}\" cannot be an entry number here; give another one" : null;

    private static string? FaultOfName(string number, string bowler) =>
        bowler.Length is 0 or > LongestName || bowler.Any(char.IsControl)
            ? $"entry \"{number}\" has no name that can be used; give one of 1 to {LongestName} characters"
            : null;

    private static string? FaultOfSquad(string squad, Event into) =>
        squad.Length == 0 || into.Squads.Any(each => IsNamed(each, squad)) ? null
        : into.Squads.Count == 0 ? $"there is no squad \"{squad}\", as {into.Name} has no squads; leave it out"
        : $"there is no squad \"{squad}\" in {into.Name}; it has {string.Join(", ", into.Squads.Select(each => each.Name))}";

    private static bool IsNamed(Squad squad, string name) => string.Equals(squad.Name, name, StringComparison.OrdinalIgnoreCase);
}
