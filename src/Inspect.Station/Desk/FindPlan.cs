using System.Data.Common;
using Dapper;
using Inspect.Station.Storage;

namespace Inspect.Station.Desk;

/// <summary>Plans a search: which index to follow, and which conditions to test on each of its rows.</summary>
/// <remarks>
/// SQLite's planner has no statistics here and would choose badly for some combinations of filters. So the rows of each filter are counted
/// up to a bound, the index of the narrowest is followed newest first, and the other conditions are tested on
/// its rows. Days are turned into
/// a range of register entries, which limits every index.
/// </remarks>
internal sealed class FindPlan
{
    /// <summary>How far the rows of a filter are counted to find the narrowest.</summary>
    private const int CountedUpTo = 20_000;

    private static readonly FindTable SoughtEntries = new(EngineSql.Each("sought"), "s", "value", null);

    private readonly DynamicParameters _values = new();
    private readonly List<FindCondition> _conditions;
    private readonly string _entry;
    private readonly string _rows;

    /// <summary>Plans a search. The entries found for a typed text are given if there was one.</summary>
    public FindPlan(DbConnection connection, IReadOnlyList<FindTerm> terms, Sought? sought)
    {
        terms = sought?.Model is { } model ? [.. terms, model] : terms;
        foreach (var term in terms)
        {
            _values.Add(term.Filter.Name, term.Value);
        }

        var (low, high) = Stretch(connection, terms);
        _values.Add("low", low);
        _values.Add("high", high);
        var parts = terms.Select(term => term.Filter.Sql(term.Value)).ToList();
        _conditions = [.. parts.SelectMany(part => part.Conditions)];
        var lead = Leading(connection, parts, sought);
        _entry = lead.Table.Entry;
        _rows = RowsOf(lead);
    }

    /// <summary>The entries that fit after a place in the results, nearest first.</summary>
    public List<long> Page(DbConnection connection, FindCursor? cursor, int limit)
    {
        var place = cursor is null ? "" : $"AND {_entry} {(cursor.IsOlder ? "<" : ">")} @place";
        var order = cursor is { IsOlder: false } ? "ASC" : "DESC";
        return connection.Query<long>(
            $"SELECT {_entry} FROM {_rows} {place} ORDER BY {_entry} {order} LIMIT @limit",
            With(("place", cursor?.Seq ?? 0), ("limit", limit))).AsList();
    }

    /// <summary>How many entries fit, counted no further than a bound.</summary>
    public int Count(DbConnection connection, int bound) => Counted(connection, _rows, bound);

    private FindLead Leading(DbConnection connection, List<FindSql> parts, Sought? sought)
    {
        if (sought?.Seqs is { } seqs)
        {
            _values.Add("sought", EngineSql.List(seqs));
            return new(SoughtEntries, null, [], 0);
        }

        var leads = parts.Select(part => Array.Find(part.Leads, IsAsked)).OfType<FindLead>().OrderBy(lead => lead.Turn).ToList();
        return leads switch
        {
            [] => new(FindFilters.Inspections, EngineSql.ByKey, [], 0),
            _ when leads.Find(lead => lead.IsNarrow) is { } narrow => narrow,

            // A filter that fits many inspections finds enough rows in the order of the register.
            [{ Table.BySeq: { } inOrder } only] when Fitting(only) == CountedUpTo => only with { Hint = inOrder },
            [var only] => only,
            _ => leads.MinBy(Fitting)!,
        };

        int Fitting(FindLead lead) => Counted(
            connection,
            Where(lead, _conditions.Where(each => lead.Begins.Contains(each.ColumnIn(lead.Table))).Select(each => each.In(lead.Table)!)),
            CountedUpTo);
    }

    private bool IsAsked(FindLead lead) =>
        Array.TrueForAll(lead.Begins, column => _conditions.Exists(each => each.ColumnIn(lead.Table) == column));

    /// <summary>The rows of an index that fit all conditions. inspection_index is joined only when a condition needs it.</summary>
    private string RowsOf(FindLead lead)
    {
        var others = _conditions.Where(each => each.In(lead.Table) is null).ToLookup(each => each.Table == FindFilters.Inspections);
        var looked = others[false].GroupBy(each => (each.Table, each.IsNone)).Select(group =>
        {
            var (table, isNone) = group.Key;
            var tests = string.Join(" AND ", group.Select(each => $"{table.Alias}.{each.Column} {each.Test}"));
            var not = isNone ? "NOT " : "";
            return $"{not}EXISTS (SELECT 1 FROM {table.From(table.BySeq)} WHERE {table.Entry} = {lead.Table.Entry} AND {tests})";
        });
        var join = others[true].Any()
            ? $" {EngineSql.ThenJoin} {FindFilters.Inspections.From(null)} ON {FindFilters.Inspections.Entry} = {lead.Table.Entry}"
            : "";
        var here = _conditions.Select(each => each.In(lead.Table) ?? each.In(FindFilters.Inspections)).OfType<string>();
        return Where(lead, here.Concat(looked), join);
    }

    private static string Where(FindLead lead, IEnumerable<string> conditions, string join = "") =>
        $"{lead.Table.From(lead.Hint)}{join} WHERE "
            + string.Join(" AND ", conditions.Append($"{lead.Table.Entry} > @low AND {lead.Table.Entry} < @high"));

    private int Counted(DbConnection connection, string rows, int bound) =>
        connection.ExecuteScalar<int>($"SELECT count(*) FROM (SELECT 1 FROM {rows} LIMIT @limit)", With(("limit", bound)));

    private DynamicParameters With(params ReadOnlySpan<(string Name, long Value)> more)
    {
        var values = new DynamicParameters(_values);
        foreach (var (name, value) in more)
        {
            values.Add(name, value);
        }

        return values;
    }

    /// <summary>The entries between which all that fits the days is, both ends excluded.</summary>
    private static (long Low, long High) Stretch(DbConnection connection, IReadOnlyList<FindTerm> terms)
    {
        var (low, high) = (0L, long.MaxValue);
        foreach (var ends in terms.Where(term => term.Filter.Days is not null).GroupBy(term => term.Filter.Days!.Column))
        {
            // Steps from day to day in the index, so that only one row for each day is read.
            var column = ends.Key;
            var sql = $"""
                WITH RECURSIVE day (d) AS (
                  SELECT (SELECT {column} FROM inspection_index WHERE {column} >= @first AND {column} <= @last ORDER BY {column} LIMIT 1)
                  UNION ALL
                  SELECT (SELECT {column} FROM inspection_index WHERE {column} > d AND {column} <= @last ORDER BY {column} LIMIT 1) FROM day WHERE d IS NOT NULL)
                SELECT min((SELECT min(seq) FROM inspection_index WHERE {column} = d)) AS First,
                       max((SELECT max(seq) FROM inspection_index WHERE {column} = d)) AS Last
                FROM day WHERE d IS NOT NULL
                """;
            var (from, to) = connection.QuerySingle<(long? First, long? Last)>(
                sql, new { first = End(isLast: false) ?? "", last = End(isLast: true) ?? "9999-99-99" });
            low = Math.Max(low, from is { } least ? least - 1 : long.MaxValue);
            high = Math.Min(high, to is { } greatest ? greatest + 1 : 0);

            string? End(bool isLast) =>
                ends.FirstOrDefault(term => term.Filter.Days!.IsLast == isLast)?.Value is string end ? end[..10] : null;
        }

        return (low, high);
    }
}
