using System.Data.Common;
using System.Globalization;
using System.Text.RegularExpressions;
using Dapper;
using Inspect.Station.Access;
using Inspect.Station.Record;
using Inspect.Station.Slip;
using Inspect.Station.Storage;

namespace Inspect.Station.Desk;

/// <summary>The result for a typed text after every meaning was tried: the entries of the register that fit, and
/// how they were found.</summary>
/// <param name="Seqs">The entries, each once; null when only <see cref="Model"/> limits them.</param>
/// <param name="Readings">How the text was understood. Meanings that fit nothing are left out.</param>
public sealed record Sought(IReadOnlySet<long>? Seqs, IReadOnlyList<SoughtAs> Readings)
{
    /// <summary>A maker or model that fits more balls than are listed: a filter, whose rows are tested one by one.</summary>
    internal FindTerm? Model { get; init; }

    /// <summary>The result for a text with one meaning; null when too many fit.</summary>
    internal static Sought? Of(List<long>? seqs) => seqs is null ? null : new Sought(seqs.ToHashSet(), []);

    /// <summary>What fits this and another text.</summary>
    internal Sought And(Sought other) => new(
        Seqs is null ? other.Seqs : other.Seqs is null ? Seqs : Seqs.Intersect(other.Seqs).ToHashSet(), [.. Readings, .. other.Readings])
    {
        Model = Model ?? other.Model,
    };
}

/// <summary>One way in which a text was understood.</summary>
/// <param name="Word">The word of the text; null for all of it.</param>
/// <param name="As">What it was taken for.</param>
/// <param name="Count">How many entries of the register fit; null when they were not counted.</param>
public sealed record SoughtAs(string? Word, string As, int? Count);

/// <summary>Finds register entries for what was typed: a bowler, a maker or model, a serial, a tag, an entry number, an inspection
/// number or the code of a slip. Each has its own index.</summary>
internal static partial class FindSearch
{
    /// <summary>How many inspections one meaning of a text may fit. With more the list would be too long to read,
    /// and more must be typed.</summary>
    public const int Most = 5_000;

    /// <summary>How many spellings of maker and model a text may fit.</summary>
    public const int MostModels = 500;

    /// <summary>The shortest beginning of a serial that is searched for.</summary>
    private const int ShortestBeginning = 4;

    /// <summary>The greatest character: it sorts after every text with the same beginning.</summary>
    private const string Last = "\U0010FFFF";

    /// <summary>The meaning of a text as maker and model.</summary>
    public const string AsModel = "maker or model";

    // More words than people type of one ball.
    private const int MostWords = 6;

    /// <summary>Tries every meaning of a text, in one event or in all; null when one of them fits too many. A text of several words that
    /// fits nothing as it stands is tried word by word: "kestrel 105" is a ball of entry 105.</summary>
    public static Sought? Any(DbConnection connection, string typed, string? eventId)
    {
        var whole = Meanings(connection, typed, null, eventId);
        var words = typed.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries);
        if (whole is null || whole.Readings.Count > 0 || words.Length is 1 or > MostWords)
        {
            return whole;
        }

        Sought? all = null;
        foreach (var word in words.Where(word => NameFold.Words(word).Any()))
        {
            if (Meanings(connection, word, word, eventId) is not { } one)
            {
                return null;
            }

            if (one.Readings.Count == 0 || (all is { Model: not null } && one.Model is not null))
            {
                return whole;
            }

            all = all?.And(one) ?? one;
        }

