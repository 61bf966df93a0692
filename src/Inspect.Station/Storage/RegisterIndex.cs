using System.Text.Json.Nodes;
using Dapper;
using Inspect.Ledger;

namespace Inspect.Station.Storage;

/// <summary>An index of the register: rows by which entries are found, made from the entries alone, so that they can be made again at any time.</summary>
/// <param name="Name">What people call it.</param>
/// <param name="Kind">The kind of entry that it is made from.</param>
/// <param name="Tables">Its tables.</param>
/// <param name="Add">Adds the rows of one entry, in the turn at the gate in which the entry is appended.</param>
/// <remarks>A step that wants one registers it with its services; the register then keeps it up to date.</remarks>
public sealed record RegisterIndex(string Name, string Kind, IReadOnlyList<string> Tables, Action<WriteTransaction, RegisterEntry> Add)
{
    /// <summary>Empties indexes and makes them again from the register, in one pass over it.</summary>
    public static void Rebuild(WriteTransaction write, params IReadOnlyCollection<RegisterIndex> indexes)
    {
        // What one index says of another is right again at the end, and not before.
        write.Connection.Execute(EngineSql.ReferencesAtTheEnd, null, write.Transaction);
        foreach (var table in indexes.SelectMany(index => index.Tables))
        {
            write.Connection.Execute($"DELETE FROM {table}", null, write.Transaction);
        }

        var byKind = indexes.ToLookup(index => index.Kind);
        foreach (var (seq, kind, body) in Register.OfKinds(write, byKind.Select(group => group.Key)))
        {
            var entry = RegisterEntry.Read(seq, body);
            foreach (var index in byKind[kind])
            {
                index.Add(write, entry);
            }
        }
    }
}

/// <summary>An entry of the register, its body read.</summary>
/// <param name="Seq">Its number in the register, from 1.</param>
/// <param name="Body">Its members; whoever reads them leaves them as they are.</param>
public sealed record RegisterEntry(long Seq, JsonObject Body)
{
    /// <summary>The text at a path of member names.</summary>
    /// <exception cref="InvalidDataException">There is none.</exception>
    public string Text(params string[] path) =>
        TextOrNull(path) ?? throw new InvalidDataException($"Entry {Seq} of the register has no '{string.Join('.', path)}', by which it would be found.");

    /// <summary>The text at a path of member names, or null.</summary>
    public string? TextOrNull(params string[] path) => TextIn(Body, path);

    /// <summary>The text at a path within a part of a body, or null.</summary>
    public static string? TextIn(JsonNode? part, params string[] path)
    {
        foreach (var name in path)
        {
            part = (part as JsonObject)?[name];
        }

        return part is JsonValue value && value.TryGetValue<string>(out var text) ? text : null;
    }

    /// <summary>Reads a body as it is stored.</summary>
    /// <exception cref="InvalidDataException">It is not canonical JSON.</exception>
    internal static RegisterEntry Read(long seq, byte[] body) => CanonicalJson.TryParse(body, out var parsed) && parsed is JsonObject members
        ? new RegisterEntry(seq, members)
        : throw new InvalidDataException($"Entry {seq} of the register is not canonical JSON.");
}
