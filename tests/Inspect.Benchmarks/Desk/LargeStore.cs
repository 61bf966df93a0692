using System.Globalization;
using Inspect.Ledger;
using Inspect.Station.Access;
using Inspect.Station.Record;
using Inspect.Station.Storage;
using Microsoft.Data.Sqlite;

namespace Inspect.Benchmarks.Desk;

/// <summary>Fills a store with many inspections: twelve events, the last of which runs today, ten
/// inspections an entry, forty inspectors.</summary>
/// <remarks>Bodies are those of a few hundred that were really recorded, with what differs put in; index rows are written
/// beside them in the shape that <see cref="InspectionIndex"/> gives them. Indexes are dropped meanwhile and made at the end,
/// which takes a tenth of the time.</remarks>
internal sealed class LargeStore(string file, int inspections, Random random)
{
    public const int Events = 12;
    public const int Inspectors = 40;

    private const string Base32 = "0123456789abcdefghjkmnpqrstvwxyz";
    private const string SerialLetters = "0123456789ABCDEFGHJKLMNPRSTUVWXYZ";

    private static readonly string[] Starts = [
        "Ald", "Bren", "Cor", "Dov", "El", "Fen", "Gar", "Hol", "Is", "Jor", "Kel", "Lun", "Mar", "Nor", "Ol", "Per", "Quil", "Ros", "Sal",
        "Tor", "Ul", "Vel", "Wyn", "Yar", "Zel"];
    private static readonly string[] Middles = ["a", "e", "i", "o", "é", "ü", "an", "er", "in", "or"];
    private static readonly string[] Ends = [
        "bert", "dal", "field", "gate", "ham", "ick", "jas", "ković", "ley", "mond", "nell", "quist", "rød", "sen", "ton", "vale", "wick",
        "ström"];

    private readonly string[] _inspectors = new string[Inspectors];
    private readonly string[][] _bowlers = new string[Events][];

    /// <summary>The day on which the last event runs.</summary>
    public required DateOnly Today { get; init; }

    /// <summary>The short name of an event.</summary>
    public static string EventName(int index) => string.Create(CultureInfo.InvariantCulture, $"EV{index + 1:00}");

    /// <summary>The names of some bowlers, to be searched for.</summary>
    public List<string> Names { get; } = [];

    /// <summary>Some inspections, to be searched for: number, code, serial, ball, entry.</summary>
    public List<EntryFacts> Samples { get; } = [];

    /// <summary>The opaque ids of the inspectors.</summary>
    public IReadOnlyList<string> InspectorIds => _inspectors;

    private int EntriesOfEvent => Math.Max(1, inspections / Events / 10);

    public void Fill()
    {
        // What the station that recorded the bodies keeps open for later would hold the file.
        SqliteConnection.ClearAllPools();
        using var connection = new SqliteConnection($"Data Source={file};Pooling=False");
        connection.Open();
        Run(connection, "PRAGMA synchronous = OFF; PRAGMA journal_mode = OFF; PRAGMA cache_size = -500000; PRAGMA foreign_keys = OFF;");
        var templates = Templates(connection);
        var indexes = Dropped(connection);
        using (var transaction = connection.BeginTransaction())
        {
            AddPeople(connection, transaction);
            AddInspections(connection, transaction, templates);
            transaction.Commit();
        }

        foreach (var index in indexes)
        {
            Run(connection, index);
        }

        Run(connection, "PRAGMA journal_mode = WAL;");
    }

    private static List<BodyTemplate> Templates(SqliteConnection connection)
    {
        using var command = connection.CreateCommand();
        command.CommandText = "SELECT body FROM register_entry WHERE kind = 'inspection' ORDER BY seq";
        using var reader = command.ExecuteReader();
        var templates = new List<BodyTemplate>();
        while (reader.Read())
        {
            templates.Add(new BodyTemplate(reader.GetFieldValue<byte[]>(0)));
        }

        return templates;
    }

