using System.Data.Common;
using System.Globalization;
using Dapper;
using Inspect.Station.Decide;
using Inspect.Station.Record;
using Inspect.Station.Storage;

namespace Inspect.Station.Desk;

/// <summary>How a search is carried out: which index leads, and what every row it gives must still fit.</summary>
/// <remarks>
/// The store's planner keeps no statistics here and would choose badly for some of the mixes that can be picked. So the narrowest filter is
/// found by counting each up to a bound, its index leads newest first, and the others are seen to on the way. Days become the stretch of the
/// register that they lie in, which every index can be limited to.
/// </remarks>
internal sealed class FindPlan
{
    /// <summary>How far a filter is counted to find the narrowest.</summary>
    private const int CountedUpTo = 20_000;

    private readonly List<string> _conditions = [];
    private readonly DynamicParameters _values = new();
    private readonly string _from;
    private readonly string _seq;

    private FindPlan(DbConnection connection, FindFilter filter, Sought? sought)
    {
        var (low, high) = Stretch(connection, filter);
        _values.Add("low", low);
        _values.Add("high", high);
        var leads = Leads(filter, sought);
        var lead = leads.Find(each => each.IsNarrow) ?? Narrowest(connection, leads);
        _from = lead.From;
        _seq = lead.Seq;
        AddConditions(filter, sought, lead);
        if (lead.Seq is "r.seq" or "b.seq" && !_conditions.Exists(condition => condition.Contains("i.", StringComparison.Ordinal)))
        {
            _from = lead.From.Split($" {EngineSql.ThenJoin} inspection_index")[0];
        }

        _conditions.Add($"{_seq} > @low AND {_seq} < @high");
    }

    /// <summary>Plans a search. Entries that were sought by text are given when there was any.</summary>
    public static FindPlan Of(DbConnection connection, FindFilter filter, Sought? sought) => new(connection, filter, sought);

    /// <summary>The entries that fit behind a place, nearest to it first.</summary>
    public List<long> Page(DbConnection connection, FindCursor? cursor, int limit)
    {
        var place = cursor is null ? "" : cursor.IsOlder ? $"AND {_seq} < @place" : $"AND {_seq} > @place";
        var order = cursor is { IsOlder: false } ? "ASC" : "DESC";
        return connection.Query<long>(
            $"SELECT {_seq} FROM {_from} WHERE {string.Join(" AND ", _conditions)} {place} ORDER BY {_seq} {order} LIMIT @limit",
            With(("place", cursor?.Seq ?? 0), ("limit", limit))).AsList();
    }

    /// <summary>How many entries fit, counted no further than a bound.</summary>
    public int Count(DbConnection connection, int bound) => connection.ExecuteScalar<int>(
        $"SELECT count(*) FROM (SELECT 1 FROM {_from} WHERE {string.Join(" AND ", _conditions)} LIMIT @limit)", With(("limit", bound)));

    private DynamicParameters With(params ReadOnlySpan<(string Name, long Value)> more)
    {
        var values = new DynamicParameters(_values);
        foreach (var (name, value) in more)
        {
            values.Add(name, value);
        }

        return values;
    }

