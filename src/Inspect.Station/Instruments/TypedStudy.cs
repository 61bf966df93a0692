using System.Globalization;
using Inspect.Sheets.Readings;
using Inspect.Station.Web;

namespace Inspect.Station.Instruments;

/// <summary>The form of a gauge study, pasted as a table or typed into a grid, and its readings.</summary>
/// <remarks>
/// The first line names the columns: what was measured, and then the inspector of each reading, with or without the number of the trial
/// ("Ida 1, Ida 2, Noor 1, Noor 2"). Columns are separated by tabs, else by commas, else by blanks.
/// </remarks>
public sealed class TypedStudy
{
    public const int MostParts = 50;
    public const int MostInspectors = 10;
    public const int MostTrials = 10;
    private const int LongestName = 40;

    /// <summary>The server refuses a form with more fields than this.</summary>
    private const int MostCells = 600;

    private readonly Func<string, string> _typed;

    private TypedStudy(Func<string, string> typed, int parts, int inspectors, int trials)
    {
        _typed = typed;
        (Parts, Inspectors, Trials) = (
            Math.Clamp(parts, 0, MostParts), Math.Clamp(inspectors, 0, MostInspectors), Math.Clamp(trials, 0, MostTrials));
    }

    /// <summary>The size of the grid; zero for a pasted table.</summary>
    public int Parts { get; }

    public int Inspectors { get; }

    public int Trials { get; }

    public bool IsGrid => Parts > 0 && Inspectors > 0 && Trials > 0;

    /// <summary>The empty form: a grid of the given size, or else a box for pasting.</summary>
    /// <param name="parts">How many things, as typed; null or empty for pasting.</param>
    /// <param name="inspectors">How many inspectors, as typed.</param>
    /// <param name="trials">How many trials, as typed.</param>
    /// <param name="faults">The faults are added here.</param>
    public static TypedStudy Blank(string? parts, string? inspectors, string? trials, Faults faults)
    {
        if (string.IsNullOrEmpty(parts) && string.IsNullOrEmpty(inspectors) && string.IsNullOrEmpty(trials))
        {
            return new TypedStudy(_ => "", 0, 0, 0);
        }

        var sizes = (Size("parts", parts, 2, MostParts, faults), Size("inspectors", inspectors, 1, MostInspectors, faults),
            Size("trials", trials, 2, MostTrials, faults));
        if (faults.AreNone && sizes.Item1 * sizes.Item2 * sizes.Item3 > MostCells)
        {
            faults.Add("parts", Invariant($"A grid of {sizes.Item1 * sizes.Item2 * sizes.Item3} readings is too large to type into; ")
                + Invariant($"type up to {MostCells}, or paste a table."));
        }

        return faults.AreNone ? new TypedStudy(_ => "", sizes.Item1, sizes.Item2, sizes.Item3) : new TypedStudy(_ => "", 0, 0, 0);
    }

    public static TypedStudy From(IFormCollection form) =>
        new(name => form[name].ToString().Trim(), Whole(form, "parts"), Whole(form, "inspectors"), Whole(form, "trials"));

    /// <summary>What was typed into a field.</summary>
    public string Typed(string name) => _typed(name);

    /// <summary>The field of a reading in the grid.</summary>
    public static string Cell(int part, int column) => string.Create(CultureInfo.InvariantCulture, $"cell[{part}][{column}]");

    /// <summary>The readings, or null with the faults added, each naming its row and column.</summary>
    public StudyReadings? Read(Unit unit, Faults faults)
    {
        if (Typed("title").Length is 0 or > 120)
        {
            faults.Add("title", "Say in at most 120 characters what was studied, such as ten balls, left and right.");
        }

        return IsGrid ? ReadGrid(unit, faults) : ReadTable(unit, faults);
    }

    private StudyReadings? ReadGrid(Unit unit, Faults faults)
    {
        var names = Enumerable.Range(0, Inspectors)
            .Select(i => Typed(Invariant($"inspector[{i}]")) is { Length: > 0 } name ? name : Invariant($"Inspector {i + 1}")).ToList();
        if (names.Distinct(StringComparer.OrdinalIgnoreCase).Count() < names.Count)
        {
            faults.Add("inspector[0]", "Two inspectors have the same name; tell them apart.");
        }

        var parts = Enumerable.Range(0, Parts)
            .Select(i => Typed(Invariant($"part[{i}]")) is { Length: > 0 } name ? name : Invariant($"{i + 1}")).ToList();
        var texts = new List<string>();
        for (var part = 0; part < Parts; part++)
        {
            for (var column = 0; column < Inspectors * Trials; column++)
            {
                var text = Typed(Cell(part, column));
                texts.Add(text);
                if (Refusal(text, unit) is { } refusal)
                {
                    faults.Add(Cell(part, column),
                        Invariant($"Row {part + 1} ({parts[part]}), {names[column / Trials]} trial {column % Trials + 1}: {refusal}"));
                }
            }
        }

        return Made(parts, names, Trials, unit, texts, "parts", faults);
    }

