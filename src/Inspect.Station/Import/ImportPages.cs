using System.Security.Claims;
using System.Text;
using Inspect.Station.Access;
using Inspect.Station.Prepare;
using Inspect.Station.Storage;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;

namespace Inspect.Station.Import;

/// <summary>The pages on which a director enters bowlers from a file or a pasted list: choose it, see what it would do, do it.</summary>
public static partial class ImportPages
{
    // More than a file may have, so that one that is too large is told its size.
    private const int MostSent = 2 * ImportFile.MostBytes;

    private static readonly TimeSpan Soon = TimeSpan.FromSeconds(1);

    /// <summary>The form field of the file, which is also the place of its faults.</summary>
    public const string FileField = "file";

    /// <summary>The form field of the pasted list.</summary>
    public const string LinesField = "lines";

    public static void MapImportPages(this IEndpointRouteBuilder app)
    {
        var pages = app.MapGroup("/events/{event}/entries").RequireAuthorization(Policies.Director).ExcludeFromDescription();
        pages.MapGet("add", ShowStart).WithName("AddEntriesPage").WithSummary("The form that takes a list of entries");
        pages.MapPost("add", Take).WithName("TakeEntries").WithSummary("Takes a list of entries and shows what it would do")
            .WithMetadata(new RequestSizeLimitAttribute(MostSent))
            .WithFormOptions(valueLengthLimit: MostSent, multipartBodyLengthLimit: MostSent);
        pages.MapGet("add/{key}", Show).WithName("ImportPage").WithSummary("What a list of entries would do");
        pages.MapPost("add/{key}/columns", Match).WithName("MatchColumns").WithSummary("Says what the columns of a list are");
        pages.MapPost("add/{key}", Add).WithName("AddEntries").WithSummary("Begins to do what was chosen of a list");
        pages.MapGet("add/{key}/rows", ShowRows).WithName("ImportRowsPage").WithSummary("The rows of a list that would do something");
        pages.MapGet("add/progress", ShowProgress).WithName("ImportProgressPage").WithSummary("How far a list of entries is");
        pages.MapPost("add/stop", Stop).WithName("StopImport").WithSummary("Stops a list of entries: nothing of it is done");
        pages.MapPost("add/{key}/discard", Discard).WithName("DiscardEntries").WithSummary("Forgets a list of entries");
    }

    private static Results<RazorComponentResult<AddEntriesPage>, RazorComponentResult<ErrorPage>> ShowStart(
        string @event, Events events, ImportRuns runs) => events.Find(@event) is { } found
            ? new RazorComponentResult<AddEntriesPage>(new { Event = found, IsRunning = runs.Of(found.Id) is not null })
            : EventFormPages.NoEvent(@event);

    private static async Task<Results<RedirectHttpResult, RazorComponentResult<AddEntriesPage>, RazorComponentResult<ErrorPage>>> Take(
        string @event, IFormCollection form, ClaimsPrincipal user, Events events, HeldFiles files, ILogger<HeldFiles> log)
    {
        if (events.Find(@event) is not { } into)
        {
            return EventFormPages.NoEvent(@event);
        }

        var faults = new Faults();
        if (await Sent(form, faults) is { } sent)
        {
            if (sent.TryRead(null, out _, out var fault))
            {
                return TypedResults.LocalRedirect(PathOf(files.Hold(SignedIn.From(user).Person, into.Id, sent)));
            }

            faults.Add(form.Files[FileField] is { Length: > 0 } ? FileField : LinesField, fault);
        }

        Refused(log, into.Id);
        return new RazorComponentResult<AddEntriesPage>(new { Event = into, Lines = form[LinesField].ToString(), Faults = faults })
        {
            StatusCode = StatusCodes.Status422UnprocessableEntity,
        };
    }

    // Neither the name of the file nor a row is logged: they can have names of people.
    [LoggerMessage(Level = LogLevel.Information, Message = "A list of entries for {Event} could not be read")]
    private static partial void Refused(ILogger log, string @event);