    private List<Lead> Leads(FindFilter filter, Sought? sought)
    {
        var leads = new List<Lead>();
        if (sought is not null)
        {
            Value("sought", EngineSql.List(sought.Seqs));
            leads.Add(new($"{EngineSql.Each("sought", "s")} {EngineSql.ThenJoin} inspection_index i ON i.seq = s.value", "i.seq", "", IsNarrow: true, ""));
        }

        Narrow(filter.Ball, "ball", "inspection_index_ball", "i.ball = @ball");
        Narrow(filter.Serial, "serial", "inspection_index_serial", "i.serial_folded = @serial", SerialLookAlikes.Fold);
        var (ofRule, sameRule) = OfRule(filter);
        Wide(filter.Rule, "rule", $"{ofRule} {EngineSql.ThenJoin} inspection_index i ON i.seq = r.seq", sameRule, "r.seq");
        if (filter.RuleOutcome is { } came)
        {
            Value("came", came);
        }

        Wide(filter.Instrument, "instrument", $"inspection_instrument m {EngineSql.ThenJoin} inspection_index i ON i.seq = m.seq", "m.instrument = @instrument", "m.seq");
        Wide(filter.Inspector?.ToString(), "inspector", Led("inspection_find_person"), "i.by_person = @inspector");
        Wide(filter.Event, "event", Led("inspection_find_event"), "i.event = @event");
        Wide(filter.Edition, "edition", Led("inspection_find_edition"), "i.edition = @edition");
        Wide(filter.Outcome, "outcome", Led("inspection_find_outcome"), "i.outcome = @outcome");
        Wide(filter.Standing == Standing.Superseded ? "" : null, "superseded", Led("inspection_find_superseded"), "i.superseded_by IS NOT NULL");
        if (filter.Standing is Standing.Withdrawn or Standing.Ruled)
        {
            // Rulings are few, and each names its inspection; in the order of the inspections they have to be put.
            var ofEvent = filter.Event is null ? "" : " AND g.event = @event";
            var last = $"g.seq = (SELECT max(l.seq) FROM ruling_index l WHERE l.inspection_seq = g.inspection_seq){ofEvent} AND {Decided(filter.Standing, "g.decision")}";
            leads.Add(new($"ruling_index g {EngineSql.ThenJoin} inspection_index i ON i.seq = g.inspection_seq", "i.seq", last, IsNarrow: false, $"ruling_index g WHERE {last}"));
        }

        // Last, so that of two that fit many the other leads: the rows of several models have to be put in order.
        if (filter.Models is { } models)
        {
            Value("models", EngineSql.List(models));
            var written = $"{EngineSql.Each("models", "k")} {EngineSql.ThenJoin} inspection_model b ON b.name = k.value";
            leads.Add(new($"{written} {OfModel}", "b.seq", "b.name = k.value", IsNarrow: false, $"{written} WHERE b.seq > @low AND b.seq < @high"));
        }

        return leads;

        void Narrow(string? value, string name, string index, string condition, Func<string, string>? folded = null)
        {
            if (value is not null)
            {
                Value(name, folded is null ? value : folded(value));
                leads.Add(new(Led(index), "i.seq", condition, IsNarrow: true, ""));
            }
        }

        void Wide(string? value, string name, string from, string condition, string seq = "i.seq")
        {
            if (value is not null)
            {
                Value(name, value);
                leads.Add(new(from, seq, condition, IsNarrow: false, $"{from.Split($" {EngineSql.ThenJoin} ")[0]} WHERE {condition} AND {seq} > @low AND {seq} < @high"));
            }
        }
    }

    private void AddConditions(FindFilter filter, Sought? sought, Lead lead)
    {
        Needs(filter.Ball is not null, "i.ball = @ball");
        Needs(filter.Serial is not null, "i.serial_folded = @serial");
        // The index of rules knows these three of their inspections.
        var byRule = lead.Seq == "r.seq";
        Needs(filter.Inspector is not null, byRule ? "r.by_person = @inspector" : "i.by_person = @inspector");
        Needs(filter.Event is not null, byRule ? "r.event = @event" : "i.event = @event");
        Needs(filter.Outcome is not null, byRule ? "r.verdict = @outcome" : "i.outcome = @outcome");
        Needs(filter.Edition is not null, "i.edition = @edition");
        Needs(filter.Standing == Standing.Superseded, "i.superseded_by IS NOT NULL");
        Needs(filter.Standing is Standing.Stands or Standing.Withdrawn or Standing.Ruled, "i.superseded_by IS NULL");
        Needs(filter.Standing == Standing.Stands, "NOT EXISTS (SELECT 1 FROM ruling_index g WHERE g.inspection_seq = i.seq)");
        Needs(filter.Standing is Standing.Withdrawn or Standing.Ruled, lead.From.StartsWith("ruling_index", StringComparison.Ordinal)
            ? lead.Condition
            : Decided(filter.Standing, RulingIndex.Decided("i")));
        var came = filter.RuleOutcome is null ? "" : " AND r.outcome = @came";
        Needs(filter.Rule is not null, byRule ? $"r.rule = @rule{came}" : $"EXISTS (SELECT 1 FROM inspection_rule r WHERE r.rule = @rule AND r.seq = i.seq{came})");
        Needs(filter.Instrument is not null, lead.Seq == "m.seq"
            ? lead.Condition
            : "EXISTS (SELECT 1 FROM inspection_instrument m WHERE m.instrument = @instrument AND m.seq = i.seq)");
        Needs(filter.Models is not null, lead.Seq == "b.seq"
            ? lead.Condition
            : $"EXISTS (SELECT 1 FROM inspection_model b {EngineSql.By("inspection_model_seq")} WHERE b.seq = i.seq AND {IsOneOfModels})");
        Needs(filter.From is not null, "i.play >= @from", ("from", Day(filter.From)));
        Needs(filter.To is not null, "i.play <= @to", ("to", Day(filter.To)));
        Needs(filter.RecordedFrom is not null, "i.at >= @recordedFrom", ("recordedFrom", Instant(filter.RecordedFrom)));
        Needs(filter.RecordedBefore is not null, "i.at < @recordedBefore", ("recordedBefore", Instant(filter.RecordedBefore)));

        void Needs(bool isGiven, string condition, params ReadOnlySpan<(string Name, string? Value)> values)
        {
            if (isGiven)
            {
                _conditions.Add(condition);
                foreach (var (name, value) in values)
                {
                    Value(name, value!);
                }
            }
        }
    }

