using System.Data.Common;
using Dapper;
using Inspect.Station.Storage;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Inspect.Station.Web;

/// <summary>The answer that the station works.</summary>
/// <param name="Status">Always <c>ok</c>: anything else is a problem.</param>
/// <param name="CheckedAt">When the last test write to the store was made, UTC.</param>
public sealed record HealthAnswer(string Status, DateTimeOffset CheckedAt);

/// <summary>Whether the station could record a ball now. Tests it with a write to the store, at most once a second.</summary>
public sealed partial class Health(WriteGate gate, TimeProvider time, ILogger<Health> log)
{
    private static readonly TimeSpan GoodFor = TimeSpan.FromSeconds(1);
    private HealthAnswer? _last;

    /// <summary>The answer, or null when the store cannot be written.</summary>
    public async Task<HealthAnswer?> Check()
    {
        var now = time.GetUtcNow();
        if (_last is { } last && now - last.CheckedAt < GoodFor && now >= last.CheckedAt)
        {
            return last;
        }

        try
        {
            var at = UtcText.Of(now);
            await gate.Run(write => write.Connection.Execute(
                "INSERT INTO health (id, checked_at) VALUES (1, @at) ON CONFLICT (id) DO UPDATE SET checked_at = @at", new { at },
                write.Transaction));
            return _last = new HealthAnswer("ok", now);
        }
        catch (Exception e) when (e is DbException or IOException)
        {
            CannotWrite(e);
            return null;
        }
    }

    [LoggerMessage(Level = LogLevel.Error, Message = "The store cannot be written")]
    private partial void CannotWrite(Exception error);
}

/// <summary>The address for monitoring.</summary>
public static class HealthApi
{
    public static void MapHealth(this IEndpointRouteBuilder app) =>
        app.MapGet("/health", Get).WithName("Health").WithSummary("Whether the store can be written").WithTags("Station").MayRefuse(503);

    private static async Task<Results<Ok<HealthAnswer>, ProblemHttpResult>> Get(Health health) => await health.Check() is { } well
        ? TypedResults.Ok(well)
        : Problems.Refused(StatusCodes.Status503ServiceUnavailable, StatusWords.Sentence(StatusCodes.Status503ServiceUnavailable));
}
