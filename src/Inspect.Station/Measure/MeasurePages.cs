using System.Security.Claims;
using System.Text.Json.Nodes;
using Inspect.Sheets.Json;
using Inspect.Station.Access;
using Inspect.Station.Prepare;
using Inspect.Station.Queue;
using Inspect.Station.Record;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Inspect.Station.Measure;

/// <summary>The measuring form: one ball, judged before it is recorded.</summary>
public static class MeasurePages
{
    public static void MapMeasurePages(this IEndpointRouteBuilder app)
    {
        var pages = app.MapGroup("").RequireAuthorization(Policies.Inspector).ExcludeFromDescription();
        pages.MapGet("/events/{event}/entries/{entry}/balls/new", Show).WithName("MeasurePage").WithSummary("The measuring form");
        pages.MapPost("/events/{event}/entries/{entry}/balls/new", Send).WithName("Measure")
            .WithSummary("Judges or records what was measured");
        pages.MapPost("/events/{event}/entries/{entry}/balls/live", Live).WithName("MeasureLive")
            .WithSummary("The verdict on a form while it is typed");
        pages.MapPost("/events/{event}/entries/{entry}/balls/advice", Advise).WithName("MeasureAdvice")
            .WithSummary("What could cure the ball of a form while it is typed");
    }

    private static Results<RazorComponentResult<MeasurePage>, RedirectHttpResult, RazorComponentResult<ErrorPage>> Show(
        [AsParameters] EntryAddress address, [AsParameters] FormStart start, ClaimsPrincipal user, Events events, UnfinishedSheets sheets,
        FormOpening opening, FormJudge judge, BowlerQueue queue)
    {
        if (address.In(events) is not var (held, entry))
        {
            return address.NoEntry();
        }

        if (start.Form is null && entry.Refusal is { } withdrawn)
        {
            return entry.MergedInto is { } other
                ? TypedResults.LocalRedirect($"/events/{held.Id}/entries/{other}/balls/new{start.Query}")
                : ErrorAnswers.Page(StatusCodes.Status409Conflict, withdrawn);
        }

        var kept = start.Form is null ? null : sheets.Find(start.Form);
        if (start.Form is { } form)
        {
            if (!OpenForm.IsKey(form))
            {
                return ErrorAnswers.Page(StatusCodes.Status404NotFound, $"There is no form \"{form}\".");
            }

            if (sheets.RecordedAs(form) is { } recorded)
            {
                return TypedResults.LocalRedirect($"/inspections/{recorded}");
            }

            if (kept is not null && (kept.Event != held.Id || kept.Entry != entry.Number))
            {
                return TypedResults.LocalRedirect($"/events/{kept.Event}/entries/{kept.Entry}/balls/new?form={form}");
            }
        }

        var viewer = SignedIn.From(user).Person;
        if (opening.Open(held, entry, start, kept, viewer, out var refusal) is not { } opened)
        {
            return ErrorAnswers.Page(StatusCodes.Status404NotFound, refusal);
        }

        return new RazorComponentResult<MeasurePage>(new
        {
            Sent = judge.Judge(opened.Form, kept),
            IsFresh = opened.Revision is null && !opened.IsRefilled,
            opened.TakenBack,
            opened.IsRefilled,
            Revision = opened.Revision ?? 0,
            Table = queue.TableOf(held.Id, viewer)?.Name,
        });
    }

