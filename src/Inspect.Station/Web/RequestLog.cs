using System.Diagnostics;
using System.Security.Cryptography;
using Microsoft.AspNetCore.Diagnostics;

namespace Inspect.Station.Web;

/// <summary>Gives each request a short id, and logs those that were refused, failed or took long.</summary>
/// <remarks>A line has the pattern of the route and never the address: an address can contain the code of a slip or the
/// name in a search.</remarks>
public sealed partial class RequestLog
{
    private const string Letters = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";
    private static readonly TimeSpan Slow = TimeSpan.FromSeconds(2);
    private static readonly Func<ILogger, string, IDisposable?> Scope = LoggerMessage.DefineScope<string>("request {RequestId}");

    // Route values that may be logged with a failure, so that it can be reproduced: names of events and editions, numbers of inspections.
    private static readonly string[] Named = ["event", "number", "seq", "size", "authority", "date"];

    /// <summary>Where lines about requests are written.</summary>
    public static ILogger Of(HttpContext http) => http.RequestServices.GetRequiredService<ILogger<RequestLog>>();

    /// <summary>Must be outermost, so that every line of a request has its id.</summary>
    public static void Use(WebApplication app)
    {
        var log = app.Services.GetRequiredService<ILogger<RequestLog>>();
        app.Use(async (http, next) =>
        {
            http.TraceIdentifier = RandomNumberGenerator.GetString(Letters, 8);
            using var scope = Scope(log, http.TraceIdentifier);
            var began = Stopwatch.GetTimestamp();
            try
            {
                await next(http);
            }
            catch (Exception error) when (!http.RequestAborted.IsCancellationRequested)
            {
                BrokeOff(log, http.Request.Method, RouteOf(http), error);
                throw;
            }

            // Whoever asked has left, as with each key at the table: nothing was answered, and nothing is wrong.
            if (http.RequestAborted.IsCancellationRequested)
            {
                return;
            }

            var took = Stopwatch.GetElapsedTime(began);
            if (http.Response.StatusCode >= StatusCodes.Status400BadRequest)
            {
                Refused(log, http.Request.Method, RouteOf(http), http.Response.StatusCode, took.TotalMilliseconds);
            }
            else if (took > Slow)
            {
                TookLong(log, http.Request.Method, RouteOf(http), took.TotalMilliseconds);
            }
        });
    }

    /// <summary>Logs an error that nobody handled.</summary>
    public static void Fail(HttpContext http, Exception? error)
    {
        var values = http.Features.Get<IExceptionHandlerFeature>()?.RouteValues ?? [];
        var named = Named.Where(values.ContainsKey).Select(name => (Name: name, Value: values[name]?.ToString() ?? ""))
            .Where(value => value.Value.Length <= 40 && value.Value.All(letter => char.IsAsciiLetterOrDigit(letter) || letter == '-'))
            .Select(value => $" {value.Name}={value.Value}");
        Failed(Of(http), http.Request.Method, RouteOf(http), string.Concat(named), error);
    }

    /// <summary>Logs a form that is not from a page of this station, or is too old.</summary>
    [LoggerMessage(Level = LogLevel.Warning, Message = "A form was refused: it has no valid token of this station")]
    public static partial void NoToken(ILogger log);

    // The exception handler removes the endpoint and keeps it in its feature.
    private static string RouteOf(HttpContext http) =>
        ((http.GetEndpoint() ?? http.Features.Get<IExceptionHandlerFeature>()?.Endpoint) as RouteEndpoint)?.RoutePattern.RawText
            ?? "(no such address)";

    [LoggerMessage(Level = LogLevel.Information, Message = "{Method} {Route} was answered {Status} after {Milliseconds:0} ms")]
    private static partial void Refused(ILogger log, string method, string route, int status, double milliseconds);

    [LoggerMessage(Level = LogLevel.Warning, Message = "{Method} {Route} took {Milliseconds:0} ms")]
    private static partial void TookLong(ILogger log, string method, string route, double milliseconds);

    [LoggerMessage(Level = LogLevel.Error, Message = "{Method} {Route}{Values} failed")]
    private static partial void Failed(ILogger log, string method, string route, string values, Exception? error);

    [LoggerMessage(Level = LogLevel.Error, Message = "{Method} {Route} stopped in the middle of its answer")]
    private static partial void BrokeOff(ILogger log, string method, string route, Exception error);
}
