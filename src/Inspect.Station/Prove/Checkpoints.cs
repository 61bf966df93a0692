using System.Data.Common;
using Dapper;
using Inspect.Ledger;
using Inspect.Station.Access;
using Inspect.Station.Storage;

namespace Inspect.Station.Prove;

/// <summary>A kept checkpoint: a signed state of the register.</summary>
/// <param name="Size">How many entries it had.</param>
/// <param name="Note">The signed note.</param>
/// <param name="At">When it was signed.</param>
/// <param name="By">Who asked for it.</param>
public sealed record KeptCheckpoint(long Size, string Note, DateTimeOffset At, PersonId By);

/// <summary>A key that signs or has signed this register.</summary>
/// <param name="Number">From 1, one more with each change.</param>
/// <param name="Key">Its public half.</param>
/// <param name="Since">When it began to sign.</param>
public sealed record SigningKey(long Number, PublicKey Key, DateTimeOffset Since);

/// <summary>How an earlier state, printed on a slip or kept elsewhere, compares with the register now.</summary>
public enum Heard
{
    /// <summary>The register still begins with exactly these entries.</summary>
    Agrees,

    /// <summary>Its first entries have another root: an entry was altered since, or the paper is false.</summary>
    Differs,

    /// <summary>The register has fewer entries than that.</summary>
    IsLonger,
}

/// <summary>Signs states of the register, keeps them, and makes proofs from them.</summary>
public sealed class Checkpoints(Database database, WriteGate gate, StationKey key, TimeProvider time)
{
    /// <summary>Signs the register as it is now; the checkpoint is not kept.</summary>
    public string SignNow() => key.Sign(gate.Head);

    /// <summary>Signs the register as it is now and keeps the checkpoint. A state that was kept before is not signed again.</summary>
    public Task<KeptCheckpoint> Keep(PersonId by) => gate.Run(write =>
    {
        var size = write.Head.Size;
        if (Kept(write.Connection, size, write.Transaction) is { } before)
        {
            return before;
        }

        var kept = new KeptCheckpoint(size, key.Sign(write.Head), time.GetUtcNow(), by);
        write.Connection.Execute(
            "INSERT INTO kept_checkpoint (size, note, at, by_person) VALUES (@Size, @Note, @at, @by)",
            new { kept.Size, kept.Note, at = UtcText.Of(kept.At), by = by.ToString() },
            write.Transaction);
        return kept;
    });

    /// <summary>Every kept checkpoint, newest first.</summary>
    public IReadOnlyList<KeptCheckpoint> All()
    {
        using var connection = database.OpenForReading();
        return [.. connection.Query<CheckpointRow>($"{Columns} ORDER BY size DESC").Select(row => row.ToDomain())];
    }

    /// <summary>The kept checkpoint of a size, or null.</summary>
    public KeptCheckpoint? OfSize(long size)
    {
        using var connection = database.OpenForReading();
        return Kept(connection, size, null);
    }

    /// <summary>The bytes of an entry as recorded, or null.</summary>
    public byte[]? EntryOf(long seq)
    {
        using var connection = database.OpenForReading();
        return Register.BodyOf(connection, seq);
    }

    /// <summary>The proof that an entry is in the register as it is now; null when there is no such entry.</summary>
    /// <remarks>Reads every leaf hash once, like the start of the station: about a second at a million entries.</remarks>
    public EntryProof? Entry(long seq)
    {
        var head = gate.Head;
        if (seq < 1 || seq > head.Size)
        {
            return null;
        }

        using var connection = database.OpenForReading();
        return new EntryProof(
            seq - 1, Proofs.Inclusion(seq - 1, head.Size, (start, count) => Register.RootOf(connection, start, count)), key.Sign(head));
    }

    /// <summary>The proof that the register as it is now begins with its first <paramref name="size"/> entries as they were; null
    /// when it is shorter.</summary>
    public GrowthProof? Since(long size)
    {
        var head = gate.Head;
        if (size < 0 || size > head.Size)
        {
            return null;
        }

        using var connection = database.OpenForReading();
        return new GrowthProof(
            size, Proofs.Consistency(size, head.Size, (start, count) => Register.RootOf(connection, start, count)), key.Sign(head));
    }

    /// <summary>Compares what a slip says about the register with the register.</summary>
    /// <param name="size">The number of entries printed on it.</param>
    /// <param name="rootBeginning">The first digits of the root printed on it, lower case.</param>
    public Heard Hear(long size, string rootBeginning)
    {
        if (size > gate.Head.Size)
        {
            return Heard.IsLonger;
        }

        using var connection = database.OpenForReading();
        return Register.RootOf(connection, 0, size).ToString().StartsWith(rootBeginning, StringComparison.Ordinal) ? Heard.Agrees
            : Heard.Differs;
    }

    /// <summary>Every key that has signed here, oldest first.</summary>
    public IReadOnlyList<SigningKey> Keys()
    {
        using var connection = database.OpenForReading();
        return [.. connection.Query<KeyRow>("SELECT number AS Number, public_key AS PublicKey, "
            + "since AS Since FROM station_key ORDER BY number").Select(row => row.ToDomain())];
    }

    /// <summary>Compares the root of an earlier state with the register.</summary>
    public Heard Hear(Checkpoint earlier) => Hear(earlier.Size, earlier.Root.ToString());

    private const string Columns = "SELECT size AS Size, note AS Note, at AS At, by_person AS ByPerson FROM kept_checkpoint";

    private static KeptCheckpoint? Kept(DbConnection connection, long size, DbTransaction? transaction) =>
        connection.QuerySingleOrDefault<CheckpointRow>($"{Columns} WHERE size = @size", new { size }, transaction)?.ToDomain();

    private sealed record KeyRow(long Number, string PublicKey, string Since)
    {
        public SigningKey ToDomain() => new(
            Number,
            Inspect.Ledger.PublicKey.TryParse(PublicKey, out var key) ? key
                : throw new InvalidDataException($"Table station_key holds '{PublicKey}', which is not a key."),
            UtcText.Parse(Since));
    }

    private sealed record CheckpointRow(long Size, string Note, string At, string ByPerson)
    {
        public KeptCheckpoint ToDomain() => new(Size, Note, UtcText.Parse(At), PersonId.From(ByPerson));
    }
}
