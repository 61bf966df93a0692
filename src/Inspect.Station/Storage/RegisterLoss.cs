using System.Data.Common;
using System.Text.Json.Nodes;
using Dapper;
using Inspect.Ledger;

namespace Inspect.Station.Storage;

/// <summary>What a store lacks against its witness and its kept checkpoints. A register with a loss does not go on until the person who
/// starts the station accepts it; the acceptance is an entry.</summary>
/// <param name="What">What is missing, in a sentence without its full stop.</param>
/// <param name="Claimed">How many entries the register should have had at least; 0 where nobody knows.</param>
/// <param name="Root">The root over them; null where nobody knows.</param>
/// <param name="Gap">How many numbers of each event are left out, because they may be printed on slips.</param>
public sealed record RegisterLoss(string What, long Claimed, TreeHash? Root, long Gap)
{
    /// <summary>The kind of entry.</summary>
    public const string Kind = "loss";

    /// <summary>The index.</summary>
    public static readonly RegisterIndex Index = new("accepted losses", Kind, ["loss_index"], Add, RegisterIndex.HasRow);

    /// <summary>How many numbers are left out where nobody knows how many were given: more than any event records between two
    /// backups.</summary>
    internal const long GapOfUnknown = 100_000;

    /// <summary>What the person who starts the station can do.</summary>
    internal const string WhatToDo = "put back the newest copy of \"inspect.db\" (see deploy/README.md), or start once with --accept-loss; "
        + "the loss then stands in the register, and numbers that may be on slips are not given again.";

    /// <summary>Compares a store with its witness and its kept checkpoints; null when nothing is missing.</summary>
    /// <param name="connection">The store.</param>
    /// <param name="head">Its register.</param>
    /// <param name="roots">The roots at the sizes of <see cref="Sizes"/>.</param>
    /// <param name="witness">The witness.</param>
    internal static RegisterLoss? Find(
        DbConnection connection, RegisterHead head, IReadOnlyDictionary<long, TreeHash> roots, StoreWitness witness)
    {
        if (witness.IsStoreMissing)
        {
            var (claimed, gap) = witness.Last is { } said ? (said.Size, said.Size + said.Gap) : (0, GapOfUnknown);
            return new RegisterLoss("The store, inspect.db, is missing", claimed, witness.Last?.Root, gap);
        }

        if (witness.Last is null && HasBegun(connection))
        {
            return new RegisterLoss(
                $"The witness of the store, {StoreWitness.FileName}, {(witness.Exists ? "cannot be read" : "is missing")}, "
                    + "so nobody can say whether the store is whole", 0, null, GapOfUnknown);
        }

        if (witness.Last is { } last)
        {
            var isOurs = last.Key.Length == 0 || Keys(connection).Exists(key => key.Fingerprint == last.Key);
            var gap = Math.Max(0, last.Size + last.Gap - (isOurs ? head.Size + GapOf(connection) : 0));
            if (!isOurs)
            {
                return new RegisterLoss(
                    $"The store is not the one of its witness, which knows a register of {last.Size} entries under another key", last.Size,
                    last.Root, gap);
            }

            if (last.Size > head.Size)
            {
                return new RegisterLoss(Missing("witness", head.Size, last.Size), last.Size, last.Root, gap);
            }

            if (roots[last.Size] != last.Root)
            {
                return new RegisterLoss(Differs("witness", last.Size), last.Size, last.Root, last.Size + last.Gap);
            }
        }

        return FindByCheckpoints(connection, head, roots);
    }

    /// <summary>The sizes at which the roots are needed.</summary>
    internal static IReadOnlySet<long> Sizes(DbConnection connection, StoreWitness? witness) =>
        Checkpoints(connection).Select(kept => kept.Size).Append(witness?.Last?.Size ?? 0).ToHashSet();

    /// <summary>Why a register that lacks something does not go on.</summary>
    internal CannotStartException Refusal(string folder) => new($"{What} (in \"{folder}\"): {WhatToDo}");

    /// <summary>Appends the acceptance.</summary>
    internal void Accept(WriteTransaction write, DateTimeOffset at)
    {
        var body = new JsonObject { ["what"] = What, ["gap"] = Gap, ["size"] = Claimed, ["at"] = UtcText.Of(at) };
        if (Root is { } root)
        {
            body["root"] = root.ToString();
        }

        Register.Append(write, Kind, 1, body);
    }