    /// <summary>The file or the pasted list of a form; null with a fault when there is none.</summary>
    internal static async Task<ImportFile?> Sent(IFormCollection form, Faults faults)
    {
        if (form.Files[FileField] is { Length: > 0 } file)
        {
            if (ImportFile.TooLarge(RowWords.Short(Path.GetFileName(file.FileName)), file.Length) is { } fault)
            {
                faults.Add(FileField, fault);
                return null;
            }

            using var kept = new MemoryStream();
            await file.CopyToAsync(kept);
            return new ImportFile($"\"{RowWords.Short(Path.GetFileName(file.FileName))}\"", kept.ToArray());
        }

        if (form[LinesField].ToString() is { } lines && !string.IsNullOrWhiteSpace(lines))
        {
            return new ImportFile("The pasted list", Encoding.UTF8.GetBytes(lines));
        }

        faults.Add(FileField, "Choose a file, or paste a list with at least one row.");
        return null;
    }

    private static Results<
        RedirectHttpResult, RazorComponentResult<ImportPage>, RazorComponentResult<AddEntriesPage>, RazorComponentResult<ErrorPage>> Show(
        [AsParameters] OneList list, Imports imports, ImportRuns runs) => list.Found() is not ({ } into, var held)
            ? EventFormPages.NoEvent(list.Event)
            : held is null ? NotHeld(into)
            : runs.Of(into.Id)?.Held.Key == held.Key ? TypedResults.LocalRedirect(ProgressOf(held))
            : Page(into, held, imports, new Faults(), StatusCodes.Status200OK);

    private static Results<
        RazorComponentResult<ImportRowsPage>, RazorComponentResult<AddEntriesPage>, RazorComponentResult<ErrorPage>> ShowRows(
        [AsParameters] OneList list, Imports imports, string? find = null, string? page = null)
    {
        if (list.Found() is not ({ } into, var held))
        {
            return EventFormPages.NoEvent(list.Event);
        }

        if (held is null || imports.Look(held, into, new Faults())?.Plan is not { } plan)
        {
            return NotHeld(into);
        }

        find ??= "";
        var rows = SortedRow.Found(plan, find);
        return PageOf.Of(rows, page) is { } shown
            ? new RazorComponentResult<ImportRowsPage>(new { Event = into, Held = held, Find = find, Found = rows.Count, Rows = shown })
            : ErrorAnswers.Page(StatusCodes.Status404NotFound, PageOf.NoSuchPage(page));
    }

    private static Results<RedirectHttpResult, RazorComponentResult<ImportProgressPage>, RazorComponentResult<ErrorPage>> ShowProgress(
        string @event, ClaimsPrincipal user, Events events, HeldFiles files, ImportRuns runs, string? list = null)
    {
        if (events.Find(@event) is not { } into)
        {
            return EventFormPages.NoEvent(@event);
        }

        return runs.Of(into.Id) is { } run ? new RazorComponentResult<ImportProgressPage>(new { Event = into, Run = run })
            : TypedResults.LocalRedirect(files.Find(SignedIn.From(user).Person, into.Id, list ?? "") is { } held ? PathOf(held)
                : $"/events/{into.Id}#entries");
    }

    private static Results<RedirectHttpResult, RazorComponentResult<ErrorPage>> Stop(
        string @event, IFormCollection form, Events events, ImportRuns runs)
    {
        if (events.Find(@event) is not { } into)
        {
            return EventFormPages.NoEvent(@event);
        }

        if (runs.Of(into.Id) is { } run && run.Held.Key == form["list"])
        {
            run.Stop();
        }

        return TypedResults.LocalRedirect($"/events/{into.Id}/entries/add/progress{QueryString.Create("list", form["list"].ToString())}");
    }

    private static async Task<Results<
        RedirectHttpResult, RazorComponentResult<ImportPage>, RazorComponentResult<AddEntriesPage>, RazorComponentResult<ErrorPage>>> Match(
        [AsParameters] OneList list, IFormCollection form, HeldFiles files, Imports imports, WriteGate gate)
    {
        if (list.Found() is not ({ } into, var held))
        {
            return EventFormPages.NoEvent(list.Event);
        }

        if (held is null)
        {
            return NotHeld(into);
        }

        var faults = new Faults();
        if (imports.Look(held, into, new Faults()) is { } look && TypedColumns.Of(form, look, into, faults) is var changed)
        {
            held = held with { Sheet = changed.Sheet, Matching = changed.Matching };
            files.Keep(held);
            if (faults.AreNone)
            {
                if (changed.Said is { } said && said.HeadsOf(look.Table) is { } heads)
                {
                    await gate.Run(write => Remember(write, heads, said));
                }

                return TypedResults.LocalRedirect(PathOf(held));
            }
        }

        return Page(into, held, imports, new Faults(), StatusCodes.Status422UnprocessableEntity);
    }