    private static List<string> Dropped(SqliteConnection connection)
    {
        using var command = connection.CreateCommand();
        command.CommandText = """
            SELECT name, sql FROM sqlite_schema
            WHERE type = 'index' AND sql IS NOT NULL AND tbl_name IN ('inspection_index', 'inspection_rule', 'inspection_model', 'person_name_word', 'register_entry')
            """;
        var made = new List<(string Name, string Sql)>();
        using (var reader = command.ExecuteReader())
        {
            while (reader.Read())
            {
                made.Add((reader.GetString(0), reader.GetString(1)));
            }
        }

        made.ForEach(index => Run(connection, $"DROP INDEX {index.Name}"));
        return [.. made.Select(index => index.Sql)];
    }

    private void AddPeople(SqliteConnection connection, SqliteTransaction transaction)
    {
        using var person = Prepared(connection, transaction, "INSERT INTO person (id, name, salt) VALUES ($0, $1, randomblob(32))", 2);
        using var word = Prepared(
            connection, transaction, "INSERT INTO person_name_word (word, person) VALUES ($0, $1) ON CONFLICT DO NOTHING", 2);
        using var held = Prepared(
            connection, transaction,
            "INSERT INTO event (event, name, from_day, to_day, time_zone, authority) VALUES ($0, $1, $2, $3, "
                + "'America/Chicago', 'us-national')", 4);
        using var entry = Prepared(connection, transaction, "INSERT INTO entry (event, entry, person) VALUES ($0, $1, $2)", 3);
        for (var i = 0; i < Inspectors; i++)
        {
            _inspectors[i] = Drawn(Base32, 16);
            Set(person, _inspectors[i], Name());
        }

        for (var i = 0; i < Events; i++)
        {
            var from = FirstDay(i);
            Set(held, EventName(i), $"Benchmark event {i + 1}", Day(from), Day(from.AddDays(4)));
            _bowlers[i] = new string[EntriesOfEvent];
            for (var k = 0; k < EntriesOfEvent; k++)
            {
                var (id, name) = (Drawn(Base32, 16), Name());
                _bowlers[i][k] = id;
                Set(person, id, name);
                Set(entry, EventName(i), (101 + k).ToString(CultureInfo.InvariantCulture), id);
                foreach (var part in NameFold.Words(name))
                {
                    Set(word, part, id);
                }

                if (random.Next(Math.Max(1, EntriesOfEvent / 20)) == 0)
                {
                    Names.Add(name);
                }
            }
        }
    }

    private void AddInspections(SqliteConnection connection, SqliteTransaction transaction, List<BodyTemplate> templates)
    {
        using var entry = Prepared(
            connection, transaction,
            "INSERT INTO register_entry (seq, kind, version, leaf_hash, body) VALUES ($0, 'inspection', 1, $1, $2)", 3);
        using var row = Prepared(
            connection, transaction,
            """
            INSERT INTO inspection_index (seq, number, event, running, entry, code, ball, serial, serial_folded, play, outcome, edition, by_person, at,
              supersedes, superseded_by)
            VALUES ($0, $1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14, $15)
            """, 16);
        using var rule = Prepared(
            connection, transaction,
            "INSERT INTO inspection_rule (rule, outcome, seq, event, by_person, verdict) VALUES ($0, $1, $2, $3, $4, $5)", 6);
        using var model = Prepared(connection, transaction, "INSERT INTO inspection_model (name, seq) VALUES ($0, $1)", 2);
        var (seq, prior) = Edge(connection);
        var ofEvent = inspections / Events;
        for (var i = 0; i < Events; i++)
        {
            for (var running = 1; running <= ofEvent; running++)
            {
                // Every tenth replaces the one before it, of the same ball.
                var (replaces, replaced) = (running % 10 == 0, running % 10 == 9 && running < ofEvent);
                var ball = Ball(i, running, replaces ? running - 1 : running);
                var at = FirstDay(i).ToDateTime(new TimeOnly(14, 0), DateTimeKind.Utc).AddSeconds(4.0 * 86_400 * running / ofEvent);
                var facts = new EntryFacts(
                    seq + 1, prior, Number(i, running), SlipCode.Draw().ToString(), UtcText.Of(at), EventName(i), ball.Entry, ball.Id,
                    ball.Serial, ball.Bowler,
                    _inspectors[((i * 3) + random.Next(8)) % Inspectors], Day(DateOnly.FromDateTime(at)));
                var template = templates[random.Next(templates.Count)];
                var body = template.Write(facts);
                var leaf = MerkleTree.LeafHash(body);
                seq++;
                prior = leaf.ToString();
                Set(entry, seq, leaf.ToArray(), body);
                Set(
                    row, seq, facts.Number, facts.Event, running, facts.Entry, facts.Code, facts.Ball, facts.Serial,
                    SerialLookAlikes.Fold(facts.Serial), facts.Play,
                    template.Outcome, i < 5 ? "us-national/2018-08-01" : "us-national/2020-08-01", facts.By, facts.At,
                    replaces ? Number(i, running - 1) : null, replaced ? Number(i, running + 1) : null);
                Set(model, template.Model, seq);
                foreach (var (id, outcome) in template.Rules)
                {
                    Set(rule, id, outcome, seq, facts.Event, facts.By, template.Outcome);
                }

                if (random.Next(Math.Max(1, inspections / 400)) == 0)
                {
                    Samples.Add(facts);
                }
            }
        }
    }