    private Lead Narrowest(DbConnection connection, List<Lead> leads)
    {
        return leads switch
        {
            [] => new($"inspection_index i {EngineSql.ByKey}", "i.seq", "", IsNarrow: false, ""),

            // Models that many balls have are met soon enough in the order of the register.
            [{ Seq: "b.seq" } only] when Counted(only) == CountedUpTo =>
                new($"inspection_model b {EngineSql.By("inspection_model_seq")} {OfModel}", "b.seq", IsOneOfModels, IsNarrow: false, ""),
            [var only] => only,
            _ => leads.MinBy(Counted)!,
        };

        int Counted(Lead lead) => connection.ExecuteScalar<int>($"SELECT count(*) FROM (SELECT 1 FROM {lead.Counted} LIMIT {CountedUpTo})", _values);
    }

    private const string OfModel = $"{EngineSql.ThenJoin} inspection_index i ON i.seq = b.seq";

    private static readonly string IsOneOfModels = $"b.name IN (SELECT k.value FROM {EngineSql.Each("models", "k")})";

    private void Value(string name, object value) => _values.Add(name, value);

    /// <summary>What the latest ruling must have decided; where there was none, nothing fits.</summary>
    private static string Decided(string? standing, string decision) => $"{decision} {(standing == Standing.Withdrawn ? "" : "NOT ")}IN ('withdraw', 'undo')";

    /// <summary>The rows of a rule, by the index whose beginning fits them best.</summary>
    private static (string From, string Condition) OfRule(FindFilter filter) => filter switch
    {
        { Inspector: not null } => ($"inspection_rule r {EngineSql.By("inspection_rule_person")}", "r.rule = @rule AND r.by_person = @inspector"),
        { Event: not null } => ($"inspection_rule r {EngineSql.By("inspection_rule_event")}", "r.rule = @rule AND r.event = @event"),
        _ => ($"inspection_rule r {EngineSql.By("inspection_rule_find")}", "r.rule = @rule"),
    };

    private static string Led(string index) => $"inspection_index i {EngineSql.By(index)}";

    /// <summary>The entries between which everything lies that fits the days, both ends left out.</summary>
    private static (long Low, long High) Stretch(DbConnection connection, FindFilter filter)
    {
        var (low, high) = (0L, long.MaxValue);
        if (filter.From is not null || filter.To is not null)
        {
            Limit("play", Day(filter.From) ?? "", Day(filter.To) ?? "9999-99-99");
        }

        if (filter.RecordedFrom is not null || filter.RecordedBefore is not null)
        {
            Limit("substr(at, 1, 10)", Instant(filter.RecordedFrom)?[..10] ?? "", Instant(filter.RecordedBefore)?[..10] ?? "9999-99-99");
        }

        return (low, high);

        // From day to day by the index, so that as many rows are looked at as there are days.
        void Limit(string column, string first, string last)
        {
            var sql = $"""
                WITH RECURSIVE day (d) AS (
                  SELECT (SELECT {column} FROM inspection_index WHERE {column} >= @first AND {column} <= @last ORDER BY {column} LIMIT 1)
                  UNION ALL
                  SELECT (SELECT {column} FROM inspection_index WHERE {column} > d AND {column} <= @last ORDER BY {column} LIMIT 1) FROM day WHERE d IS NOT NULL)
                SELECT min((SELECT min(seq) FROM inspection_index WHERE {column} = d)) AS First,
                       max((SELECT max(seq) FROM inspection_index WHERE {column} = d)) AS Last
                FROM day WHERE d IS NOT NULL
                """;
            var (from, to) = connection.QuerySingle<(long? First, long? Last)>(sql, new { first, last });
            low = Math.Max(low, from is { } least ? least - 1 : long.MaxValue);
            high = Math.Min(high, to is { } greatest ? greatest + 1 : 0);
        }
    }

    private static string? Day(DateOnly? day) => day?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    private static string? Instant(DateTimeOffset? at) => at is { } instant ? UtcText.Of(instant) : null;

    /// <summary>One way to go through the rows.</summary>
    /// <param name="From">The table and its index.</param>
    /// <param name="Seq">The column with the entry's number.</param>
    /// <param name="Condition">What the index begins with.</param>
    /// <param name="IsNarrow">Whether it fits few rows by its nature, so that nothing need be counted.</param>
    /// <param name="Counted">What is counted to learn how narrow it is.</param>
    private sealed record Lead(string From, string Seq, string Condition, bool IsNarrow, string Counted);
}
