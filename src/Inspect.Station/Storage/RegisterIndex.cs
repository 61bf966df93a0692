using System.Data.Common;
using System.Text.Json;
using Dapper;
using Inspect.Ledger;

namespace Inspect.Station.Storage;

/// <summary>An index of the register: rows to find entries by. They are made from the entries alone, so they can be
/// rebuilt at any time.</summary>
/// <param name="Name">What people call it.</param>
/// <param name="Kind">The kind of entry that it indexes.</param>
/// <param name="Tables">Its tables.</param>
/// <param name="Add">Adds the rows of one entry, in the write transaction that appends the entry.</param>
/// <param name="Holds">Whether its rows of an entry say what the entry says; absent where nobody compares. The last of its tables then has
/// one row for each entry.</param>
/// <remarks>A step registers its indexes with its services; the register then keeps them up to date.</remarks>
public sealed record RegisterIndex(
    string Name, string Kind, IReadOnlyList<string> Tables, Action<WriteTransaction, RegisterEntry> Add,
    Func<RegisterIndex, DbConnection, RegisterEntry, bool>? Holds = null)
{
    /// <summary>Says whether an entry has its row, for an index that nothing else is compared of.</summary>
    internal static bool HasRow(RegisterIndex index, DbConnection connection, RegisterEntry entry) =>
        connection.ExecuteScalar<long>($"SELECT count(*) FROM {index.Tables[^1]} WHERE seq = @Seq", new { entry.Seq }) == 1;

    /// <summary>Empties indexes and rebuilds them from the register, in one pass over it.</summary>
    public static void Rebuild(WriteTransaction write, params IReadOnlyCollection<RegisterIndex> indexes)
    {
        // References from one index to another are complete only at the end.
        write.Connection.Execute(EngineSql.ReferencesAtTheEnd, null, write.Transaction);
        foreach (var table in indexes.SelectMany(index => index.Tables))
        {
            write.Connection.Execute($"DELETE FROM {table}", null, write.Transaction);
        }

        var byKind = indexes.ToLookup(index => index.Kind);
        foreach (var (seq, kind, body) in Register.OfKinds(write, byKind.Select(group => group.Key)))
        {
            using var entry = RegisterEntry.Read(seq, body);
            foreach (var index in byKind[kind])
            {
                try
                {
                    index.Add(write, entry);
                }
                catch (DbException error)
                {
                    throw new InvalidDataException($"Entry {seq} does not fit into the index of {index.Name} ({error.Message}): "
                        + "an entry before it has the same number or code.", error);
                }
            }
        }
    }
}

/// <summary>An entry of the register. Its body is parsed once somebody asks for a member, and kept until this is disposed.</summary>
public sealed class RegisterEntry : IDisposable
{
    private readonly byte[] _body;
    private JsonDocument? _parsed;
    private object? _indexed;

    private RegisterEntry(long seq, byte[] body, object? indexed) => (Seq, _body, _indexed) = (seq, body, indexed);

    /// <summary>Its number in the register, from 1.</summary>
    public long Seq { get; }

    /// <summary>Its members.</summary>
    public JsonElement Body => (_parsed ??= JsonDocument.Parse(_body)).RootElement;

    public void Dispose() => _parsed?.Dispose();

    /// <summary>What the indexes of its kind keep: given by the one who appended it, or read from it once for all of them.</summary>
    public T As<T>(Func<RegisterEntry, T> read)
        where T : class => (T)(_indexed ??= read(this));

    /// <summary>The text at a path of member names.</summary>
    /// <exception cref="InvalidDataException">There is no text at that path.</exception>
    public string Text(params ReadOnlySpan<string> path) =>
        TextOrNull(path) ?? throw new InvalidDataException($"Entry {Seq} of the register has no '{string.Join('.', path!)}', "
            + "which the index needs.");

    /// <summary>The text at a path of member names, or null.</summary>
    public string? TextOrNull(params ReadOnlySpan<string> path) => TextIn(Body, path);

    /// <summary>The text at a path within a part of a body, or null.</summary>
    public static string? TextIn(JsonElement part, params ReadOnlySpan<string> path) =>
        At(part, path) is { ValueKind: JsonValueKind.String } text ? text.GetString() : null;

    /// <summary>The items of a list at a path; none where there is no list.</summary>
    public IEnumerable<JsonElement> ListAt(params ReadOnlySpan<string> path) =>
        At(Body, path) is { ValueKind: JsonValueKind.Array } list ? list.EnumerateArray() : [];

    /// <summary>An entry of a body as it is stored.</summary>
    /// <exception cref="InvalidDataException">It is not canonical JSON.</exception>
    internal static RegisterEntry Read(long seq, byte[] body, object? indexed = null) => CanonicalJson.IsCanonical(body)
        ? new RegisterEntry(seq, body, indexed)
        : throw new InvalidDataException($"Entry {seq} of the register is not canonical JSON.");

    private static JsonElement At(JsonElement part, ReadOnlySpan<string> path)
    {
        foreach (var name in path)
        {
            if (part.ValueKind != JsonValueKind.Object || !part.TryGetProperty(name, out part))
            {
                return default;
            }
        }

        return part;
    }
}
