using System.Data.Common;
using System.Text;
using System.Text.Json.Nodes;
using Dapper;
using Inspect.Station.Access;
using Inspect.Station.Prepare;
using Inspect.Station.Record;
using Inspect.Station.Storage;

namespace Inspect.Station.Decide;

/// <summary>What is to be drawn.</summary>
/// <param name="OfBowlers">Whether bowlers are drawn; else balls.</param>
/// <param name="Squads">The squads drawn from; empty for everyone.</param>
/// <param name="Count">How many are drawn.</param>
public sealed record AskedDraw(bool OfBowlers, IReadOnlyList<string> Squads, int Count);

/// <summary>A pool that was fixed, and what was drawn from it.</summary>
/// <param name="Seq">The register's entry of the pool.</param>
/// <param name="Asked">What is drawn.</param>
/// <param name="Pool">The numbers drawn from: of slips, or of bowlers' entries.</param>
/// <param name="PoolSha256">The hash of the pool in the register.</param>
/// <param name="By">Who fixed it.</param>
/// <param name="At">When.</param>
/// <param name="Drawn">What was drawn; null while there is no seed.</param>
public sealed record LotDraw(
    long Seq, AskedDraw Asked, IReadOnlyList<string> Pool, string PoolSha256, PersonId By, DateTimeOffset At, Drawn? Drawn);

/// <summary>What a seed drew from a pool.</summary>
/// <param name="Seq">The register's entry.</param>
/// <param name="Seed">The seed.</param>
/// <param name="Numbers">What was drawn, in order.</param>
/// <param name="Witness">Who saw how the seed came about; null once struck.</param>
/// <param name="At">When.</param>
public sealed record Drawn(long Seq, string Seed, IReadOnlyList<string> Numbers, string? Witness, DateTimeOffset At);

/// <summary>Draws balls or bowlers for a spot check by lot. Every pool and every draw stays in the register, in order.</summary>
/// <remarks>
/// Whoever knows the seed could choose squads and count until somebody is not drawn, so these are fixed in the register before the seed is
/// typed, and a pool is drawn from once. A seed that nobody saw thrown could be chosen just so: its witness is named.
/// </remarks>
public sealed class Draws(Database database, WriteGate gate, Remarks remarks, TimeProvider time)
{
    /// <summary>The most that are drawn at once.</summary>
    public const int Most = 200;

    private const string PoolKind = "draw-pool";
    private const string Kind = "draw";

    /// <summary>The index of pools. Rebuilding it does not touch what is in them.</summary>
    public static readonly RegisterIndex Pools = new("pools of draws", PoolKind, ["draw_pool_index"], AddPool, RegisterIndex.HasRow);

    /// <summary>The index of draws.</summary>
    public static readonly RegisterIndex Index = new("draws", Kind, ["draw_index"], AddDraw, RegisterIndex.HasRow);

    // What may be used now, with whom it belongs to; an entry that was merged belongs to the one that stayed.
    private static readonly string Usable = $"""
        SELECT i.number, coalesce(k.entry, e.entry), coalesce(k.squad, e.squad)
        FROM inspection_index i
        JOIN entry e ON e.event = i.event AND e.entry = i.entry
        LEFT JOIN entry k ON k.event = e.event AND k.entry = e.merged_into
        WHERE i.event = @eventId AND i.superseded_by IS NULL AND coalesce(k.withdrawn, e.withdrawn) = 0
          AND coalesce({RulingIndex.Decided("i")}, CASE i.outcome WHEN 'pass' THEN 'accept' ELSE '' END) IN ('accept', 'allow')
        ORDER BY i.seq
        """;

