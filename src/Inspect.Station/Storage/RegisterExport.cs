using Dapper;
using Inspect.Ledger;

namespace Inspect.Station.Storage;

/// <summary>Writes the register as lines: every entry's body byte for byte, in order, then the signed checkpoint.</summary>
/// <remarks>
/// <see cref="Inspect.Ledger.RegisterCheck"/> reads it. Entries are fetched a few hundred at a time, each time by a short query: memory use
/// stays constant, and a slow reader does not keep a transaction open. Nothing can change in between, because entries are only ever added.
/// It is the one place that hands out bodies unchecked: a damaged entry is exported as it stands, so that the check of the export finds it
/// and says where it is.
/// </remarks>
public static class RegisterExport
{
    private const int EntriesAtOnce = 256;

    private static readonly byte[] Newline = [(byte)'\n'];

    /// <summary>Writes the register as it is now, and returns its last line. Entries recorded meanwhile are in the next export.</summary>
    public static async Task<RegisterClosing> Write(
        Database database, WriteGate gate, StationKey key, Stream output, CancellationToken cancellation = default)
    {
        var head = gate.Head;
        for (long written = 0; written < head.Size;)
        {
            var bodies = Read(database, written, Math.Min(EntriesAtOnce, head.Size - written));
            foreach (var body in bodies)
            {
                await WriteLine(output, body, cancellation).ConfigureAwait(false);
            }

            written += bodies.Count;
        }

        var closing = key.Close(head);
        await WriteLine(output, closing.ToBytes(), cancellation).ConfigureAwait(false);
        return closing;
    }

    private static List<byte[]> Read(Database database, long after, long count)
    {
        using var connection = database.OpenForReading();
        var bodies = connection.Query<byte[]>(
            "SELECT body FROM register_entry WHERE seq > @after AND seq <= @last ORDER BY seq",
            new { after, last = after + count }).AsList();
        return bodies.Count == count
            ? bodies
            : throw new InvalidDataException($"The store returned {bodies.Count} of the {count} entries after entry {after}.");
    }

    private static async Task WriteLine(Stream output, byte[] line, CancellationToken cancellation)
    {
        await output.WriteAsync(line, cancellation).ConfigureAwait(false);
        await output.WriteAsync(Newline, cancellation).ConfigureAwait(false);
    }
}
