using System.Data.Common;
using System.Security.Cryptography;
using System.Text.Json.Nodes;
using Dapper;
using Inspect.Ledger;

namespace Inspect.Station.Storage;

/// <summary>The key that signs the register. It is made at the first start and kept in the data folder. When it is changed, the old key
/// signs a statement for the new one.</summary>
/// <remarks>
/// The private half is in a file next to the store and not in it, so that a copy of the store cannot sign. The store has the public halves
/// and the statements that lead from one key to the next. Each change is an entry of the register.
/// </remarks>
public sealed class StationKey : IDisposable
{
    private const string FileName = "station-key.pem";
    private const string NextFileName = "station-key.next.pem";

    private readonly Lock _signing = new();
    private readonly SemaphoreSlim _rotating = new(1);
    private readonly string _folder;
    private readonly TimeProvider _clock;
    private readonly StoreWitness? _witness;
    private ECDsa _key;
    private PublicKey _public;
    private IReadOnlyList<string> _successions;

    private StationKey(
        string folder, TimeProvider clock, StoreWitness? witness, ECDsa key, PublicKey publicKey, IReadOnlyList<string> successions)
    {
        _folder = folder;
        _witness = witness;
        if (witness is not null)
        {
            witness.Key = publicKey.Fingerprint;
        }

        _clock = clock;
        _key = key;
        _public = publicKey;
        _successions = successions;
    }

    /// <summary>The public half of the key that signs now. Its name is the register's origin.</summary>
    public PublicKey Public
    {
        get
        {
            lock (_signing)
            {
                return _public;
            }
        }
    }

    /// <summary>The statements in which each key vouched for the next, in order; empty while the first key signs.</summary>
    public IReadOnlyList<string> Successions
    {
        get
        {
            lock (_signing)
            {
                return _successions;
            }
        }
    }

    /// <summary>Reads the key from the data folder, or makes the first one.</summary>
    /// <exception cref="CannotStartException">The file is missing, readable by others, damaged, or not the key in the store.</exception>
    public static async Task<StationKey> Open(string folder, WriteGate gate, TimeProvider clock, StoreWitness? witness = null)
    {
        var path = Path.Combine(folder, FileName);
        var rows = await gate.Run(transaction => ReadKeys(transaction.Connection)).ConfigureAwait(false);
        if (rows.Count == 0)
        {
            return await OpenFirst(path, gate, clock, witness).ConfigureAwait(false);
        }

        var known = Parse(rows[^1].PublicKey);

        // A key change was committed, but the new file was not yet moved into place: do that now.
        var next = Path.Combine(folder, NextFileName);
        if (File.Exists(next) && IsKey(next, known))
        {
            File.Move(next, path, overwrite: true);
        }

        if (!File.Exists(path))
        {
            throw new CannotStartException($"The signing key '{path}' is missing: restore it from the backup of the data folder.");
        }

        var key = StationKeyFile.Read(path);
        if (PublicKey.Of(key, known.Name) != known)
        {
            key.Dispose();
            throw new CannotStartException($"The signing key '{path}' is not the one this register is signed with ({known.Fingerprint}).");
        }

        return new StationKey(folder, clock, witness, key, known, [.. rows.Select(row => row.VouchedBy).OfType<string>()]);
    }

    /// <summary>Signs a checkpoint of a state of the register.</summary>
    public string Sign(RegisterHead head) => Close(head).Checkpoint;

    /// <summary>Signs a state of the register and returns the last line of its export.</summary>
    public RegisterClosing Close(RegisterHead head)
    {
        lock (_signing)
        {
            var checkpoint = new Checkpoint(_public.Name, head.Size, head.Edge.Root).Sign(_key);
            return new RegisterClosing(checkpoint, _public, head.Next.Prior, _successions);
        }
    }

    /// <summary>Signs a text that is not a checkpoint: its first line says what it is.</summary>
    public string SignText(string text)
    {
        lock (_signing)
        {
            return SignedNote.Sign(text, _public.Name, _key);
        }
    }

