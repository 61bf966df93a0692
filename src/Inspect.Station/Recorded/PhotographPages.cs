using System.Globalization;
using System.Security.Claims;
using Inspect.Station.Access;
using Inspect.Station.Record;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;

namespace Inspect.Station.Recorded;

/// <summary>The photographs of a recorded ball. People who are signed in add and see them; a director can strike them.</summary>
public static partial class PhotographPages
{
    // More than a photograph may have, so that one that is too large is told its size.
    private const int MostSent = 8 * Photographs.MostBytes;

    public static void MapPhotographPages(this IEndpointRouteBuilder app)
    {
        var pages = app.MapGroup("/inspections/{number}/photographs").RequireAuthorization(Policies.Inspector).ExcludeFromDescription();
        pages.MapPost("", Add).WithName("AddPhotograph").WithSummary("Adds a photograph of the ball")
            .WithMetadata(new RequestSizeLimitAttribute(MostSent));
        pages.MapGet("{seq:long}", Show).WithName("Photograph").WithSummary("One photograph");
        pages.MapPost("{seq:long}/strike", Strike).RequireAuthorization(Policies.Director).WithName("StrikePhotograph")
            .WithSummary("Strikes a photograph");
    }

    private static async Task<Results<RedirectHttpResult, RazorComponentResult<InspectionPage>, RazorComponentResult<ErrorPage>>> Add(
        string number, IFormCollection form, ClaimsPrincipal user, InspectionLookup lookup, Photographs photographs, InspectionView view,
        ILogger<Photographs> log)
    {
        if (!InspectionNumber.TryParse(number, out var parsed) || lookup.ByNumber(parsed) is not { } found)
        {
            return InspectionPages.NotFound(number);
        }

        var faults = new Faults();
        if (await Read(form.Files["photograph"], faults) is var (bytes, mediaType)
            && !await photographs.Add(found.Inspection, SignedIn.From(user).Person, bytes, mediaType))
        {
            faults.Add("photograph", $"{found.Inspection.Number} has {Photographs.Most} photographs, which is the limit.");
        }

        if (!faults.AreNone)
        {
            Refused(log, found.Inspection.Number.ToString(), form.Files["photograph"]?.Length ?? 0);
        }

        return faults.AreNone
            ? TypedResults.LocalRedirect($"/inspections/{found.Inspection.Number}#photographs")
            : view.Page(found, user, faults) is { } page ? page : InspectionPages.NotFound(number);
    }

    // The name of the file is not logged: it can contain a person's name.
    [LoggerMessage(Level = LogLevel.Information, Message = "A photograph of {Bytes} bytes was refused for {Number}")]
    private static partial void Refused(ILogger log, string number, long bytes);

    private static async Task<(byte[] Bytes, string MediaType)?> Read(IFormFile? file, Faults faults)
    {
        if (file is not { Length: > 0 })
        {
            faults.Add("photograph", "Choose a photograph, or take one with the camera.");
            return null;
        }

        if (file.Length > Photographs.MostBytes)
        {
            faults.Add("photograph", string.Create(CultureInfo.InvariantCulture,
                $"\"{file.FileName}\" has {Math.Ceiling(file.Length / 104857.6) / 10:0.0} MB, and at most "
                + $"{Photographs.MostBytes / 1048576} MB are taken. Take it with fewer pixels."));
            return null;
        }

        using var kept = new MemoryStream();
        await file.CopyToAsync(kept);
        var bytes = kept.ToArray();
        var mediaType = Photographs.MediaTypeOf(bytes);
        if (mediaType is null)
        {
            faults.Add("photograph", $"\"{file.FileName}\" is not a JPEG, PNG or WebP picture; save the photograph as one of these.");
            return null;
        }

        // Place and time of the photograph are private and are not kept.
        if (Photographs.Bare(bytes, mediaType) is { } bare)
        {
            return (bare, mediaType);
        }

        faults.Add("photograph", $"\"{file.FileName}\" is a {Photographs.WordOf(mediaType)} picture that is incomplete or damaged; "
            + "take the photograph again.");
        return null;
    }

    private static Results<FileContentHttpResult, RazorComponentResult<ErrorPage>> Show(
        string number, long seq, HttpResponse response, Photographs photographs)
    {
        if (!InspectionNumber.TryParse(number, out var parsed) || photographs.Find(parsed.ToString(), seq) is not var (bytes, mediaType))
        {
            return ErrorAnswers.Page(StatusCodes.Status404NotFound, "There is no such photograph; it may have been struck.");
        }

        // Only as a picture, and never cached, because it can be struck.
        response.Headers.CacheControl = "no-store";
        response.Headers.ContentDisposition = "inline";
        return TypedResults.File(bytes, mediaType);
    }

    private static async Task<Results<RedirectHttpResult, RazorComponentResult<ErrorPage>>> Strike(
        string number, long seq, IFormCollection form, Photographs photographs)
    {
        _ = form;
        if (!InspectionNumber.TryParse(number, out var parsed))
        {
            return InspectionPages.NotFound(number);
        }

        await photographs.Strike(parsed.ToString(), seq);
        return TypedResults.LocalRedirect($"/inspections/{parsed}#photographs");
    }
}
