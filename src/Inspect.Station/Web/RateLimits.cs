using System.Globalization;
using System.Threading.RateLimiting;
using Microsoft.AspNetCore.RateLimiting;

namespace Inspect.Station.Web;

/// <summary>How often one client address may send requests. Routes name a policy; the numbers are here.</summary>
public static partial class RateLimits
{
    /// <summary>Judging without recording: a form judges while somebody types, a program sends a file of sheets.</summary>
    public const string Judge = "judge";

    /// <summary>Planning holes: the page computes curves again while somebody drags a depth.</summary>
    public const string Plan = "plan";

    /// <summary>Looking up slips: all phones of a hall may have one address.</summary>
    public const string Scan = "scan";

    /// <summary>Checking a large file that anyone may send.</summary>
    public const string Check = "check";

    /// <summary>Trying to sign in or to set up.</summary>
    public const string SignIn = "sign-in";

    /// <summary>Adds every policy.</summary>
    public static void AddRateLimits(this IServiceCollection services) => services.AddRateLimiter(limiter =>
    {
        limiter.RejectionStatusCode = StatusCodes.Status429TooManyRequests;
        limiter.OnRejected = (context, _) =>
        {
            var wait = context.Lease.TryGetMetadata(MetadataName.RetryAfter, out var after) ? after : TimeSpan.FromSeconds(1);
            var policy = context.HttpContext.GetEndpoint()?.Metadata.GetMetadata<EnableRateLimitingAttribute>()?.PolicyName;
            TurnedAway(RequestLog.Of(context.HttpContext), ClientAddress(context.HttpContext), policy);
            context.HttpContext.Response.Headers.RetryAfter = Math.Ceiling(wait.TotalSeconds).ToString(CultureInfo.InvariantCulture);
            return ValueTask.CompletedTask;
        };
        limiter.AddBucket(Judge, burst: 1000, perSecond: 200);
        limiter.AddBucket(Plan, burst: 120, perSecond: 12);
        limiter.AddBucket(Scan, burst: 300, perSecond: 30);
        limiter.AddBucket(Check, burst: 10, perSecond: 1);
        limiter.AddBucket(SignIn, burst: 30, perSecond: 1);
    });

    [LoggerMessage(Level = LogLevel.Warning, Message = "{Address} sends more requests than the limit \"{Policy}\" allows")]
    private static partial void TurnedAway(ILogger log, string address, string? policy);

    private static void AddBucket(this RateLimiterOptions limiter, string policy, int burst, int perSecond) =>
        limiter.AddPolicy(policy,
            http => RateLimitPartition.GetTokenBucketLimiter(ClientAddress(http), _ => new TokenBucketRateLimiterOptions
            {
                TokenLimit = burst,
                TokensPerPeriod = perSecond,
                ReplenishmentPeriod = TimeSpan.FromSeconds(1),
                AutoReplenishment = true,
                QueueLimit = 0,
            }));

    /// <summary>The address that a limit counts: that of the connection.</summary>
    public static string ClientAddress(HttpContext http) => http.Connection.RemoteIpAddress?.ToString() ?? "this process";
}
