using System.Data.Common;
using System.Globalization;
using System.Security.Cryptography;
using Dapper;
using Inspect.Station.Storage;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Inspect.Station.Web;

/// <summary>The answer that the station works.</summary>
/// <param name="Status">Always <c>ok</c>: anything else is a problem.</param>
/// <param name="CheckedAt">When the last test write to the store was made, UTC.</param>
/// <param name="Register">How far the check of every entry is, in a sentence.</param>
/// <param name="FreeBytes">How much room the disk of the store has.</param>
/// <param name="LogBytes">How long the store's log is.</param>
/// <param name="FailedCommits">How many commits have failed since the start.</param>
public sealed record HealthAnswer(
    string Status, DateTimeOffset CheckedAt, string Register, long FreeBytes, long LogBytes, long FailedCommits);

/// <summary>Whether the station could record a ball now. Tests it with a write to the store, at most every few seconds, whoever
/// asks.</summary>
public sealed partial class Health(WriteGate gate, Database database, StoreState state, TimeProvider time, ILogger<Health> log)
{
    // A recorded inspection has about this many bytes, and the probe should fail where it would.
    private const int SizeOfAnEntry = 16 * 1024;

    // Enough for some thousand inspections; below it the hall should hear of it before a ball is refused.
    private const long LeastFree = 64 * 1024 * 1024;

    // The log is emptied every few MB; this long, something keeps it from being emptied.
    private const long LongestLog = 1024 * 1024 * 1024;

    private static readonly TimeSpan GoodFor = TimeSpan.FromSeconds(4);
    private readonly Lock _lock = new();
    private Task<Checked>? _last;
    private long _begun;

    /// <summary>The answer, or what is wrong in a sentence or more. Those who ask within a few seconds share one.</summary>
    public Task<Checked> Check()
    {
        lock (_lock)
        {
            if (_last is null || time.GetElapsedTime(_begun) >= GoodFor)
            {
                (_begun, _last) = (time.GetTimestamp(), CheckNow());
            }

            return _last;
        }
    }

    private async Task<Checked> CheckNow()
    {
        var now = time.GetUtcNow();
        var faults = new List<string>(state.Faults);
        try
        {
            await gate.Run(write => TryRecording(write, UtcText.Of(now)), isRecording: true).ConfigureAwait(false);
        }
        catch (Exception error) when (error is DbException or IOException or UnauthorizedAccessException or StoreFaultException
            or CannotStartException or ObjectDisposedException)
        {
            CannotWrite(error);
            faults.Insert(0, Database.SentenceOf(error) ?? StatusWords.Sentence(StatusCodes.Status503ServiceUnavailable));
        }

        var (free, length) = (FreeBytes(), database.LogLength);
        if (free < LeastFree)
        {
            faults.Add(string.Create(CultureInfo.InvariantCulture,
                $"The disk that the store is on has only {free / 1024 / 1024} MB left: make room on it."));
        }

        if (length > LongestLog)
        {
            faults.Add(string.Create(CultureInfo.InvariantCulture,
                $"The log of the store has {length / 1024 / 1024} MB and is not emptied: restart the station."));
        }

        return new Checked(new HealthAnswer("ok", now, state.Check, free, length, gate.FailedCommits), faults);
    }

    // An entry as large as an inspection, taken back, and as many bytes in a row that is written over each time: only what is committed
    // shows whether the disk takes it.
    private static int TryRecording(WriteTransaction write, string at)
    {
        const string Savepoint = "health";
        var entry = RandomNumberGenerator.GetBytes(SizeOfAnEntry);
        var place = write.Head.Next;
        write.Transaction.Save(Savepoint);
        write.Connection.Execute(
            "INSERT INTO register_entry (seq, kind, version, leaf_hash, body) VALUES (@Seq, 'inspection', 1, @leaf, @entry)",
            new { place.Seq, leaf = place.Prior.ToArray(), entry }, write.Transaction);
        write.Transaction.Rollback(Savepoint);
        write.Transaction.Release(Savepoint);
        return write.Connection.Execute(
            "INSERT INTO health (id, checked_at, room) VALUES (1, @at, @entry) "
                + "ON CONFLICT (id) DO UPDATE SET checked_at = @at, room = @entry",
            new { at, entry }, write.Transaction);
    }

    private long FreeBytes()
    {
        try
        {
            return database.FreeSpace;
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            return 0;
        }
    }

    [LoggerMessage(Level = LogLevel.Error, Message = "The store cannot be written")]
    private partial void CannotWrite(Exception error);

    /// <summary>What a check found.</summary>
    /// <param name="Answer">The answer where nothing is wrong.</param>
    /// <param name="Faults">What is wrong.</param>
    public sealed record Checked(HealthAnswer Answer, IReadOnlyList<string> Faults);
}

/// <summary>The address for monitoring.</summary>
public static class HealthApi
{
    public static void MapHealth(this IEndpointRouteBuilder app) => app.MapGet("/health", Get).WithName("Health")
        .WithSummary("Whether a ball can be recorded and the register is whole").WithTags("Station").MayRefuse(503);

    // Anyone may ask, so the entries that are damaged are named and nothing else of them.
    private static async Task<Results<Ok<HealthAnswer>, ProblemHttpResult>> Get(Health health)
    {
        var found = await health.Check();
        return found.Faults.Count == 0
            ? TypedResults.Ok(found.Answer)
            : Problems.Refused(StatusCodes.Status503ServiceUnavailable, string.Join(' ', found.Faults.Take(3)));
    }
}
