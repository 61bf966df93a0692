using System.Data.Common;
using Dapper;
using Inspect.Station.Storage;

namespace Inspect.Station.Record;

/// <summary>The numbered seals and tags on balls, so that the desk can find a ball by its tag.</summary>
/// <remarks>The index is made from the register's entries alone: of an inspection's body it reads <c>event</c> and <c>tag</c>.</remarks>
public static class Tags
{
    /// <summary>The index.</summary>
    public static readonly RegisterIndex Index = new("tags", InspectionBody.Kind, ["tag_index"], Add);

    /// <summary>The most characters of a tag.</summary>
    public const int Longest = 20;

    // An inspection that was replaced, withdrawn or taken back no longer holds its tag.
    private static readonly string Standing = $"""
        FROM tag_index t JOIN inspection_index i ON i.seq = t.seq
        WHERE t.event = @eventId AND t.tag_key = @key AND i.superseded_by IS NULL
          AND {RulingIndex.Counts("i")}
        """;

    /// <summary>What is wrong with the text of a tag, in one sentence; null when nothing is.</summary>
    public static string? Unusable(string tag) =>
        tag.Length > Longest ? $"\"{tag}\" is {tag.Length} characters long; the limit is {Longest}."
        : KeyOf(tag).Length == 0 ? $"\"{tag}\" has no letter or digit; write the tag as it is printed, such as S-0042."
        : null;

    /// <summary>The sentence that another ball of the event has a tag, with its inspection; null when the tag is free.</summary>
    /// <param name="connection">The connection to read from.</param>
    /// <param name="transaction">The write transaction, or null.</param>
    /// <param name="eventId">The event.</param>
    /// <param name="tag">The tag as typed.</param>
    /// <param name="ball">The ball the tag is for; null for a ball not seen yet.</param>
    public static string? Taken(DbConnection connection, DbTransaction? transaction, string eventId, string tag, string? ball) =>
        connection.QueryFirstOrDefault<string>(
            $"SELECT i.number {Standing} AND i.ball IS DISTINCT FROM @ball ORDER BY i.seq", new { eventId, key = KeyOf(tag), ball },
            transaction) is { } holder
            ? $"Tag \"{tag}\" is on the ball of {holder}; give this ball another one, or look at both."
            : null;

    /// <summary>The entry whose ball has a tag, or null.</summary>
    public static string? EntryOf(DbConnection connection, string eventId, string tag) => KeyOf(tag) is { Length: > 0 } key
        ? connection.QueryFirstOrDefault<string>($"SELECT i.entry {Standing} ORDER BY i.seq DESC", new { eventId, key })
        : null;

    /// <summary>The number of the inspection whose ball has a tag, or null.</summary>
    public static string? NumberOf(DbConnection connection, string eventId, string tag) => KeyOf(tag) is { Length: > 0 } key
        ? connection.QueryFirstOrDefault<string>($"SELECT i.number {Standing} ORDER BY i.seq DESC", new { eventId, key })
        : null;

    /// <summary>The inspections of every ball that has or had a tag, in one event or in all.</summary>
    internal static List<long> SeqsOf(DbConnection connection, string tag, string? eventId, int most)
    {
        var sql = $"""
            SELECT t.seq FROM (SELECT event FROM event WHERE @eventId IS NULL OR event = @eventId) v
              {EngineSql.ThenJoin} tag_index t {EngineSql.By("tag_index_key")} ON t.event = v.event AND t.tag_key = @key
            LIMIT @most
            """;
        return connection.Query<long>(sql, new { key = KeyOf(tag), eventId, most }).AsList();
    }

    /// <summary>A tag in the form that is compared: capitals and digits, without spaces and hyphens.</summary>
    internal static string KeyOf(string tag) =>
        string.Concat(tag.ToUpperInvariant().Where(letter => !char.IsWhiteSpace(letter) && letter != '-'));

    private static void Add(WriteTransaction write, RegisterEntry entry)
    {
        if (entry.As(IndexedInspection.Of) is { Tag: { } tag, Event: var eventId })
        {
            write.Connection.Execute(
                "INSERT INTO tag_index (seq, event, tag, tag_key) VALUES (@Seq, @eventId, @tag, @key)",
                new { entry.Seq, eventId, tag, key = KeyOf(tag) },
                write.Transaction);
        }
    }
}
