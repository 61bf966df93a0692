using System.Data.Common;
using Dapper;
using Inspect.Station.Record;
using Inspect.Station.Storage;
using Inspect.Station.Web;

namespace Inspect.Station.Desk;

/// <summary>One inspection as a search shows it.</summary>
public sealed record FoundRow(
    long Seq, string Number, string At, string Event, string Entry, string? Bowler, string? Ball, string? Serial, string? Model,
    string Play, string Outcome,
    string? Edition, string? By, string? Supersedes, string? SupersededBy, string? RulingWord, string NotMet, string Open)
{
    /// <summary>What the latest ruling decided, or null.</summary>
    public Decision? Ruling => RulingWord is null ? null : Decisions.Words[RulingWord];

    /// <summary>stands, superseded, withdrawn or ruled.</summary>
    public string Standing => Record.Standing.WordOf(SupersededBy is not null, Ruling);

    /// <summary>The rules that were not met.</summary>
    public string[] NotMetRules => Parts(NotMet);

    /// <summary>The rules that stayed open.</summary>
    public string[] OpenRules => Parts(Open);

    /// <summary>Splits a list that is stored as one text.</summary>
    public static string[] Parts(string? list) => (list ?? "").Split(' ', StringSplitOptions.RemoveEmptyEntries);
}

/// <summary>One page of what was found, newest first.</summary>
/// <param name="Rows">The inspections.</param>
/// <param name="Count">How many fit in total, counted up to <see cref="Finder.CountedUpTo"/>.</param>
/// <param name="HasMore">Whether more fit than were counted.</param>
/// <param name="Older">Where the next page begins, or null at the end.</param>
/// <param name="Newer">Where the page before begins, or null at the newest.</param>
/// <param name="Sought">How a typed text was understood.</param>
public sealed record FoundPage(
    IReadOnlyList<FoundRow> Rows, int Count, bool HasMore, FindCursor? Older, FindCursor? Newer, Sought? Sought);

/// <summary>Finds inspections by filters: in pages, newest first, counted up to a bound, or all of them in small batches.</summary>
internal sealed class Finder(Database database)
{
    /// <summary>How many results are counted at most.</summary>
    public const int CountedUpTo = 10_000;

    /// <summary>How many rows an export fetches in each of its short queries.</summary>
    private const int Helping = 500;

    private static readonly string Rows = $"""
        SELECT i.seq AS Seq, i.number AS Number, i.at AS At, i.event AS Event, i.entry AS Entry, p.name AS Bowler, i.ball AS Ball,
               i.serial AS Serial, (SELECT m.name FROM inspection_model m WHERE m.seq = i.seq) AS Model, i.play AS Play, i.outcome AS Outcome, i.edition AS Edition, b.name AS By, i.supersedes AS Supersedes,
               i.superseded_by AS SupersededBy, g.decision AS RulingWord,
               coalesce((SELECT string_agg(rule, ' ') FROM inspection_rule r WHERE r.seq = i.seq AND r.outcome = 'fail'), '') AS NotMet,
               coalesce((SELECT string_agg(rule, ' ') FROM inspection_rule r WHERE r.seq = i.seq AND r.outcome = 'hold'), '') AS Open
        FROM {EngineSql.Each("seqs")} s {EngineSql.ThenJoin} inspection_index i ON i.seq = s.value
          LEFT JOIN ruling_index g ON g.seq = (SELECT max(l.seq) FROM ruling_index l WHERE l.inspection_seq = i.seq)
          LEFT JOIN entry e ON e.event = i.event AND e.entry = i.entry
          LEFT JOIN person p ON p.id = e.person
          LEFT JOIN person b ON b.id = i.by_person
        ORDER BY i.seq DESC
        """;

    /// <summary>Searches for a typed text; null when there was none, or when it fits too many, which is a fault.</summary>
    public Sought? Seek(IReadOnlyList<FindTerm> terms, Faults faults)
    {
        using var connection = database.OpenForReading();
        var eventId = (string?)terms.FirstOrDefault(term => term.Filter == FindFilters.Event)?.Value;
        Sought? sought = null;
        foreach (var (filter, value) in terms.Where(term => term.Filter.Seek is not null))
        {
            if (filter.Seek!(connection, (string)value, eventId) is { } found)
            {
                sought = sought?.And(found) ?? found;
            }
            else
            {
                faults.Add(filter.Name, $"\"{value}\" fits more than {FindSearch.Most} inspections; type more of it, or choose an event.");
            }
        }

        return sought;
    }

    /// <summary>One page of the results.</summary>
    /// <param name="terms">What is looked for.</param>
    /// <param name="sought">What <see cref="Seek"/> found for it.</param>
    /// <param name="cursor">Where the page begins; null for the newest.</param>
    /// <param name="size">How many rows at most.</param>
    public FoundPage Page(IReadOnlyList<FindTerm> terms, Sought? sought, FindCursor? cursor, int size)
    {
        using var connection = database.OpenForReading();
        var plan = new FindPlan(connection, terms, sought);
        var seqs = plan.Page(connection, cursor, size + 1);
        var isNewer = cursor is { IsOlder: false };
        var goesOn = seqs.Count > size;
        if (goesOn)
        {
            seqs.RemoveAt(size);
        }

        if (isNewer)
        {
            seqs.Reverse();
        }

        var count = plan.Count(connection, CountedUpTo + 1);
        var older = seqs.Count > 0
            && (isNewer ? cursor is not null && plan.Page(connection, new FindCursor(seqs[^1], IsOlder: true), 1).Count > 0 : goesOn);
        var newer = seqs.Count > 0
            && (isNewer ? goesOn : cursor is not null && plan.Page(connection, new FindCursor(seqs[0], IsOlder: false), 1).Count > 0);
        return new FoundPage(
            RowsOf(connection, seqs),
            Math.Min(count, CountedUpTo),
            count > CountedUpTo,
            older ? new FindCursor(seqs[^1], IsOlder: true) : null,
            newer ? new FindCursor(seqs[0], IsOlder: false) : null,
            sought);
    }

    /// <summary>All results, newest first, in small batches: memory use does not grow, and a slow reader keeps
    /// no transaction open.</summary>
    /// <remarks>What is recorded after the first batch is not included, since the batches only go back.</remarks>
    public IEnumerable<IReadOnlyList<FoundRow>> All(IReadOnlyList<FindTerm> terms, Sought? sought)
    {
        FindPlan plan;
        using (var connection = database.OpenForReading())
        {
            plan = new FindPlan(connection, terms, sought);
        }

        for (FindCursor? cursor = null; ;)
        {
            using var connection = database.OpenForReading();
            var seqs = plan.Page(connection, cursor, Helping);
            if (seqs.Count == 0)
            {
                yield break;
            }

            yield return RowsOf(connection, seqs);
            cursor = new FindCursor(seqs[^1], IsOlder: true);
        }
    }

    private static List<FoundRow> RowsOf(DbConnection connection, List<long> seqs) => seqs.Count == 0
        ? []
        : connection.Query<FoundRow>(Rows, new { seqs = EngineSql.List(seqs) }).AsList();
}
