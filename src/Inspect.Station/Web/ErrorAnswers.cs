using System.Text.Json;
using Inspect.Station.Storage;
using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Diagnostics;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Inspect.Station.Web;

/// <summary>Gives every refusal without a body a problem document for programs or a page for people.</summary>
public static class ErrorAnswers
{
    /// <summary>Whether a request comes from a program: it is answered with JSON, never with a page.</summary>
    public static bool IsForPrograms(this HttpRequest request) =>
        request.Path.StartsWithSegments("/api", StringComparison.OrdinalIgnoreCase)
        || request.Path.StartsWithSegments("/openapi", StringComparison.OrdinalIgnoreCase)
        || request.Path.StartsWithSegments("/health", StringComparison.OrdinalIgnoreCase);

    /// <summary>Adds the handlers for exceptions and for status codes without a body, and logs what they handle.</summary>
    public static void UseErrorAnswers(this WebApplication app)
    {
        RequestLog.Use(app);

        // The framework's own log lines would contain addresses. Failures are logged here instead, with the pattern of the route.
        app.UseExceptionHandler(
            new ExceptionHandlerOptions { ExceptionHandler = AnswerException, SuppressDiagnosticsCallback = _ => true });
        app.UseStatusCodePages(context => Answer(context.HttpContext, context.HttpContext.Response.StatusCode));
    }

    private static Task AnswerException(HttpContext http)
    {
        switch (http.Features.Get<IExceptionHandlerFeature>()?.Error)
        {
            case BadHttpRequestException { StatusCode: StatusCodes.Status400BadRequest } unreadable when http.Request.IsForPrograms():
                return Problems.Unreadable(unreadable.InnerException as JsonException).ExecuteAsync(http);
            case BadHttpRequestException refused:
                var token = http.Features.Get<IAntiforgeryValidationFeature>();
                if (token?.Error?.InnerException is BadHttpRequestException { StatusCode: StatusCodes.Status413PayloadTooLarge } large)
                {
                    return Answer(http, large.StatusCode);
                }

                if (token is { IsValid: false } && !http.RequestAborted.IsCancellationRequested)
                {
                    RequestLog.NoToken(RequestLog.Of(http));
                }

                return Answer(http, refused.StatusCode);
            case var error when Database.SentenceOf(error) is { } sentence:
                http.RequestServices.GetRequiredService<StoreState>().Meet(error!);
                RequestLog.Fail(http, error);
                return Answer(http, StatusCodes.Status503ServiceUnavailable, sentence);
            case var error:
                RequestLog.Fail(http, error);
                return Answer(http, StatusCodes.Status500InternalServerError);
        }
    }

    /// <summary>Answers a request with a status and one plain sentence, as a problem document or as a page.</summary>
    public static Task Answer(HttpContext http, int status, string? sentence = null) => http.Request.IsForPrograms()
        ? Problems.Refused(status, sentence ?? StatusWords.Sentence(status)).ExecuteAsync(http)
        : Page(status, sentence).ExecuteAsync(http);

    /// <summary>A page with one plain sentence.</summary>
    public static RazorComponentResult<ErrorPage> Page(int status, string? sentence = null) =>
        new(new { Status = status, Sentence = sentence ?? StatusWords.Sentence(status) }) { StatusCode = status };
}