    /// <summary>Fixes what is drawn from, once for each key.</summary>
    /// <returns>The pool's entry; or why there is none, in a sentence.</returns>
    public Task<(long? Seq, string? Refusal)> Fix(Event held, AskedDraw asked, SignedIn by, string key)
    {
        var (person, hash) = (by.Person.ToString(), Idempotency.HashOf(Encoding.UTF8.GetBytes(
            $"draw\n{held.Id}\n{asked.OfBowlers}\n{asked.Count}\n{string.Join('\n', asked.Squads)}")));
        return gate.Run<(long?, string?)>(write =>
        {
            switch (Idempotency.Find(write.Connection, write.Transaction, person, key, hash))
            {
                case (SeenBefore.SameRequest, { Entry: { } seq }):
                    return (seq, null);
                case (SeenBefore.AnotherRequest, _):
                    return (null, "This form was already used for another draw; open a new form.");
                default:
                    break;
            }

            var usable = UsableAt(write.Connection, held.Id, write.Transaction)
                .Where(ball => asked.Squads.Count == 0 || asked.Squads.Contains(ball.Squad));
            var pool = usable.Select(ball => asked.OfBowlers ? ball.Entry : ball.Number).Distinct().ToList();
            if (pool.Count < asked.Count)
            {
                var what = asked.OfBowlers ? "bowlers have a ball that" : "balls";
                return (null, $"Only {pool.Count} {what} may be used now; draw no more than that.");
            }

            var (at, text) = (time.GetUtcNow(), DrawByLot.Text(pool));
            var entry = Register.Append(write, PoolKind, 1, new JsonObject
            {
                ["event"] = held.Id,
                ["of"] = asked.OfBowlers ? "bowlers" : "balls",
                ["squads"] = Written(asked.Squads),
                ["count"] = asked.Count,
                ["size"] = pool.Count,
                ["pool"] = DrawByLot.Hash(text),
                ["by"] = Official(write, by.Person),
                ["at"] = UtcText.Of(at),
            });
            write.Connection.Execute(
                "INSERT INTO draw_pool (seq, numbers) VALUES (@Seq, @text)", new { entry.Seq, text }, write.Transaction);
            Idempotency.Keep(write, person, key, hash, new KeptAnswer(StatusCodes.Status201Created, null, entry.Seq), at);
            return (entry.Seq, null);
        });
    }

    /// <summary>Draws from a pool, once.</summary>
    /// <returns>Why not, in a sentence; null when it is drawn, now or before by the same seed.</returns>
    public Task<string?> Draw(string eventId, long seq, string seed, string witness, PersonId by) => gate.Run(write =>
    {
        if (Find(write.Connection, eventId, seq, write.Transaction) is not { } pool)
        {
            return "There is no such pool.";
        }

        if (pool.Drawn is { } drawn)
        {
            return drawn.Seed == seed ? null
                : $"This pool was already drawn from with the seed \"{drawn.Seed}\". Fix a pool anew for another draw; "
                    + "both stay in the register.";
        }

        Register.Append(write, Kind, 1, new JsonObject
        {
            ["event"] = eventId,
            ["pool"] = seq,
            ["seed"] = seed,
            ["drawn"] = Written(DrawByLot.Draw(seed, pool.Pool, pool.Asked.Count)),
            ["witness"] = Remarks.Seal(write, by, witness),
            ["by"] = Official(write, by),
            ["at"] = UtcText.Of(time.GetUtcNow()),
        });
        return null;
    });

    /// <summary>Every pool of an event with what was drawn from it, oldest first.</summary>
    public IReadOnlyList<LotDraw> Of(string eventId)
    {
        using var connection = database.OpenForReading();
        return [.. connection.Query<long>("SELECT seq FROM draw_pool_index WHERE event = @eventId ORDER BY seq", new { eventId }).AsList()
            .Select(seq => Find(connection, eventId, seq)!)];
    }

    /// <summary>One pool of an event with what was drawn from it; null when there is none.</summary>
    public LotDraw? Find(string eventId, long seq)
    {
        using var connection = database.OpenForReading();
        return Find(connection, eventId, seq);
    }

