using System.Security.Claims;
using System.Text.Json.Nodes;
using Inspect.Rules.Rulesets;
using Inspect.Sheets.Form;
using Inspect.Sheets.Json;
using Inspect.Station.Access;
using Inspect.Station.Prepare;
using Inspect.Station.Queue;
using Inspect.Station.Record;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;
using Decision = Inspect.Station.Record.Decision;

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
    }

    private static Results<RazorComponentResult<MeasurePage>, RedirectHttpResult, RazorComponentResult<ErrorPage>> Show(
        string @event, string entry, ClaimsPrincipal user, Events events, EditionLibrary editions, InspectionLookup lookup,
        UnfinishedSheets sheets,
        Remarks remarks, BowlerQueue queue, TimeProvider time, string? supersedes = null, string? ball = null, string? form = null)
    {
        if (events.Find(@event) is not { } held || events.FindEntry(held.Id, entry) is not { } found)
        {
            return ErrorAnswers.Page(StatusCodes.Status404NotFound, $"There is no entry \"{entry}\" in \"{@event}\".");
        }

        if (form is not null && !SentForm.IsKey(form))
        {
            return ErrorAnswers.Page(StatusCodes.Status404NotFound, $"There is no form \"{form}\".");
        }

        if (form is not null && sheets.RecordedAs(form) is { } recorded)
        {
            return TypedResults.LocalRedirect($"/inspections/{recorded}");
        }

        var kept = form is null ? null : sheets.Find(form);
        if (kept is not null && (kept.Event != held.Id || kept.Entry != found.Number))
        {
            return TypedResults.LocalRedirect($"/events/{kept.Event}/entries/{kept.Entry}/balls/new?form={form}");
        }

        (supersedes, ball) = kept is null ? (supersedes, ball) : (kept.Supersedes, kept.Ball);
        var earlier = supersedes is not null && InspectionNumber.TryParse(supersedes, out var number) ? lookup.ByNumber(number) : null;
        if (supersedes is not null && (earlier is null || earlier.Inspection.Event != held.Id || earlier.Inspection.Entry != found.Number))
        {
            return ErrorAnswers.Page(StatusCodes.Status404NotFound, $"There is no inspection \"{supersedes}\" of this entry.");
        }

        var same = ball is null ? null : lookup.LatestOf(ball, found.Person)?.Inspection;
        if (ball is not null && same is null)
        {
            return ErrorAnswers.Page(StatusCodes.Status404NotFound, "This bowler has no such ball.");
        }

        var known = KnownBall.Of(held, found, earlier?.Inspection ?? same, isReplaced: earlier is not null, time);
        if ((earlier?.Inspection ?? same) is { Tag: { } tag } tagged && tagged.Event == held.Id)
        {
            known["tag"] = tag;
        }

        // Taken back a minute ago by the same inspector: what was typed is filled in, so that only what was wrong is typed again.
        var isTakenBack = earlier?.Ruling is { Decision: Decision.Undo } undone && undone.By == SignedIn.From(user).Person;
        var fields = TypedFields.Of(known);
        var typedBefore = isTakenBack
            ? RecordedFields.Of(earlier!.Inspection, hash => remarks.TextOf(earlier.Inspection.By.Person, hash))
            : null;
        fields = typedBefore is null ? fields : fields.With(typedBefore.All);
        fields = kept is null ? fields : fields.With(kept.Fields.Select(field => KeyValuePair.Create(field.Key, field.Value.Values)));
        var sent = SentForm.Read(
            held, found, fields, form ?? SentForm.FreshKey(), supersedes, ball, editions, lookup, kept, time.GetUtcNow());
        return new RazorComponentResult<MeasurePage>(new
        {
            Sent = sent,
            IsFresh = kept is null && typedBefore is null,
            IsTakenBack = isTakenBack,
            IsRefilled = typedBefore is not null,
            Revision = kept?.Revision ?? 0,
            Table = queue.TableOf(held.Id, SignedIn.From(user).Person)?.Name,
        });
    }

    private static async Task<Results<RedirectHttpResult, RazorComponentResult<MeasurePage>, RazorComponentResult<ErrorPage>>> Send(
        string @event, string entry, IFormCollection form, ClaimsPrincipal user, Events events, EditionLibrary editions,
        Inspections inspections,
        InspectionLookup lookup, UnfinishedSheets sheets, People people, TimeProvider time)
    {
        if (events.Find(@event) is not { } held || events.FindEntry(held.Id, entry) is not { } found)
        {
            return ErrorAnswers.Page(StatusCodes.Status404NotFound, $"There is no entry \"{entry}\" in \"{@event}\".");
        }

        var sent = SentForm.Read(held, found, form, editions, lookup, sheets, time.GetUtcNow());
        var toKeep = SheetToKeep.Of(sent, form);
        var act = form["act"].ToString();
        var others = act is "record" or "aside" ? sheets.Unchosen(toKeep) : [];
        if (others.Count > 0)
        {
            sent = SentForm.Read(held, found, sent.Typed.Fields.With(others.Where(other => !other.IsConflict)
                .Select(other => KeyValuePair.Create(other.Name, other.Kept.Values))),
                sent.Key, sent.Supersedes, sent.Ball, editions, lookup, sheets.Find(sent.Key), time.GetUtcNow());
        }

        var typed = sent.Typed;
        foreach (var other in others)
        {
            typed.Refuse(other.Name, MergeWords.Of(other, UnfinishedPages.Who(people, other.Kept)));
        }

        if (act == "aside" && others.Count == 0)
        {
            var kept = await sheets.Keep(SignedIn.From(user), toKeep);
            return TypedResults.LocalRedirect(
                kept.Recorded is { } number ? $"/inspections/{number}" : $"/events/{held.Id}/entries/{found.Number}");
        }

        if (sent.IsWhole && act == "record" && form["seen"] == sent.Seen)
        {
            var result = await inspections.Record(SignedIn.From(user), sent.Key, sent.Request, isForm: true);
            switch (result)
            {
                case RecordResult.Recorded recorded:
                    return TypedResults.LocalRedirect($"/inspections/{recorded.Number}");
                case RecordResult.RecordedBefore before:
                    return TypedResults.LocalRedirect($"/inspections/{JsonNode.Parse(before.Answer)!["number"]}");
                case RecordResult.Refused refused:
                    refused.Faults.All.Select(fault => new Fault(PlaceOf(fault.Path), fault.Message))
                        .Distinct().ToList().ForEach(typed.Refuse);
                    break;
                default:
                    typed.Refuse(
                        Faults.Whole,
                        "This form was already used to record another ball; nothing was recorded now. Open a new form for this ball.");
                    break;
            }
        }
        else if (sent.IsWhole && act == "record")
        {
            typed.Refuse(
                Faults.Whole,
                "The readings were changed after the verdict was shown. "
                + "This is the verdict on the readings shown now; record it if they are right.");
        }

        // The page now shows what the other person typed: sending the form again is a choice.
        var revision = others.Count > 0 ? sheets.Find(sent.Key)?.Revision ?? 0 : toKeep.Base;
        return new RazorComponentResult<MeasurePage>(new { Sent = sent, Revision = revision, toKeep.Table })
        {
            StatusCode = typed.Faults.Count == 0 ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity,
        };
    }

    private static Results<RazorComponentResult<LiveAnswer>, NotFound> Live(
        string @event, string entry, IFormCollection form, Events events, EditionLibrary editions, InspectionLookup lookup,
        UnfinishedSheets sheets,
        TimeProvider time) =>
        events.Find(@event) is { } held && events.FindEntry(held.Id, entry) is { } found
            ? new RazorComponentResult<LiveAnswer>(
                new { Sent = SentForm.Read(held, found, form, editions, lookup, sheets, time.GetUtcNow()) })
            : TypedResults.NotFound();

    /// <summary>Where the form shows a fault: at the reading, or at the top when it concerns an instrument.</summary>
    private static string PlaceOf(string path) => path.StartsWith("sheet.", StringComparison.Ordinal) ? path["sheet.".Length..]
        : path.StartsWith("observations[", StringComparison.Ordinal) ? Faults.Whole
        : path;
}
