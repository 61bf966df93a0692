using Inspect.Sheets.Json;
using Inspect.Station.Prepare;

namespace Inspect.Station.Import;

/// <summary>Sorts the rows of a list by what they would do to an event.</summary>
/// <param name="into">The event.</param>
/// <param name="there">Its entries.</param>
/// <param name="settled">The numbers of the entries whose name only their own page changes.</param>
/// <param name="knownOf">The people of other events by the names given.</param>
internal sealed class Planner(
    Event into, IReadOnlyList<Entry> there, IReadOnlySet<string> settled, Func<IEnumerable<string>, KnownByName> knownOf)
{
    private const int LongestName = 200;

    private static readonly (string, string)[] Enter = [("enter", "Enter it")];
    private static readonly (string, string)[] Next = [("next", "Enter it with the next free number")];

    private readonly Dictionary<string, Entry> _entries = there.ToDictionary(entry => entry.Number, StringComparer.OrdinalIgnoreCase);
    private readonly Dictionary<string, string?> _squads = new(StringComparer.Ordinal);
    private readonly Dictionary<string, int> _numbers = new(StringComparer.OrdinalIgnoreCase);
    private readonly Dictionary<string, int> _names = new(StringComparer.Ordinal);
    private readonly List<AddedRow> _added = [];
    private readonly List<ChangedRow> _changed = [];
    private readonly List<DoubtfulRow> _doubtful = [];
    private readonly Dictionary<(string Sentence, bool IsOfSquads), List<(int Row, string? Value)>> _refused = [];
    private int _left;

    /// <summary>What the list would do.</summary>
    public ImportPlan Plan(ImportTable table, Matching matching)
    {
        var rows = new List<ImportRow>();
        var heads = table.Rows.FirstOrDefault(row => row.Number == matching.HeadsRow);
        foreach (var row in matching.Entries(table))
        {
            if (heads is not null && IsSame(row, heads, matching))
            {
                Refuse("The column heads stand here again", row.Number);
            }
            else if (Read(row, table.Separator, matching) is { } read)
            {
                rows.Add(read);
            }
        }

        var numbers = new EntryNumbers(_entries.Keys, rows.Where(row => row.Number is not null).Select(row => row.Number!));
        var unnamed = there.Where(entry => entry.Bowler is not null)
            .GroupBy(entry => KnownByName.Key(entry.Bowler!))
            .ToDictionary(alike => alike.Key, alike => new Queue<Entry>(alike), StringComparer.Ordinal);
        var known = knownOf(rows.Select(row => row.Bowler));
        foreach (var row in rows)
        {
            Sort(row, numbers, unnamed, known);
        }

        return new ImportPlan(
            there,
            [.. _added.Select(row => row.IsNumberedHere ? row with { Row = row.Row with { Number = numbers.Next() } } : row)],
            _changed,
            _left,
            _doubtful,
            [.. _refused.Select(alike => new Refusal(InWords(alike.Key.Sentence, alike.Value), alike.Key.IsOfSquads))],
            _refused.Values.Sum(alike => alike.Count),
            _doubtful.Select(row => row.Row.Bowler).Distinct(StringComparer.Ordinal)
                .Select(name => (name, meant: known.Meant(name)))
                .Where(each => each.meant is not null)
                .ToDictionary(each => each.name, each => each.meant!.Value, StringComparer.Ordinal));
    }

    private static bool IsSame(TableRow row, TableRow heads, Matching matching) => matching.Columns.Index()
        .All(each => each.Item == ImportColumn.Ignored || row[each.Index].Equals(heads[each.Index], StringComparison.OrdinalIgnoreCase));

    private static string InWords(string sentence, List<(int Row, string? Value)> rows) => rows[0].Value is null
        ? $"{sentence}: {RowWords.Rows([.. rows.Select(each => each.Row)])}."
        : $"{sentence} {RowWords.Values([.. rows.Select(each => (each.Row, each.Value!))])}.";

    // The row as an entry; null when it is empty where an entry is, or cannot be entered.
    private ImportRow? Read(TableRow row, char? separator, Matching matching)
    {
        var cells = new Dictionary<ImportColumn, string>();
        foreach (var (index, column) in matching.Columns.Index().Where(each => each.Item != ImportColumn.Ignored))
        {
            cells[column] = row[index];
            if (separator is { } between && index < row.Cells.Count && row.Cells[index].Contains('\n', StringComparison.Ordinal)
                && row.Cells[index].Contains(between, StringComparison.Ordinal))
            {
                return Refuse("The quotes of a cell may not be closed:", row.Number, RowWords.Short(row[index]));
            }
        }

        var (number, bowler, squad) = (Cell(ImportColumn.Number), NameOf(cells), Cell(ImportColumn.Squad));
        if (number.Length + bowler.Length + squad.Length == 0)
        {
            return null;
        }

        if (number.Length > 0 && EntryNumbers.FaultOf(number) is { } fault)
        {
            return Refuse(fault, row.Number, number);
        }

        if (bowler.Length == 0)
        {
            return Refuse("There is no name", row.Number);
        }

        if (bowler.Length > LongestName || !PlainText.IsLine(bowler))
        {
            return Refuse($"A name has at most {LongestName} characters that can be printed, unlike", row.Number, bowler);
        }

        if (squad.Length > 0 && SquadOf(squad) is null)
        {
            var has = into.Squads.Count == 0 ? "no squads" : string.Join(", ", into.Squads.Select(each => each.Name));
            return Refuse(
                $"The squad \"{RowWords.Short(squad)}\" is not one of this event, which has {has}", row.Number, isOfSquads: true);
        }

        if (!UnderAge.TryRead(Cell(ImportColumn.UnderAge), Cell(ImportColumn.BirthDate), into, out var isUnderAge, out var unread))
        {
            return Refuse(unread.Sentence, row.Number, unread.Value);
        }

        return new ImportRow(row.Number, number.Length == 0 ? null : number, bowler, squad.Length == 0 ? null : SquadOf(squad))
        {
            IsUnderAge = isUnderAge,
        };

        string Cell(ImportColumn column) => cells.GetValueOrDefault(column, "");
    }

    private static string NameOf(Dictionary<ImportColumn, string> cells) =>
        cells.TryGetValue(ImportColumn.Name, out var name) ? name
            : cells.TryGetValue(ImportColumn.LastFirst, out var turned) ? PersonName.FirstLast(turned)
            : $"{cells.GetValueOrDefault(ImportColumn.FirstName)} {cells.GetValueOrDefault(ImportColumn.LastName)}".Trim();

    private string? SquadOf(string cell)
    {
        if (!_squads.TryGetValue(cell, out var squad))
        {
            _squads[cell] = squad = SquadNames.Find(into.Squads, cell)?.Name;
        }

        return squad;
    }

    private void Sort(ImportRow row, EntryNumbers numbers, Dictionary<string, Queue<Entry>> unnamed, KnownByName known)
    {
        var name = KnownByName.Key(row.Bowler);
        var entered = unnamed.GetValueOrDefault(name);
        if (row.Number is { } number)
        {
            if (_numbers.TryGetValue(number, out var earlier))
            {
                Ask(row, Doubt.Twice, $"Number {number} is in row {earlier} already.", Next);
                return;
            }

            _numbers[number] = row.Row;
            var padded = numbers.WithZeros(number);
            if (_entries.GetValueOrDefault(number) is { } same)
            {
                Compare(row, same);
            }
            else if (padded is not null && _entries.GetValueOrDefault(padded) is { Bowler: { } bowler } wide
                && KnownByName.Key(bowler) == name)
            {
                Compare(row with { Number = wide.Number }, wide);
            }
            else if (PersonName.IsFree(row.Bowler))
            {
                Free(row);
            }
            else if (padded is not null)
            {
                var isFree = !_entries.ContainsKey(padded) && _numbers.TryAdd(padded, row.Row);
                _doubtful.Add(new DoubtfulRow(
                    row,
                    Doubt.Zeros,
                    $"Number {number} may be {padded}{(isFree ? "" : ", which is taken")}: others have {padded.Length} figures.",
                    isFree ? [("zeros", $"Enter it as {padded}"), ("enter", $"Enter it as {number}")]
                        : [("enter", $"Enter it as {number}")],
                    Padded: padded));
            }
            else if (entered is { Count: > 0 })
            {
                _doubtful.Add(new DoubtfulRow(
                    row,
                    Doubt.Entered,
                    $"{row.Bowler} is entered as {entered.Peek().Number} already.",
                    [("same", "Enter the same bowler again"), ("enter", "Enter another bowler of this name")],
                    Same: entered.Peek().Person));
            }
            else
            {
                NameTwiceOrNew(row, name, known);
            }
        }
        else if (entered is not null && entered.TryDequeue(out var already))
        {
            Compare(row, already);
        }
        else if (PersonName.IsFree(row.Bowler))
        {
            Free(row);
        }
        else
        {
            NameTwiceOrNew(row, name, known);
        }
    }

    private void NameTwiceOrNew(ImportRow row, string name, KnownByName known)
    {
        if (!_names.TryAdd(name, row.Row))
        {
            Ask(row, Doubt.SameName, $"{row.Bowler} is in row {_names[name]} already.", Enter);
        }
        else if (known.Of(row.Bowler) is { Count: > 0 } bowlers)
        {
            _doubtful.Add(new DoubtfulRow(
                row,
                Doubt.Known,
                $"{row.Bowler} was entered in another event.",
                [.. bowlers.Select(each => ($"{each.Person}", $"{each.Number} at {each.Entered}, {each.Name}")), ("new", "Somebody new")],
                known.Meant(row.Bowler)?.ToString() ?? ""));
        }
        else
        {
            _added.Add(new AddedRow(row, row.Number is null));
        }
    }

    private void Compare(ImportRow row, Entry same)
    {
        var changed = new ChangedRow(row with { Number = same.Number, Squad = row.Squad ?? same.Squad }, same);
        if (same.IsWithdrawn)
        {
            Refuse("The entry is withdrawn; bring it back on its own page:", row.Row, same.Number);
        }
        else if (changed.Name is not null && settled.Contains(same.Number))
        {
            Refuse(
                "The name differs from the entry's, which has records or another entry too; change it on the entry's own page:",
                row.Row,
                row.Bowler);
        }
        else if (changed is { Name: null, Squad: null, UnderAge: null })
        {
            _left++;
        }
        else if (changed.Name is not null && PersonName.IsFree(row.Bowler))
        {
            Refuse("The name may say that the place is free, and somebody is entered under the number:", row.Row, row.Bowler);
        }
        else
        {
            _changed.Add(changed);
        }
    }

    private void Free(ImportRow row) =>
        Ask(row, Doubt.Free, $"\"{RowWords.Short(row.Bowler)}\" may say that the place is free.", Enter);

    private void Ask(ImportRow row, Doubt doubt, string why, (string, string)[] options) =>
        _doubtful.Add(new DoubtfulRow(row, doubt, why, options));

    private ImportRow? Refuse(string sentence, int row, string? value = null, bool isOfSquads = false)
    {
        if (!_refused.TryGetValue((sentence, isOfSquads), out var alike))
        {
            _refused[(sentence, isOfSquads)] = alike = [];
        }

        alike.Add((row, value));
        return null;
    }
}
