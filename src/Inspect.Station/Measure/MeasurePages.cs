using System.Globalization;
using System.Security.Claims;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json.Nodes;
using Inspect.Rules.Json;
using Inspect.Rules.Rulesets;
using Inspect.Rules.Sheets;
using Inspect.Station.Access;
using Inspect.Station.Prepare;
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
        pages.MapPost("/events/{event}/entries/{entry}/balls/new", Send).WithName("Measure").WithSummary("Judges or records what was measured");
    }

    private static Results<RazorComponentResult<MeasurePage>, RazorComponentResult<ErrorPage>> Show(
        string @event, string entry, Events events, InspectionLookup lookup, TimeProvider time, string? supersedes = null, string? ball = null)
    {
        if (events.Find(@event) is not { } held || events.FindEntry(held.Id, entry) is not { } found)
        {
            return ErrorAnswers.Page(StatusCodes.Status404NotFound, $"There is no entry \"{entry}\" in \"{@event}\".");
        }

        var earlier = supersedes is not null && InspectionNumber.TryParse(supersedes, out var number) ? lookup.ByNumber(number) : null;
        if (supersedes is not null && (earlier is null || earlier.Inspection.Event != held.Id || earlier.Inspection.Entry != found.Number))
        {
            return ErrorAnswers.Page(StatusCodes.Status404NotFound, $"There is no inspection \"{supersedes}\" of this entry.");
        }

        var sameBall = ball is null ? null : lookup.OfBall(ball).LastOrDefault(row => row.Event == held.Id && row.Entry == found.Number);
        if (ball is not null && sameBall is null)
        {
            return ErrorAnswers.Page(StatusCodes.Status404NotFound, "This entry has no such ball.");
        }

        var otherGrip = sameBall is not null && InspectionNumber.TryParse(sameBall.Number, out var last) ? lookup.ByNumber(last)?.Inspection.Sheet : null;
        var known = KnownBall.Of(held, earlier?.Inspection.Sheet ?? (otherGrip is null ? null : otherGrip with { Grip = null }), time);
        return new RazorComponentResult<MeasurePage>(new
        {
            Event = held,
            Entry = found,
            Form = MeasureForm.Blank(known),
            Key = RandomNumberGenerator.GetHexString(32, lowercase: true),
            Supersedes = supersedes,
            Ball = ball,
        });
    }

    private static async Task<Results<RedirectHttpResult, RazorComponentResult<MeasurePage>, RazorComponentResult<ErrorPage>>> Send(
        string @event, string entry, IFormCollection form, ClaimsPrincipal user, Events events, EditionLibrary editions, Inspections inspections,
        InspectionLookup lookup, TimeProvider time)
    {
        if (events.Find(@event) is not { } held || events.FindEntry(held.Id, entry) is not { } found)
        {
            return ErrorAnswers.Page(StatusCodes.Status404NotFound, $"There is no entry \"{entry}\" in \"{@event}\".");
        }

        var typed = MeasureForm.From(form);
        var supersedes = form["supersedes"].ToString() is { Length: > 0 } number ? number : null;
        var otherGripOf = form["ball"].ToString() is { Length: > 0 } id ? id : null;
        var request = Request(held, found, typed.Sheet, supersedes, otherGripOf);
        var seen = Convert.ToHexStringLower(SHA256.HashData(request));
        var ball = supersedes is not null && InspectionNumber.TryParse(supersedes, out var earlier) ? lookup.ByNumber(earlier)?.Inspection.Ball : otherGripOf;
        var preview = Judged(held, found, ball, typed, editions, lookup, time.GetUtcNow());
        if (preview is not null && form["act"] == "record" && form["seen"] == seen)
        {
            var result = await inspections.Record(SignedIn.From(user), Key(form), request);
            switch (result)
            {
                case RecordResult.Recorded recorded:
                    return TypedResults.LocalRedirect($"/inspections/{recorded.Number}");
                case RecordResult.RecordedBefore before:
                    return TypedResults.LocalRedirect($"/inspections/{JsonNode.Parse(before.Answer)!["number"]}");
                case RecordResult.Refused refused:
                    refused.Faults.All.ToList().ForEach(fault => typed.Refuse(new Fault(WithoutSheet(fault.Path), fault.Message)));
                    break;
                default:
                    typed.Faults.Add(Faults.Whole, "This form was already used to record another ball; nothing was recorded now. Open a new form for this ball.");
                    break;
            }
        }
        else if (preview is not null && form["act"] == "record")
        {
            typed.Faults.Add(Faults.Whole, "The readings were changed after the verdict was shown. This is the verdict on what stands here now; record it if it is right.");
        }

        var shown = typed.Faults.All.All(fault => fault.Path == Faults.Whole) ? preview : null;
        return new RazorComponentResult<MeasurePage>(new
        {
            Event = held,
            Entry = found,
            Form = typed,
            Key = Key(form),
            Supersedes = supersedes,
            Ball = otherGripOf,
            Preview = shown,
            Seen = shown is null ? null : seen,
        })
        { StatusCode = typed.Faults.AreNone ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity };
    }

    private static PreviewedInspection? Judged(
        Event held, Entry entry, string? ball, MeasureForm typed, EditionLibrary editions, InspectionLookup lookup, DateTimeOffset now)
    {
        var faults = new List<Fault>();
        var sheet = SheetReader.Read(Encoding.UTF8.GetBytes(typed.Sheet.ToJsonString()), faults, new SheetDefaults(held.Authority, held.Edition, held.Plan));
        if (sheet is not null && !held.Includes(sheet.Play))
        {
            faults.Add(new Fault("play", string.Create(CultureInfo.InvariantCulture,
                $"{sheet.Play:d MMMM yyyy} is not a day of {held.Name}, which runs from {held.From:d MMMM yyyy} to {held.To:d MMMM yyyy}.")));
        }

        var preview = sheet is null ? null : lookup.Preview(editions, held, entry, sheet, ball, now, faults);
        faults.ForEach(typed.Refuse);
        return typed.Faults.AreNone ? preview : null;
    }

    private static byte[] Request(Event held, Entry entry, JsonObject sheet, string? supersedes, string? ball)
    {
        var request = new JsonObject { ["event"] = held.Id, ["entry"] = entry.Number, ["sheet"] = sheet.DeepClone() };
        if (supersedes is not null)
        {
            request["supersedes"] = supersedes;
        }

        if (ball is not null)
        {
            request["ball"] = ball;
        }

        return Encoding.UTF8.GetBytes(request.ToJsonString());
    }

    private static string WithoutSheet(string path) => path.StartsWith("sheet.", StringComparison.Ordinal) ? path["sheet.".Length..] : path;

    private static string Key(IFormCollection form) =>
        form["key"].ToString() is { Length: 32 } key && key.All(char.IsAsciiHexDigit) ? key : RandomNumberGenerator.GetHexString(32, lowercase: true);
}