    private static async Task<Results<RedirectHttpResult, RazorComponentResult<MeasurePage>, RazorComponentResult<ErrorPage>>> Send(
        [AsParameters] EntryAddress address, IFormCollection form, ClaimsPrincipal user, Events events, FormJudge judge,
        UnfinishedSheets sheets, Inspections inspections, People people)
    {
        if (address.In(events) is not var (held, entry))
        {
            return address.NoEntry();
        }

        var sent = judge.Judge(OpenForm.Sent(held, entry, form));
        var toKeep = SheetToKeep.Of(sent.Form, form);
        var act = form["act"].ToString();
        var others = act is "record" or "aside" or "move" ? sheets.Unchosen(toKeep) : [];
        if (others.Count > 0)
        {
            var ofOthers = others.Where(other => !other.IsConflict).Select(other => KeyValuePair.Create(other.Name, other.Kept.Values));
            sent = judge.Judge(sent.Form with { Fields = sent.Typed.Fields.With(ofOthers) });
        }

        foreach (var other in others)
        {
            sent.Typed.Refuse(other.Name, MergeWords.Of(other, UnfinishedPages.Who(people, other.Kept)));
        }

        if (act == "aside" && others.Count == 0)
        {
            var kept = await sheets.Keep(SignedIn.From(user), toKeep);
            return TypedResults.LocalRedirect(
                kept.Recorded is { } before ? $"/inspections/{before}" : $"/events/{held.Id}/entries/{entry.Number}");
        }

        if (act == "move" && others.Count == 0)
        {
            var target = form["moveTo"].ToString().Trim();
            if (sheets.RefusalToMove(events, sent.Form, target) is { } refusal)
            {
                sent.Typed.Refuse("moveTo", refusal);
            }
            else
            {
                var kept = await sheets.Move(SignedIn.From(user), toKeep, target);
                return TypedResults.LocalRedirect(kept.Recorded is { } before
                    ? $"/inspections/{before}"
                    : $"/events/{held.Id}/entries/{target}/balls/new?form={sent.Key}");
            }
        }

        if (act == "record" && sent.IsWhole && await Record(inspections, SignedIn.From(user), sent, form["seen"]) is { } number)
        {
            return TypedResults.LocalRedirect($"/inspections/{number}");
        }

        // The page now shows what the other person typed: sending the form again is a choice.
        var revision = others.Count > 0 ? sheets.Find(sent.Key)?.Revision ?? 0 : toKeep.Base;
        return new RazorComponentResult<MeasurePage>(new { Sent = sent, Revision = revision, toKeep.Table })
        {
            StatusCode = sent.Typed.Faults.Count == 0 ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity,
        };
    }

    /// <summary>Records a form whose verdict was seen: the inspection's number, or null with the faults added.</summary>
    private static async Task<string?> Record(Inspections inspections, SignedIn by, SentForm sent, string? seen)
    {
        if (seen != sent.Seen)
        {
            sent.Typed.Refuse(Faults.Whole, "The readings were changed after the verdict was shown. "
                + "This is the verdict on what stands here now; record it if it is right.");
            return null;
        }

        switch (await inspections.Record(by, sent.Key, sent.Request, isForm: true))
        {
            case RecordResult.Recorded recorded:
                return recorded.Number.ToString();
            case RecordResult.RecordedBefore before:
                return JsonNode.Parse(before.Answer)!["number"]!.ToString();
            case RecordResult.Refused refused:
                refused.Faults.All.Select(fault => new Fault(PlaceOf(fault.Path), fault.Message))
                    .Distinct().ToList().ForEach(sent.Typed.Refuse);
                return null;
            default:
                sent.Typed.Refuse(Faults.Whole, "This form was already used to record another ball; nothing was recorded now. "
                    + "Open a new form for this ball.");
                return null;
        }
    }

    private static Results<RazorComponentResult<LiveAnswer>, NotFound> Live(
        [AsParameters] EntryAddress address, IFormCollection form, Events events, FormJudge judge) =>
        address.In(events) is var (held, entry)
            ? new RazorComponentResult<LiveAnswer>(new { Sent = judge.Judge(OpenForm.Sent(held, entry, form)) })
            : TypedResults.NotFound();

    private static Results<RazorComponentResult<LiveAdvice>, NotFound> Advise(
        [AsParameters] EntryAddress address, IFormCollection form, Events events, FormJudge judge) =>
        address.In(events) is var (held, entry)
            ? new RazorComponentResult<LiveAdvice>(new { Sent = judge.Judge(OpenForm.Sent(held, entry, form)) })
            : TypedResults.NotFound();

    /// <summary>Where the form shows a fault: at the reading, or at the top when it concerns an instrument.</summary>
    private static string PlaceOf(string path) => path.StartsWith("sheet.", StringComparison.Ordinal) ? path["sheet.".Length..]
        : path == "entry" || path.StartsWith("observations[", StringComparison.Ordinal) ? Faults.Whole
        : path;
}