    /// <summary>How many numbers of each event all accepted losses leave out.</summary>
    internal static long GapOf(DbConnection connection) => connection.ExecuteScalar<long>("SELECT coalesce(sum(gap), 0) FROM loss_index");

    /// <summary>How many numbers of an event are left out by the losses after one entry and up to another.</summary>
    public static long GapBetween(WriteTransaction write, long after, long upTo) => write.Connection.ExecuteScalar<long>(
        "SELECT coalesce(sum(gap), 0) FROM loss_index WHERE seq > @after AND seq <= @upTo", new { after, upTo }, write.Transaction);

    /// <summary>Every accepted loss, oldest first: what and when.</summary>
    public static IReadOnlyList<(string What, DateTimeOffset At)> Accepted(DbConnection connection) =>
        [.. connection.Query<(string What, string At)>("SELECT what, at FROM loss_index ORDER BY seq")
            .Select(row => (row.What, UtcText.Parse(row.At)))];

    /// <summary>Notes in the store that the witness was begun: from then on it does not start without it.</summary>
    internal static int Begin(WriteTransaction write, DateTimeOffset at) => write.Connection.Execute(
        "INSERT INTO witness_begun (id, at) VALUES (1, @at) ON CONFLICT DO NOTHING", new { at = UtcText.Of(at) }, write.Transaction);

    private static bool HasBegun(DbConnection connection) => connection.ExecuteScalar<long>("SELECT count(*) FROM witness_begun") > 0;

    private static RegisterLoss? FindByCheckpoints(DbConnection connection, RegisterHead head, IReadOnlyDictionary<long, TreeHash> roots)
    {
        foreach (var kept in CheckpointsToHold(connection))
        {
            if (kept.Size > head.Size)
            {
                return new RegisterLoss(Missing("kept checkpoint", head.Size, kept.Size), kept.Size, kept.Root, kept.Size - head.Size);
            }

            if (roots[kept.Size] != kept.Root)
            {
                return new RegisterLoss(Differs("kept checkpoint", kept.Size), kept.Size, kept.Root, kept.Size);
            }
        }

        return null;
    }

    /// <summary>The kept checkpoints that the register must agree with: all but those that a loss covers, which were accepted with
    /// it.</summary>
    internal static IReadOnlyList<Checkpoint> CheckpointsToHold(DbConnection connection)
    {
        var covered = connection.ExecuteScalar<long>(
            "SELECT coalesce(max(CASE WHEN seq > claimed THEN seq ELSE claimed END), 0) FROM loss_index");
        return Checkpoints(connection).FindAll(kept => kept.Size > covered);
    }

    private static List<Checkpoint> Checkpoints(DbConnection connection) =>
        [.. connection.Query<string>("SELECT note FROM kept_checkpoint ORDER BY size DESC")
            .Select(note => Checkpoint.TryParse(note, out var kept, out _) ? kept : null).OfType<Checkpoint>()];

    private static List<PublicKey> Keys(DbConnection connection) =>
        [.. connection.Query<string>("SELECT public_key FROM station_key")
            .Select(text => PublicKey.TryParse(text, out var key) ? key : null).OfType<PublicKey>()];

    private static string Missing(string who, long size, long claimed) => FormattableString.Invariant(
        $"The register has {size} entries, and its {who} knows {claimed}: entries {size + 1} to {claimed} are missing");

    private static string Differs(string who, long size) => FormattableString.Invariant(
        $"The first {size} entries of the register are not those that its {who} knows: an entry was altered, or this is another store");

    private static void Add(WriteTransaction write, RegisterEntry loss) => write.Connection.Execute(
        "INSERT INTO loss_index (seq, claimed, gap, what, at) VALUES (@Seq, @claimed, @gap, @what, @at)",
        new
        {
            loss.Seq,
            claimed = loss.Body.GetProperty("size").GetInt64(),
            gap = loss.Body.GetProperty("gap").GetInt64(),
            what = loss.Text("what"),
            at = loss.Text("at"),
        },
        write.Transaction);
}