    private StudyReadings? ReadTable(Unit unit, Faults faults)
    {
        var lines = Cut(Typed("table"));
        if (lines.Count < 2)
        {
            faults.Add("table", "Paste the whole table: a first line that names the columns, and then a line for each thing measured.");
            return null;
        }

        var header = lines[0].Cells;
        var columns = header.Skip(1).Select(NameOf).ToList();
        var names = columns.Distinct(StringComparer.OrdinalIgnoreCase).ToList();
        var trials = names.Count == 0 ? 0 : columns.Count / names.Count;
        if (names.Count == 0
            || names.Any(name => columns.Count(column => string.Equals(column, name, StringComparison.OrdinalIgnoreCase)) != trials))
        {
            faults.Add("table", Invariant(
                $"The first line has {columns.Count} columns of readings that are not the same number for each inspector; ")
                + "name them as in \"ball, Ida 1, Ida 2, Noor 1, Noor 2\".");
            return null;
        }

        // Columns of one inspector need not be next to each other.
        var order = Enumerable.Range(0, columns.Count)
            .OrderBy(i => names.FindIndex(name => string.Equals(name, columns[i], StringComparison.OrdinalIgnoreCase))).ToList();
        var (parts, texts) = (new List<string>(), new List<string>());
        foreach (var (number, cells) in lines.Skip(1))
        {
            if (cells.Count != header.Count)
            {
                var found = Invariant(
                    $"Row {number} (\"{Short(string.Join(' ', cells))}\") has {cells.Count} columns and the first line {header.Count}");
                faults.Add("table", $"{found}; a reading with a blank in it needs commas or tabs between the columns.");
                continue;
            }

            parts.Add(cells[0]);
            foreach (var i in order)
            {
                texts.Add(cells[i + 1]);
                if (Refusal(cells[i + 1], unit) is { } refusal)
                {
                    faults.Add("table", Invariant($"Row {number} ({Short(cells[0])}), column {i + 2} ({Short(header[i + 1])}): {refusal}"));
                }
            }
        }

        return Made(parts, names, trials, unit, texts, "table", faults);
    }

    private static StudyReadings? Made(
        List<string> parts, List<string> names, int trials, Unit unit, List<string> texts, string field, Faults faults)
    {
        if (faults.AreNone && (parts.Count is < 2 or > MostParts || names.Count > MostInspectors || trials is < 2 or > MostTrials))
        {
            faults.Add(field, Invariant($"This has {parts.Count} things measured, {names.Count} inspectors and {trials} trials; ")
                + Invariant($"a study takes 2 to {MostParts}, 1 to {MostInspectors} and 2 to {MostTrials}."));
        }

        if (faults.AreNone && parts.Concat(names).FirstOrDefault(name => name.Length is 0 or > LongestName) is { } bad)
        {
            faults.Add(field, $"\"{Short(bad)}\" cannot be a name here; "
                + $"give each row and each inspector one of at most {LongestName} characters.");
        }

        return faults.AreNone ? new StudyReadings(parts, names, trials, unit, texts) : null;
    }

    private static string? Refusal(string text, Unit unit) => text.Length == 0
        ? "the reading is missing; every inspector measures everything equally often." : StudyReadings.Read(text, unit).Refusal;

    private static List<(int Number, IReadOnlyList<string> Cells)> Cut(string text)
    {
        var lines = text.TrimStart('\uFEFF').ReplaceLineEndings("\n").Split('\n').Index()
            .Where(line => !string.IsNullOrWhiteSpace(line.Item)).ToList();
        char[]? separators = text.Contains('\t', StringComparison.Ordinal) ? ['\t'] : text.Contains(',', StringComparison.Ordinal) ? [',']
            : null;
        return lines.ConvertAll(line => (line.Index + 1, (IReadOnlyList<string>)(separators is null
            ? line.Item.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)
            : line.Item.Split(separators, StringSplitOptions.TrimEntries))));
    }

    /// <summary>"Ida 2" and "Ida2" are columns of Ida.</summary>
    private static string NameOf(string column) => column.TrimEnd("0123456789 ".ToCharArray()) is { Length: > 0 } name ? name : column;

    private static string Short(string text) => text.Length <= LongestName ? text : text[..LongestName] + "…";

    private static string Invariant(FormattableString text) => FormattableString.Invariant(text);

    private static int Size(string field, string? typed, int least, int most, Faults faults)
    {
        if (int.TryParse(typed, NumberStyles.None, CultureInfo.InvariantCulture, out var size) && size >= least && size <= most)
        {
            return size;
        }

        faults.Add(field, Invariant($"\"{typed}\" is not a whole number from {least} to {most}."));
        return 0;
    }

    private static int Whole(IFormCollection form, string name) =>
        int.TryParse(form[name], NumberStyles.None, CultureInfo.InvariantCulture, out var number) ? number : 0;
}