    private string _ballId = "";
    private string _serial = "";

    private (string Entry, string Id, string Serial, string Bowler) Ball(int eventIndex, int running, int first)
    {
        if (running == first)
        {
            (_ballId, _serial) = (Drawn(Base32, 16), Drawn(SerialLetters, 8));
        }

        var bowler = first % EntriesOfEvent;
        return ((101 + bowler).ToString(CultureInfo.InvariantCulture), _ballId, _serial, _bowlers[eventIndex][bowler]);
    }

    private static (long Seq, string Prior) Edge(SqliteConnection connection)
    {
        using var command = connection.CreateCommand();
        command.CommandText = "SELECT seq, lower(hex(leaf_hash)) FROM register_entry ORDER BY seq DESC LIMIT 1";
        using var reader = command.ExecuteReader();
        return reader.Read()
            ? (reader.GetInt64(0), reader.GetString(1))
            : throw new InvalidOperationException("Nothing was recorded to make templates of.");
    }

    private DateOnly FirstDay(int eventIndex) => Today.AddDays(-30 * (Events - 1 - eventIndex));

    private string Name() => $"{Part()} {Part()} {Part()}";

    private string Part() => Starts[random.Next(Starts.Length)] + Middles[random.Next(Middles.Length)] + Ends[random.Next(Ends.Length)];

    private string Drawn(string letters, int length) => string.Create(length, (letters, random), static (text, from) =>
    {
        for (var i = 0; i < text.Length; i++)
        {
            text[i] = from.letters[from.random.Next(from.letters.Length)];
        }
    });

    private static string Number(int eventIndex, int running) =>
        string.Create(CultureInfo.InvariantCulture, $"{EventName(eventIndex)}-{running:0000}");

    private static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    private static void Run(SqliteConnection connection, string sql)
    {
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        command.CommandTimeout = 3600;
        command.ExecuteNonQuery();
    }

    private static SqliteCommand Prepared(SqliteConnection connection, SqliteTransaction transaction, string sql, int values)
    {
        var command = connection.CreateCommand();
        command.Transaction = transaction;
        command.CommandText = sql;
        for (var i = 0; i < values; i++)
        {
            command.Parameters.Add(new SqliteParameter { ParameterName = $"${i}" });
        }

        return command;
    }

    private static void Set(SqliteCommand command, params ReadOnlySpan<object?> values)
    {
        for (var i = 0; i < values.Length; i++)
        {
            command.Parameters[i].Value = values[i] ?? DBNull.Value;
        }

        command.ExecuteNonQuery();
    }
}
