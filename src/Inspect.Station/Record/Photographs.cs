using System.Security.Cryptography;
using System.Text.Json.Nodes;
using Dapper;
using Inspect.Station.Access;
using Inspect.Station.Storage;

namespace Inspect.Station.Record;

/// <summary>A photograph of a ball in the register.</summary>
/// <param name="Seq">Its entry in the register.</param>
/// <param name="MediaType">The media type, from its first bytes.</param>
/// <param name="Sha256">The hash of its bytes.</param>
/// <param name="At">When it was added.</param>
/// <param name="By">Who added it.</param>
/// <param name="IsStruck">Whether the bytes are gone; the register keeps the hash.</param>
public sealed record Photograph(long Seq, string MediaType, string Sha256, DateTimeOffset At, PersonId By, bool IsStruck);

/// <summary>Photographs of balls. The register has only their hashes, so the bytes can be struck.</summary>
public sealed class Photographs(Database database, WriteGate gate, TimeProvider time)
{
    /// <summary>The kind of entry.</summary>
    public const string Kind = "photograph";

    /// <summary>The index of photographs. Rebuilding it does not touch the bytes.</summary>
    public static readonly RegisterIndex Index = new("photographs", Kind, ["photograph_index"], AddRow);

    /// <summary>The most bytes of a photograph. Pictures of a tablet's camera are smaller.</summary>
    public const int MostBytes = 8 * 1024 * 1024;

    /// <summary>How many an inspection may have.</summary>
    public const int Most = 6;

    internal static readonly byte[] Png = [0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A];

    /// <summary>The media type of a file by its first bytes: JPEG, PNG (ISO/IEC 15948) or WebP (RFC 9649);
    /// null for anything else.</summary>
    public static string? MediaTypeOf(ReadOnlySpan<byte> bytes) =>
        bytes.Length > 3 && bytes[0] == 0xFF && bytes[1] == 0xD8 && bytes[2] == 0xFF ? "image/jpeg"
        : bytes.StartsWith(Png) ? "image/png"
        : bytes.Length > 12 && bytes.StartsWith("RIFF"u8) && bytes[8..].StartsWith("WEBP"u8) ? "image/webp"
        : null;

    /// <summary>The usual name of a media type.</summary>
    public static string WordOf(string mediaType) => mediaType switch { "image/jpeg" => "JPEG", "image/png" => "PNG", _ => "WebP" };

    /// <summary>A picture without the data that a camera or a program added; null when it is incomplete or damaged.</summary>
    public static byte[]? Bare(ReadOnlySpan<byte> bytes, string mediaType) => mediaType switch
    {
        "image/jpeg" => JpegMetadata.Without(bytes),
        "image/png" => PngMetadata.Without(bytes),
        "image/webp" => WebpMetadata.Without(bytes),
        _ => throw new ArgumentOutOfRangeException(nameof(mediaType), mediaType, null),
    };

    /// <summary>The photographs of an inspection, oldest first.</summary>
    public IReadOnlyList<Photograph> Of(string inspection)
    {
        const string Sql = """
            SELECT i.seq AS Seq, i.media_type AS MediaType, i.sha256 AS Sha256, i.at AS At, i.by_person AS By, p.seq AS Kept
            FROM photograph_index i LEFT JOIN photograph p ON p.seq = i.seq WHERE i.inspection = @inspection ORDER BY i.seq
            """;
        using var connection = database.OpenForReading();
        return [.. connection.Query<PhotographRow>(Sql, new { inspection })
            .Select(row => new Photograph(
                row.Seq, row.MediaType, row.Sha256, UtcText.Parse(row.At), PersonId.From(row.By), IsStruck: row.Kept is null))];
    }

    /// <summary>The bytes of a photograph of an inspection, or null when there is none or it was struck.</summary>
    public (byte[] Bytes, string MediaType)? Find(string inspection, long seq)
    {
        const string Sql = """
            SELECT p.body AS Body, i.media_type AS MediaType FROM photograph p JOIN photograph_index i ON i.seq = p.seq
            WHERE i.inspection = @inspection AND p.seq = @seq
            """;
        using var connection = database.OpenForReading();
        return connection.QuerySingleOrDefault<BytesRow>(Sql, new { inspection, seq }) is { } row ? (row.Body, row.MediaType) : null;
    }

    /// <summary>Adds a photograph. The same bytes are added only once. Returns whether there was room for it.</summary>
    public Task<bool> Add(Inspection inspection, PersonId by, byte[] bytes, string mediaType)
    {
        var number = inspection.Number.ToString();
        var sha256 = Convert.ToHexStringLower(SHA256.HashData(bytes));
        return gate.Run(write =>
        {
            var known = write.Connection.Query<string>(
                "SELECT sha256 FROM photograph_index WHERE inspection = @number", new { number }, write.Transaction).AsList();
            if (known.Contains(sha256) || known.Count >= Most)
            {
                return known.Contains(sha256);
            }

            var entry = Register.Append(write, Kind, 1, new JsonObject
            {
                ["at"] = UtcText.Of(time.GetUtcNow()),
                ["event"] = inspection.Event,
                ["inspection"] = number,
                ["by"] = new JsonObject { ["person"] = by.ToString(), ["name"] = People.PseudonymOfName(write, by) },
                ["sha256"] = sha256,
                ["mediaType"] = mediaType,
            });
            write.Connection.Execute("INSERT INTO photograph (seq, body) VALUES (@Seq, @bytes)", new { entry.Seq, bytes },
                write.Transaction);
            return true;
        });
    }

    /// <summary>Strikes a photograph: deletes its bytes and keeps its hash in the register.</summary>
    public Task<int> Strike(string inspection, long seq) => gate.Run(write => write.Connection.Execute(
        "DELETE FROM photograph WHERE seq = (SELECT seq FROM photograph_index WHERE seq = @seq AND inspection = @inspection)",
        new { seq, inspection }, write.Transaction));

    private static void AddRow(WriteTransaction write, RegisterEntry photograph) => write.Connection.Execute(
        "INSERT INTO photograph_index (seq, inspection, sha256, media_type, by_person, at) VALUES (@Seq, @inspection, @sha256, "
        + "@mediaType, @by, @at)",
        new
        {
            photograph.Seq,
            inspection = photograph.Text("inspection"),
            sha256 = photograph.Text("sha256"),
            mediaType = photograph.Text("mediaType"),
            by = photograph.Text("by", "person"),
            at = photograph.Text("at"),
        },
        write.Transaction);

    private sealed record BytesRow(byte[] Body, string MediaType);

    private sealed record PhotographRow(long Seq, string MediaType, string Sha256, string At, string By, long? Kept);
}