    private static bool Remember(WriteTransaction write, byte[] heads, Matching said)
    {
        RememberedHeads.Remember(write, heads, said.Columns);
        return true;
    }

    private static async Task<Results<
        RedirectHttpResult, RazorComponentResult<ImportPage>, RazorComponentResult<AddEntriesPage>, RazorComponentResult<ErrorPage>>> Add(
        [AsParameters] OneList list, IFormCollection form, Imports imports, ImportRuns runs, TimeProvider time)
    {
        if (list.Found() is not ({ } into, var held))
        {
            return EventFormPages.NoEvent(list.Event);
        }

        if (held is null)
        {
            return NotHeld(into);
        }

        var faults = new Faults();
        var look = imports.Look(held, into, faults);
        if (look?.Plan is { } plan)
        {
            var chosen = ImportChoices.Of(plan, form);
            if (form["seen"] != plan.Seen())
            {
                faults.Add(Faults.Whole, "The entries were changed after this page was made. This is what the list would do now.");
            }
            else if (chosen.Entries.Count + chosen.Changes.Count == 0)
            {
                faults.Add(Faults.Whole, "Nothing is chosen that would be added or changed.");
            }
            else
            {
                var run = new ImportRun(
                    held, into, look.Matching.Entries(look.Table).Count(), chosen, EventFormPages.By(list.User, time));
                if (runs.TryStart(run))
                {
                    // A short list is done before anyone would look how far it is.
                    await Task.WhenAny(run.Ended, Task.Delay(Soon));
                    return TypedResults.LocalRedirect(run.Ended.IsCompleted ? PathOf(held) : ProgressOf(held));
                }

                faults.Add(Faults.Whole, "Another list is being entered into this event; wait until it is done.");
            }
        }

        return Page(into, held, imports, faults, StatusCodes.Status422UnprocessableEntity, form);
    }

    private static Results<RedirectHttpResult, RazorComponentResult<ErrorPage>> Discard(
        [AsParameters] OneList list, IFormCollection form, HeldFiles files)
    {
        _ = form;
        if (list.Found() is not ({ } into, var held))
        {
            return EventFormPages.NoEvent(list.Event);
        }

        if (held is not null)
        {
            files.Forget(held);
        }

        return TypedResults.LocalRedirect($"/events/{into.Id}/entries/add");
    }

    private static RazorComponentResult<ImportPage> Page(
        Event into, HeldFile held, Imports imports, Faults faults, int status, IFormCollection? sent = null)
    {
        var whole = new Faults();
        var look = imports.Look(held, into, whole);
        foreach (var (path, message) in whole.All.Except(faults.All))
        {
            faults.Add(path, message);
        }

        return new RazorComponentResult<ImportPage>(new { Event = into, Held = held, Look = look, Faults = faults, Sent = sent })
        {
            StatusCode = look is null || (held.Matching is not null && !whole.AreNone) ? StatusCodes.Status422UnprocessableEntity : status,
        };
    }

    private static string ProgressOf(HeldFile held) => $"/events/{held.Event}/entries/add/progress?list={held.Key}";

    private static string PathOf(HeldFile held) => $"/events/{held.Event}/entries/add/{held.Key}";

    private static RazorComponentResult<AddEntriesPage> NotHeld(Event into)
    {
        var faults = new Faults();
        faults.Add(FileField, "The list is not held any more: choose it again. A list is held for an hour, or until the next one.");
        return new RazorComponentResult<AddEntriesPage>(new { Event = into, Faults = faults })
        {
            StatusCode = StatusCodes.Status404NotFound,
        };
    }
}

/// <summary>A list that is held, as its address names it.</summary>
/// <param name="Event">The event's short name.</param>
/// <param name="Key">What stands for the list.</param>
/// <param name="User">Who asks.</param>
/// <param name="Events">The events.</param>
/// <param name="Files">The lists that are held.</param>
public sealed record OneList(string Event, string Key, ClaimsPrincipal User, Events Events, HeldFiles Files)
{
    /// <summary>The event, and the list where it is held for the person who asks; null when there is no such event.</summary>
    internal (Event Into, HeldFile? Held)? Found() => Events.Find(Event) is { } into
        ? (into, Files.Find(SignedIn.From(User).Person, into.Id, Key)) : null;
}
