using System.Security.Claims;
using Inspect.Ledger;
using Inspect.Station.Access;
using Inspect.Station.Prepare;
using Inspect.Station.Storage;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;

namespace Inspect.Station.Close;

/// <summary>The page on which a director takes the archive of an event, and the one on which anyone checks an archive.</summary>
public static class ArchivePages
{
    // The verb checks larger ones, and needs no upload.
    private const long MostBytes = 64L * 1024 * 1024;
    private const long MostUnpacked = 1024L * 1024 * 1024;

    // One at a time: each has to be unpacked and hashed.
    private static readonly SemaphoreSlim Checking = new(1);

    public static void MapArchivePages(this IEndpointRouteBuilder app)
    {
        var pages = app.MapGroup("/events/{event}/archive").RequireAuthorization(Policies.Director).ExcludeFromDescription();
        pages.MapGet("", Show).WithName("ArchivePage").WithSummary("What is in the archive of an event");
        pages.MapPost("", Take).WithName("TakeArchive").WithSummary("The archive of an event as one file");
        var anyone = app.MapGroup("/archive").RequireRateLimiting(RateLimits.Check).ExcludeFromDescription();
        anyone.MapGet("", ShowCheck).WithName("CheckArchivePage").WithSummary("The form to check the archive of an event");
        anyone.MapPost("", Check).WithName("CheckArchive").WithSummary("Checks the archive of an event")
            .WithMetadata(new RequestSizeLimitAttribute(MostBytes),
                new RequestFormLimitsAttribute { MultipartBodyLengthLimit = MostBytes });
    }

    private static Results<RazorComponentResult<ArchivePage>, RazorComponentResult<ErrorPage>> Show(
        string @event, Events events, EventChanges changes) =>
        events.Find(@event) is { } held
            ? new RazorComponentResult<ArchivePage>(new { Event = held, Taken = changes.ArchivesWithNames(held.Id) })
            : EventFormPages.NoEvent(@event);

    private static async Task<Results<FileStreamHttpResult, RazorComponentResult<ErrorPage>>> Take(
        string @event, IFormCollection form, ClaimsPrincipal user, Events events, EventArchives archives, WriteGate gate, TimeProvider time)
    {
        if (events.Find(@event) is not { } held)
        {
            return EventFormPages.NoEvent(@event);
        }

        var hasNames = form["names"] == "yes";
        if (hasNames)
        {
            var by = EventFormPages.By(user, time);
            await gate.Run(write => EventChanges.Keep(write, new Change(held.Id, null, EventChanges.NamesArchived, null, null), by));
        }

        var file = Temporary();
        await archives.Write(file, held, hasNames);
        file.Position = 0;
        return TypedResults.Stream(file, "application/zip", $"{held.Id}-archive{(hasNames ? "-with-names" : "")}.zip");
    }

    private static RazorComponentResult<CheckArchivePage> ShowCheck() => new(new { Faults = new Faults() });

    private static async Task<RazorComponentResult<CheckArchivePage>> Check(IFormCollection form, CancellationToken stop)
    {
        var faults = new Faults();
        PublicKey? trusted = null;
        if (form["key"].ToString().Trim() is { Length: > 0 } typed && !PublicKey.TryParse(typed, out trusted))
        {
            faults.Add("key", $"\"{(typed.Length > 60 ? typed[..60] + "…" : typed)}\" is not the public key of a station; it is one line, "
                + "as in key.txt.");
        }

        if (form.Files["archive"] is not { Length: > 0 } file)
        {
            faults.Add("archive", "Choose the archive of an event, a ZIP file.");
            return Page(faults);
        }

        if (!faults.AreNone)
        {
            return Page(faults);
        }

        await Checking.WaitAsync(stop);
        try
        {
            using var sent = file.OpenReadStream();
            return Page(faults, await Task.Run(() => ArchiveCheck.Check(sent, trusted, MostUnpacked), stop));
        }
        finally
        {
            Checking.Release();
        }
    }

    private static RazorComponentResult<CheckArchivePage> Page(Faults faults, ArchiveFinding? finding = null) =>
        new(new { Faults = faults, Finding = finding }) { StatusCode = EventFormPages.Status(faults) };

    // It is gone with the answer, and nobody else reads it.
    private static FileStream Temporary()
    {
        var options = new FileStreamOptions
        {
            Mode = FileMode.CreateNew,
            Access = FileAccess.ReadWrite,
            Options = FileOptions.DeleteOnClose | FileOptions.Asynchronous,
        };
        if (!OperatingSystem.IsWindows())
        {
            options.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
        }

        return new FileStream(Path.Combine(Path.GetTempPath(), Path.GetRandomFileName()), options);
    }
}
