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
/// <param name="Seqs">The entries, each once.</param>
/// <param name="Readings">How the text was understood, each meaning with the number of entries. Meanings that
/// fit nothing are left out.</param>
public sealed record Sought(IReadOnlySet<long> Seqs, IReadOnlyList<(string As, int Count)> Readings)
{
    /// <summary>The result for a text with one meaning; null when too many fit.</summary>
    internal static Sought? Of(List<long>? seqs) => seqs is null ? null : new Sought(seqs.ToHashSet(), []);
}

/// <summary>Finds register entries for what was typed: a name, an entry number, a serial, an inspection number or the code of a slip.
/// Each has its own index.</summary>
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

    /// <summary>Tries every meaning of a text, in one event or in all; null when one of them fits too many.</summary>
    public static Sought? Any(DbConnection connection, string asked, string? eventId)
    {
        var typed = Said().Replace(asked, "");
        var parts = new List<Part>
        {
            Code(connection, typed, eventId), Number(connection, typed, eventId), Running(connection, typed, eventId),
            new("entry number", Entry(connection, typed, eventId)), new("serial", Serial(connection, typed, eventId)),
            new("tag", Tags.SeqsOf(connection, typed, eventId, Most + 1) is { Count: <= Most } tagged ? tagged : null),
            new("bowler's name", Bowler(connection, typed, eventId)),
        };
        return parts.Exists(part => part.Seqs is null)
            ? null
            : new Sought(
                parts.SelectMany(part => part.Seqs!).ToHashSet(),
                [.. parts.Where(part => part.Seqs!.Count > 0).Select(part => (part.As, part.Seqs!.Count))]);
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
