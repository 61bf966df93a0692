using System.Data.Common;
using System.Security.Cryptography;
using Dapper;

namespace Inspect.Station.Storage;

/// <summary>The answer to a request, saved in the transaction that carried the request out.</summary>
/// <param name="Status">The HTTP status of the answer.</param>
/// <param name="Body">The answer's bytes; null where they are made again from the entry.</param>
/// <param name="Entry">The entry of the register that the request recorded, where the answer is about one.</param>
public sealed record KeptAnswer(int Status, byte[]? Body, long? Entry = null);

/// <summary>Whether a request was seen before under its key.</summary>
public enum SeenBefore
{
    /// <summary>The key is new to this person.</summary>
    No,

    /// <summary>The same request was answered before: send the same answer again.</summary>
    SameRequest,

    /// <summary>The key was used for another request: refuse this one.</summary>
    AnotherRequest,
}

/// <summary>Makes sure that a request sent twice is carried out once, also after a restart.</summary>
/// <remarks>
/// Make both calls in the write transaction that does the work. If the work fails, the saved answer is rolled back with it, and the key
/// can be used again.
/// </remarks>
public static partial class Idempotency
{
    private const int LongestKey = 255;

    private const string Columns =
        "SELECT request_hash AS RequestHash, status AS Status, body AS Body, seq AS Entry FROM idempotency";

    /// <summary>What is wrong with the key of a request, or null.</summary>
    /// <param name="key">The header, or null where there was none.</param>
    /// <param name="what">What each key is for, such as <c>inspection</c>.</param>
    public static string? RefusalOf(string? key, string what) =>
        key is { Length: > 0 and <= LongestKey } && key.All(letter => letter is >= '!' and <= '~')
        ? null
        : $"This header is required: 1 to {LongestKey} plain characters, new for each {what} and the same when it is sent again.";

    /// <summary>The hash that a request is recognised by.</summary>
    public static byte[] HashOf(ReadOnlySpan<byte> request) => SHA256.HashData(request);

    /// <summary>Looks for an answer under this person's key.</summary>
    public static (SeenBefore Seen, KeptAnswer? Answer) Find(
        DbConnection connection, DbTransaction? transaction, string person, string key, byte[] requestHash)
    {
        var row = connection.QuerySingleOrDefault<AnswerRow>(
            $"{Columns} WHERE key = @key AND person = @person",
            new { person, key },
            transaction);
        return row switch
        {
            null => (SeenBefore.No, null),
            _ when row.RequestHash.AsSpan().SequenceEqual(requestHash) =>
                (SeenBefore.SameRequest, row.ToDomain()),
            _ => (SeenBefore.AnotherRequest, null),
        };
    }

    /// <summary>The answer under a key that several people may send; null while nobody's request was carried out.</summary>
    public static KeptAnswer? FindOfAnyone(DbConnection connection, DbTransaction? transaction, string key) =>
        connection.QueryFirstOrDefault<AnswerRow>($"{Columns} WHERE key = @key", new { key }, transaction)?.ToDomain();

    /// <summary>Saves the answer to a request that succeeded.</summary>
    public static void Keep(
        WriteTransaction transaction, string person, string key, byte[] requestHash, KeptAnswer answer, DateTimeOffset at) =>
        transaction.Connection.Execute(
            """
            INSERT INTO idempotency (person, key, request_hash, status, body, seq, at)
            VALUES (@person, @key, @requestHash, @Status, @Body, @Entry, @at)
            """,
            new { person, key, requestHash, answer.Status, answer.Body, answer.Entry, at = UtcText.Of(at) },
            transaction.Transaction);

    /// <summary>Logs that a key was sent again with another request.</summary>
    [LoggerMessage(Level = LogLevel.Warning, Message = "An Idempotency-Key was sent again with another {What}, which was refused")]
    public static partial void LogConflict(ILogger log, string what);

    private sealed record AnswerRow(byte[] RequestHash, long Status, byte[]? Body, long? Entry)
    {
        public KeptAnswer ToDomain() => new(checked((int)Status), Body, Entry);
    }
}