        return all ?? whole;
    }

    private static Sought? Meanings(DbConnection connection, string asked, string? word, string? eventId)
    {
        var typed = Said().Replace(asked, "");
        var parts = new List<Part>
        {
            Code(connection, typed, eventId), Number(connection, typed, eventId), Running(connection, typed, eventId),
            new("entry number", Entry(connection, typed, eventId)), new("serial", Serial(connection, typed, eventId)),
            new("tag", Tags.SeqsOf(connection, typed, eventId, Most + 1) is { Count: <= Most } tagged ? tagged : null),
            new("bowler's name", Bowler(connection, typed, eventId)),
        };
        if (parts.Exists(part => part.Seqs is null))
        {
            return null;
        }

        // Digits alone are an entry or an inspection; the model's filter finds a ball that is called by a number.
        var names = typed.Any(char.IsLetter) ? Models(connection, typed) : [];
        if (names.Count <= MostModels && OfModels(connection, names, eventId) is { } ofModels)
        {
            parts.Add(new(AsModel, ofModels));
        }
        else if (parts.TrueForAll(part => part.Seqs!.Count == 0))
        {
            return names.Count > MostModels ? null : new Sought(null, [new(word, AsModel, null)])
            {
                Model = new FindTerm(FindFilters.SearchedModel, EngineSql.List(names)),
            };
        }

        return new Sought(
            parts.SelectMany(part => part.Seqs!).ToHashSet(),
            [.. parts.Where(part => part.Seqs!.Count > 0).Select(part => new SoughtAs(word, part.As, part.Seqs!.Count))]);
    }

    /// <summary>The inspections of balls with one of these names, or null when there are too many.</summary>
    private static List<long>? OfModels(DbConnection connection, IReadOnlyList<string> names, string? eventId)
    {
        if (names.Count == 0)
        {
            return [];
        }

        // Counted in every event, so that the rows of one event are not looked for among all those of a common ball.
        var sql = $"""
            SELECT m.seq, i.event
            FROM (SELECT b.seq FROM {EngineSql.Each("names")} k {EngineSql.ThenJoin} inspection_model b ON b.name = k.value LIMIT @limit) m
              {EngineSql.ThenJoin} inspection_index i ON i.seq = m.seq
            """;
        var rows = connection.Query<(long Seq, string Event)>(sql, new { names = EngineSql.List(names), limit = Most + 1 }).AsList();
        return rows.Count > Most ? null : rows.FindAll(row => eventId is null || row.Event == eventId).ConvertAll(row => row.Seq);
    }

    /// <summary>The inspections of every bowler with such a name, or null when there are too many.</summary>
    public static List<long>? Bowler(DbConnection connection, string typed, string? eventId)
    {
        var words = NameFold.Words(typed).OrderByDescending(word => word.Length).ToList();
        if (words.Count == 0)
        {
            return [];
        }

        // The longest word is looked up, since it fits the fewest. NameFold then checks that every word fits.
        var wearers = $"""
            SELECT DISTINCT w.person AS Id, p.name AS Name
            FROM person_name_word w {EngineSql.ThenJoin} person p ON p.id = w.person
            WHERE w.word >= @from AND w.word < @to
              AND EXISTS (SELECT 1 FROM entry e WHERE e.person = w.person AND (@eventId IS NULL OR e.event = @eventId))
            LIMIT @limit
            """;
        var people = connection.Query<(string Id, string Name)>(
            wearers, new { from = words[0], to = words[0] + Last, eventId, limit = Looked(words) + 1 }).AsList();
        if (people.Count > Looked(words))
        {
            return null;
        }

        var fitting = words.Count == 1 ? people : people.FindAll(person => NameFold.Matches(typed, person.Name));
        var inspections = $"""
            SELECT i.seq
            FROM {EngineSql.Each("people")} p {EngineSql.ThenJoin} entry e ON e.person = p.value
              {EngineSql.ThenJoin} inspection_index i {EngineSql.By("inspection_index_entry")} ON i.event = e.event AND i.entry = e.entry
            WHERE @eventId IS NULL OR e.event = @eventId
            LIMIT @limit
            """;
        return Bounded(connection.Query<long>(
            inspections, new { people = EngineSql.List(fitting.Select(person => person.Id)), eventId, limit = Most + 1 }));
    }

    // Of several words, the one looked up may fit many more people than all together.
    private static int Looked(List<string> words) => words.Count == 1 ? Most : 4 * Most;

    /// <summary>The inspections of an entry number, or null when there are too many.</summary>
    public static List<long>? Entry(DbConnection connection, string typed, string? eventId)
    {
        var sql = $"""
            SELECT i.seq
            FROM (SELECT event FROM event WHERE @eventId IS NULL OR event = @eventId) v
              {EngineSql.ThenJoin} inspection_index i {EngineSql.By("inspection_index_entry")} ON i.event = v.event AND i.entry IN (@typed, @upper, @lower)
            LIMIT @limit
            """;
        return Bounded(connection.Query<long>(
            sql, new { typed, upper = typed.ToUpperInvariant(), lower = typed.ToLowerInvariant(), eventId, limit = Most + 1 }));
    }

    private static List<long>? Serial(DbConnection connection, string typed, string? eventId)
    {
        var sql = $"""
            SELECT seq FROM inspection_index {EngineSql.By("inspection_index_serial")}
            WHERE serial_folded >= @folded AND serial_folded < @to AND (@eventId IS NULL OR event = @eventId)
            LIMIT @limit
            """;
        var folded = SerialLookAlikes.Fold(typed);
        return folded.Length == 0
            ? []
            : Bounded(connection.Query<long>(sql, new
            {
                folded,
                to = folded + (folded.Length < ShortestBeginning ? "\0" : Last),
                eventId,
                limit = Most + 1,
            }));
    }

    /// <summary>Every spelling of maker and model in which each typed word begins another word, up to one more than allowed.</summary>
    public static IReadOnlyList<string> Models(DbConnection connection, string typed) =>
        [.. EachOnce(connection, "inspection_model", "name").Where(name => NameFold.Matches(typed, name)).Take(MostModels + 1)];

    /// <summary>The values of a column, each once. It steps through the index, so that only one row for each value is read.</summary>
    public static IEnumerable<string> EachOnce(DbConnection connection, string table, string column) => connection.Query<string>(
        $"""
        WITH RECURSIVE used (name) AS (
          SELECT min({column}) FROM {table}
          UNION ALL
          SELECT (SELECT min(t.{column}) FROM {table} t WHERE t.{column} > used.name) FROM used WHERE used.name IS NOT NULL)
        SELECT name FROM used WHERE name IS NOT NULL
        """,
        buffered: false);

    private static Part Code(DbConnection connection, string typed, string? eventId) => new(
        "slip code", ScanAddress.TryRead(typed, out var code)
        ? connection.Query<long>(
            "SELECT seq FROM inspection_index WHERE code = @code AND (@eventId IS NULL OR event = @eventId)",
            new { code = code.ToString(), eventId }).AsList()
        : []);

    private static Part Number(DbConnection connection, string typed, string? eventId) => new("inspection number", connection.Query<long>(
        """
        SELECT i.seq
        FROM inspection_index i
        WHERE i.number IN @numbers AND (@eventId IS NULL OR i.event = @eventId)
        """,
        new { numbers = Numbers(typed), eventId }).AsList());

    // Written without its hyphen, the number may begin at any of the digits at the end: CUP27417 is 417 of CUP27 and 27417 of CUP.
    private static IEnumerable<string> Numbers(string typed)
    {
        if (NumberOf().Match(typed) is not { Success: true } match)
        {
            yield break;
        }

        var (named, digits) = (match.Groups["event"].Value.ToUpperInvariant(), match.Groups["running"].Value);
        for (var i = 0; i < (match.Groups["gap"].Length > 0 ? 1 : digits.Length); i++)
        {
            yield return new InspectionNumber(named + digits[..i], long.Parse(digits[i..], CultureInfo.InvariantCulture)).ToString();
        }
    }

    private static Part Running(DbConnection connection, string typed, string? eventId)
    {
        var sql = $"""
            SELECT i.seq
            FROM (SELECT event FROM event WHERE @eventId IS NULL OR event = @eventId) v
              {EngineSql.ThenJoin} inspection_index i ON i.event = v.event AND i.running = @running
            LIMIT @limit
            """;
        return new(
            "running number", typed.Length <= 9 && long.TryParse(typed, NumberStyles.None, CultureInfo.InvariantCulture, out var running)
            ? Bounded(connection.Query<long>(sql, new { running, eventId, limit = Most + 1 }))
            : []);
    }

    [GeneratedRegex(
        @"^(?:(?<event>[A-Za-z0-9]{2,12})(?<gap>[-\u2010\u2011\u2013 ])|(?<event>[A-Za-z0-9]{0,11}[A-Za-z]))(?<running>[0-9]{1,9})$",
        RegexOptions.CultureInvariant)]
    private static partial Regex NumberOf();

    // What people put before a number without meaning it as a part of it.
    [GeneratedRegex(
        @"^(?:(?:entry|inspection|serial|slip|code|tag|ball|number|no\.?|s/n)(?:\s*[:#]\s*|\s+)|#\s*)(?=.*[0-9])",
        RegexOptions.CultureInvariant | RegexOptions.IgnoreCase)]
    private static partial Regex Said();

    // The query asked for one more than allowed.
    private static List<long>? Bounded(IEnumerable<long> seqs) => seqs.AsList() is { Count: <= Most } few ? few : null;

    private sealed record Part(string As, List<long>? Seqs);
}
