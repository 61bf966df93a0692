using Inspect.Station.Access;
using Inspect.Station.Prepare;
using Inspect.Station.Record;
using Inspect.Station.Slip;
using Inspect.Station.Storage;

namespace Inspect.Station.Queue;

/// <summary>What a text at the table may mean.</summary>
/// <param name="Matches">The entries it may mean, by number.</param>
/// <param name="IsSure">Whether the one match is certain: a whole entry number, a code, or a name that only one bowler has.</param>
/// <param name="Sentence">Why there is no match, with the nearest names; null when there is a match or nothing was typed.</param>
public sealed record FoundBowlers(IReadOnlyList<Entry> Matches, bool IsSure, string? Sentence);

/// <summary>Finds a bowler by entry number, by name or part of a name, or by what a scanner typed.</summary>
/// <remarks>
/// A scanner that acts as a keyboard types a whole code and Enter. An entry card has the address of the list of balls, or the entry
/// number where somebody else printed it; a slip has the address of its scan page or only the code. Each leads to its entry.
/// </remarks>
public sealed class BowlerSearch(Events events, InspectionLookup lookup, EntryCards cards, Database database)
{
    private const int MostNearest = 3;

    /// <summary>All bowlers of an event that a text may mean.</summary>
    public FoundBowlers Find(Event held, string? text)
    {
        var typed = text?.Trim() ?? "";
        if (typed.Length == 0)
        {
            return new FoundBowlers([], false, null);
        }

        var entries = events.EntriesOf(held.Id);
        if (Scanned(held, entries, typed) is { } scanned)
        {
            return scanned;
        }

        var whole = entries.FirstOrDefault(entry => IsNumber(entry, typed))
            ?? entries.FirstOrDefault(entry => IsNumber(entry, typed.TrimStart('0')));
        whole ??= Tagged(held, typed) is { } number ? entries.FirstOrDefault(entry => entry.Number == number) : null;
        if (whole is not null)
        {
            return new FoundBowlers([whole], true, null);
        }

        var named = entries.Where(entry => entry.Bowler is { } name && NameFold.Matches(typed, name)).ToList();
        var begun = entries.Where(entry => entry.Number.StartsWith(typed, StringComparison.OrdinalIgnoreCase)).Except(named);
        var matches = begun.Concat(named).ToList();
        return new FoundBowlers(matches, matches.Count == 1 && named.Count == 1, matches.Count > 0 ? null : NoneLike(held, entries, typed));
    }

    private static bool IsNumber(Entry entry, string typed) => string.Equals(entry.Number, typed, StringComparison.OrdinalIgnoreCase);

    private FoundBowlers? Scanned(Event held, IReadOnlyList<Entry> entries, string typed)
    {
        var (isInspection, inspection) = (InspectionNumber.TryParse(typed, out var number), default(FoundInspection));
        if (isInspection)
        {
            inspection = lookup.ByNumber(number);
        }
        else if (ScanAddress.TryRead(typed, out var code))
        {
            inspection = lookup.ByCode(code);
            if (inspection is null && cards.Find(code) is { } card)
            {
                return card.Event == held.Id
                    ? new FoundBowlers([.. entries.Where(entry => entry.Number == card.Entry)], true, null)
                    : new FoundBowlers([], false, $"\"{typed}\" is an entry card of another event; scan one of {held.Name}.");
            }
        }

        if (inspection?.Inspection is { } found)
        {
            return found.Event == held.Id
                ? new FoundBowlers([.. entries.Where(entry => entry.Number == found.Entry)], true, null)
                : new FoundBowlers(
                    [], false, $"\"{typed}\" is slip {found.Number}, which belongs to another event; scan a slip of {held.Name}.");
        }

        return isInspection || ScanAddress.IsMeant(typed)
            ? new FoundBowlers([], false, $"No slip or card of this station has \"{typed}\"; type the entry number or the name instead.")
            : null;
    }

    private string? Tagged(Event held, string typed)
    {
        using var connection = database.OpenForReading();
        return Tags.EntryOf(connection, held.Id, typed);
    }

    private static string NoneLike(Event held, IReadOnlyList<Entry> entries, string typed)
    {
        var words = NameFold.Words(typed);
        var most = Math.Max(1, words.Sum(word => word.Length) / 3);
        var nearest = entries
            .Select(entry => (Entry: entry, Apart: Apart(words, [entry.Number, .. NameFold.Words(entry.Bowler ?? "")])))
            .Where(each => each.Apart <= most)
            .OrderBy(each => each.Apart)
            .Take(MostNearest)
            .Select(each => $"{each.Entry.Number} {each.Entry.Bowler ?? "name struck"}")
            .ToList();
        var start = $"Nobody in {held.Name} has the number or the name \"{typed}\"";
        return nearest.Count == 0 ? $"{start}; try another part of the name." : $"{start}; the nearest: {string.Join(", ", nearest)}.";
    }

    private static int Apart(IReadOnlyList<string> typed, IReadOnlyList<string> words) =>
        typed.Count == 0
            ? int.MaxValue
            : typed.Sum(part => words.Min(word =>
                Math.Min(Spelling.Apart(part, word), Spelling.Apart(part, word[..Math.Min(word.Length, part.Length)]))));
}