    /// <summary>The slips of what was drawn, by what was drawn, in that order.</summary>
    public IReadOnlyList<(string Number, IReadOnlyList<string> Slips)> Slips(string eventId, LotDraw draw)
    {
        if (draw.Drawn is not { } drawn)
        {
            return [];
        }

        if (!draw.Asked.OfBowlers)
        {
            return [.. drawn.Numbers.Select(number => (number, (IReadOnlyList<string>)[number]))];
        }

        using var connection = database.OpenForReading();
        var slips = UsableAt(connection, eventId).ToLookup(ball => ball.Entry, ball => ball.Number);
        return [.. drawn.Numbers.Select(entry => (entry, (IReadOnlyList<string>)[.. slips[entry]]))];
    }

    /// <summary>Those of some slips whose ball was compared after an entry of the register.</summary>
    public IReadOnlySet<string> Compared(IReadOnlyCollection<string> slips, long after)
    {
        const string Sql = """
            SELECT i.number FROM inspection_index i WHERE i.number IN @slips AND EXISTS (
              SELECT 1 FROM inspection_index x JOIN spot_check_index s ON s.number = x.number WHERE x.ball = i.ball AND s.seq > @after)
            """;
        using var connection = database.OpenForReading();
        return connection.Query<string>(Sql, new { slips, after }).ToHashSet(StringComparer.Ordinal);
    }

    private LotDraw? Find(DbConnection connection, string eventId, long seq, DbTransaction? transaction = null)
    {
        const string Sql = """
            SELECT p.numbers, d.seq
            FROM draw_pool_index i
            JOIN draw_pool p ON p.seq = i.seq
            LEFT JOIN draw_index d ON d.pool = i.seq
            WHERE i.seq = @seq AND i.event = @eventId
            """;
        var row = connection.QuerySingleOrDefault<(string Numbers, long? Drawn)>(Sql, new { seq, eventId }, transaction);
        if (row.Numbers is null)
        {
            return null;
        }

        var body = JsonNode.Parse(Register.BodyOf(connection, seq, transaction)!)!;
        return new LotDraw(
            seq,
            new AskedDraw(body["of"]!.GetValue<string>() == "bowlers", Texts(body["squads"]!), body["count"]!.GetValue<int>()),
            row.Numbers.Split('\n', StringSplitOptions.RemoveEmptyEntries),
            body["pool"]!.GetValue<string>(),
            PersonId.From(body["by"]!["person"]!.GetValue<string>()),
            UtcText.Parse(body["at"]!.GetValue<string>()),
            row.Drawn is { } drawn ? Read(drawn, JsonNode.Parse(Register.BodyOf(connection, drawn, transaction)!)!) : null);
    }

    private Drawn Read(long seq, JsonNode body) => new(
        seq, body["seed"]!.GetValue<string>(), Texts(body["drawn"]!),
        remarks.TextOf(PersonId.From(body["by"]!["person"]!.GetValue<string>()), body["witness"]!.GetValue<string>()),
        UtcText.Parse(body["at"]!.GetValue<string>()));

    private static List<(string Number, string Entry, string? Squad)> UsableAt(
        DbConnection connection, string eventId, DbTransaction? transaction = null) =>
        connection.Query<(string, string, string?)>(Usable, new { eventId }, transaction).AsList();

    private static JsonObject Official(WriteTransaction write, PersonId by) =>
        new() { ["person"] = by.ToString(), ["name"] = People.PseudonymOfName(write, by) };

    private static JsonArray Written(IEnumerable<string> texts) => [.. texts.Select(text => JsonValue.Create(text))];

    private static string[] Texts(JsonNode list) => [.. list.AsArray().Select(text => text!.GetValue<string>())];

    private static void AddPool(WriteTransaction write, RegisterEntry pool) => write.Connection.Execute(
        "INSERT INTO draw_pool_index (seq, event) VALUES (@Seq, @eventId)", new { pool.Seq, eventId = pool.Text("event") },
        write.Transaction);

    private static void AddDraw(WriteTransaction write, RegisterEntry draw) => write.Connection.Execute(
        "INSERT INTO draw_index (seq, pool) VALUES (@Seq, @pool)", new { draw.Seq, pool = draw.Body.GetProperty("pool").GetInt64() },
        write.Transaction);
}