    /// <summary>Makes a new key that signs from now on. The old key vouches for it and is then deleted from this machine.</summary>
    /// <param name="gate">The write gate.</param>
    /// <param name="byPerson">The opaque id of the person who asked for it.</param>
    public async Task Rotate(WriteGate gate, string byPerson)
    {
        await _rotating.WaitAsync().ConfigureAwait(false);
        try
        {
            await MakeNext(gate, byPerson).ConfigureAwait(false);
        }
        finally
        {
            _rotating.Release();
        }
    }

    public void Dispose()
    {
        _key.Dispose();
        _rotating.Dispose();
    }

    private async Task MakeNext(WriteGate gate, string byPerson)
    {
        var path = Path.Combine(_folder, NextFileName);
        StationKeyFile.RequireReplaceable(Path.Combine(_folder, FileName));
        File.Delete(path);
        var next = StationKeyFile.Create(path);
        var nextPublic = PublicKey.Of(next, _public.Name);
        var statement = new KeySuccession(_public, nextPublic).Sign(_key);
        try
        {
            if (_witness is not null)
            {
                _witness.Key = nextPublic.Fingerprint;
            }

            await gate.Run(transaction => Record(transaction, nextPublic, statement, byPerson)).ConfigureAwait(false);
        }
        catch
        {
            if (_witness is not null)
            {
                _witness.Key = _public.Fingerprint;
            }

            next.Dispose();
            throw;
        }

        lock (_signing)
        {
            _key.Dispose();
            _key = next;
            _public = nextPublic;
            _successions = [.. _successions, statement];
        }

        // The change is recorded: where the file cannot take its place now, the next start moves it.
        try
        {
            File.Move(path, Path.Combine(_folder, FileName), overwrite: true);
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            // Both files stay.
        }
    }

    private static async Task<StationKey> OpenFirst(string path, WriteGate gate, TimeProvider clock, StoreWitness? witness)
    {
        // The file may exist already, from a first start that ended after the file and before the store was written.
        var key = File.Exists(path) ? StationKeyFile.Read(path) : StationKeyFile.Create(path);
        var first = PublicKey.Of(key, "inspect/" + RandomNumberGenerator.GetHexString(16, lowercase: true));
        await gate.Run(transaction => Insert(transaction, first, null, clock)).ConfigureAwait(false);
        return new StationKey(Path.GetDirectoryName(path)!, clock, witness, key, first, []);
    }

    private static List<KeyRow> ReadKeys(DbConnection connection) => connection
        .Query<KeyRow>("SELECT public_key AS PublicKey, vouched_by AS VouchedBy FROM station_key ORDER BY number")
        .AsList();

    private static PublicKey Parse(string text) =>
        PublicKey.TryParse(text, out var key) ? key
            : throw new InvalidDataException($"Table station_key holds '{text}', which is not a key.");

    private static bool IsKey(string path, PublicKey known)
    {
        using var key = StationKeyFile.Read(path);
        return PublicKey.Of(key, known.Name) == known;
    }

    private static long Insert(WriteTransaction transaction, PublicKey key, string? statement, TimeProvider clock) =>
        transaction.Connection.QuerySingle<long>(
            """
            INSERT INTO station_key (number, public_key, vouched_by, since)
            VALUES ((SELECT coalesce(max(number), 0) + 1 FROM station_key), @key, @statement, @since)
            RETURNING number
            """,
            new { key = key.Text, statement, since = UtcText.Of(clock.GetUtcNow()) },
            transaction.Transaction);

    private EntryPosition Record(WriteTransaction transaction, PublicKey next, string statement, string byPerson)
    {
        var number = Insert(transaction, next, statement, _clock);
        return Register.Append(transaction, "key", 1, new JsonObject
        {
            ["at"] = UtcText.Of(_clock.GetUtcNow()),
            ["by"] = byPerson,
            ["number"] = number,
            ["publicKey"] = next.Text,
            ["vouchedBy"] = statement,
        });
    }

    private sealed record KeyRow(string PublicKey, string? VouchedBy);
}
