using System.Text.Json;
using Dapper;
using Inspect.Station.Storage;

namespace Inspect.Station.Import;

/// <summary>What a person said of the columns of a list, for the next list with the same heads.</summary>
public sealed class RememberedHeads(Database database)
{
    /// <summary>What was said of a row of heads; null when nothing was.</summary>
    public IReadOnlyList<ImportColumn>? Of(TableRow heads)
    {
        using var connection = database.OpenForReading();
        var said = connection.ExecuteScalar<string?>(
            "SELECT columns FROM import_heads WHERE heads = @heads", new { heads = Matching.HashOf(heads) });
        return said is null ? null : [.. JsonSerializer.Deserialize<string[]>(said)!.Select(ImportColumns.Of)];
    }

    /// <summary>Remembers what was said, in place of what was said before.</summary>
    public static void Remember(WriteTransaction write, byte[] heads, IReadOnlyList<ImportColumn> columns) =>
        write.Connection.Execute(
            """
            INSERT INTO import_heads (heads, columns) VALUES (@heads, @columns)
            ON CONFLICT (heads) DO UPDATE SET columns = excluded.columns
            """,
            new { heads, columns = JsonSerializer.Serialize(columns.Select(column => column.Word())) },
            write.Transaction);
}
