using System.Data.Common;
using Dapper;
using Inspect.Station.Storage;

namespace Inspect.Station.Record;

/// <summary>The numbered seals and tags that balls wear, so that the desk finds a ball by what hangs on it.</summary>
/// <remarks>The index is made from the register's entries alone: of an inspection's body it reads <c>event</c> and <c>tag</c>.</remarks>
public static class Tags
{
    /// <summary>The index itself.</summary>
    public static readonly RegisterIndex Index = new("tags", InspectionBody.Kind, ["tag_index"], Add);

    /// <summary>The most characters of a tag.</summary>
    public const int Longest = 20;

    // What was replaced, withdrawn or taken back no longer holds its tag.
    private static readonly string Standing = $"""
        FROM tag_index t JOIN inspection_index i ON i.seq = t.seq
        WHERE t.event = @eventId AND t.tag_key = @key AND i.superseded_by IS NULL
          AND {RulingIndex.Counts("i")}
        """;

    /// <summary>What is wrong with a tag as it is written, in one sentence; null when nothing is.</summary>
    public static string? Unusable(string tag) =>
        tag.Length > Longest ? $"\"{tag}\" is {tag.Length} characters long; at most {Longest} are kept."
        : KeyOf(tag).Length == 0 ? $"\"{tag}\" has no letter or digit; write the tag as it is printed, such as S-0042."
        : null;

    /// <summary>That another ball of the event wears a tag, in one sentence that names its inspection; null while the tag is free.</summary>
    /// <param name="connection">Where standing inspections are read.</param>
    /// <param name="transaction">The turn at the gate, when it is one.</param>
    /// <param name="eventId">The event.</param>
    /// <param name="tag">The tag as typed.</param>
    /// <param name="ball">The ball it is to be given to; null for a ball not seen yet.</param>
    public static string? Taken(DbConnection connection, DbTransaction? transaction, string eventId, string tag, string? ball) =>
        connection.QueryFirstOrDefault<string>(
            $"SELECT i.number {Standing} AND i.ball IS DISTINCT FROM @ball ORDER BY i.seq", new { eventId, key = KeyOf(tag), ball }, transaction) is { } holder
            ? $"Tag \"{tag}\" is on the ball of {holder}; give this ball another one, or look at both."
            : null;

    /// <summary>The entry whose ball wears a tag, or null.</summary>
    public static string? EntryOf(DbConnection connection, string eventId, string tag) => KeyOf(tag) is { Length: > 0 } key
        ? connection.QueryFirstOrDefault<string>($"SELECT i.entry {Standing} ORDER BY i.seq DESC", new { eventId, key })
        : null;

    /// <summary>The inspections of every ball that wears or wore a tag, in one event or in all.</summary>
    internal static List<long> SeqsOf(DbConnection connection, string tag, string? eventId, int most)
    {
        var sql = $"""
            SELECT t.seq FROM (SELECT event FROM event WHERE @eventId IS NULL OR event = @eventId) v
              {EngineSql.ThenJoin} tag_index t {EngineSql.By("tag_index_key")} ON t.event = v.event AND t.tag_key = @key
            LIMIT @most
            """;
        return connection.Query<long>(sql, new { key = KeyOf(tag), eventId, most }).AsList();
    }

    /// <summary>A tag as it is compared: capitals and digits, without spaces and hyphens.</summary>
    internal static string KeyOf(string tag) => string.Concat(tag.ToUpperInvariant().Where(letter => !char.IsWhiteSpace(letter) && letter != '-'));

    private static void Add(WriteTransaction write, RegisterEntry inspection)
    {
        if (inspection.TextOrNull("tag") is { } tag)
        {
            write.Connection.Execute(
                "INSERT INTO tag_index (seq, event, tag, tag_key) VALUES (@Seq, @eventId, @tag, @key)",
                new { inspection.Seq, eventId = inspection.Text("event"), tag, key = KeyOf(tag) },
                write.Transaction);
        }
    }
}
