using System.Globalization;
using System.Security.Claims;
using Inspect.Sheets.Json;
using Inspect.Station.Access;
using Inspect.Station.Decide;
using Inspect.Station.Prepare;
using Inspect.Station.Record;
using Inspect.Station.Storage;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Inspect.Station.Lanes;

/// <summary>A draw by lot, as programs see it: all that is needed to repeat it.</summary>
/// <param name="Seq">The register's entry of the pool.</param>
/// <param name="Of">balls, and the numbers are those of slips; or bowlers, and they are those of entries.</param>
/// <param name="Squads">The squads drawn from; empty for everyone.</param>
/// <param name="Count">How many are drawn.</param>
/// <param name="At">When the pool was fixed, UTC.</param>
/// <param name="Pool">The numbers of the pool.</param>
/// <param name="PoolSha256">The SHA-256 of the pool, in the register.</param>
/// <param name="PoolRule">How that hash is made.</param>
/// <param name="Rule">How the draw is made.</param>
/// <param name="Seed">The seed; absent while there is none.</param>
/// <param name="DrawnAt">When it was typed, UTC.</param>
/// <param name="DrawnSeq">The register's entry of the draw.</param>
/// <param name="Drawn">What was drawn, in order.</param>
public sealed record DrawAnswer(
    long Seq, string Of, IReadOnlyList<string> Squads, int Count, string At, IReadOnlyList<string> Pool, string PoolSha256,
    string PoolRule, string Rule, string? Seed, string? DrawnAt, long? DrawnSeq, IReadOnlyList<string>? Drawn);

/// <summary>Something drawn, with its balls.</summary>
/// <param name="Number">The number drawn.</param>
/// <param name="Entry">The bowler's entry; null when it is gone.</param>
/// <param name="Balls">The balls to compare.</param>
public sealed record DrawnRow(string Number, Entry? Entry, IReadOnlyList<DrawnBall> Balls);

/// <summary>A ball to compare.</summary>
/// <param name="Number">Its slip.</param>
/// <param name="Name">Maker and model.</param>
/// <param name="Serial">The serial number.</param>
/// <param name="IsDone">Whether it was compared since the draw.</param>
public sealed record DrawnBall(string Number, string Name, string? Serial, bool IsDone);

/// <summary>The pages on which a director draws balls or bowlers by lot, and the same for programs.</summary>
public static class DrawPages
{
    private const int LongestSeed = 100;
    private const int LongestWitness = 100;

    /// <summary>Adds what the pages of draws need.</summary>
    public static void AddLanes(this IServiceCollection services) => services.AddSingleton<DrawView>();

    public static void MapDrawPages(this IEndpointRouteBuilder app)
    {
        var director = app.MapGroup("/events/{event}/draws").RequireAuthorization(Policies.Director).ExcludeFromDescription();
        director.MapGet("new", New).WithName("NewDrawPage").WithSummary("The form that fixes what is drawn from");
        director.MapPost("", Fix).WithName("FixDrawPool").WithSummary("Fixes what is drawn from");
        director.MapPost("{seq:long}", Draw).WithName("Draw").WithSummary("Draws from a pool by a seed");
        app.MapGet("/events/{event}/draws/{seq:long}", Show).RequireAuthorization(Policies.Inspector).ExcludeFromDescription()
            .WithName("DrawPage").WithSummary("A draw: its pool, and what was drawn");
    }

    /// <summary>The route for programs.</summary>
    public static void MapDrawsApi(this IEndpointRouteBuilder app) =>
        app.MapGet("/api/events/{event}/draws", Answer).RequireAuthorization(Policies.Inspector).WithTags("Events")
            .WithName("ListDraws").WithSummary("Every draw by lot of an event, oldest first, with what is needed to repeat it")
            .MayRefuse(401, 403, 404);

    private static Results<RazorComponentResult<NewDrawPage>, RazorComponentResult<ErrorPage>> New(string @event, Events events) =>
        events.Find(@event) is { } held ? NewPage(held, TypedDraw.Blank) : NoEvent(@event);

    private static async Task<Results<RedirectHttpResult, RazorComponentResult<NewDrawPage>, RazorComponentResult<ErrorPage>>> Fix(
        string @event, IFormCollection form, ClaimsPrincipal user, Events events, Draws draws)
    {
        if (events.Find(@event) is not { } held)
        {
            return NoEvent(@event);
        }

        var typed = TypedDraw.From(form);
        if (typed.Read(held) is not { } asked)
        {
            return NewPage(held, typed);
        }

        var (seq, refusal) = await draws.Fix(held, asked, SignedIn.From(user), typed.Key);
        if (seq is { } pool)
        {
            return TypedResults.LocalRedirect(Address(held, pool));
        }

        typed.Faults.Add("count", refusal!);
        return NewPage(held, typed);
    }

    private static async Task<Results<RedirectHttpResult, RazorComponentResult<DrawPage>, RazorComponentResult<ErrorPage>>> Draw(
        string @event, long seq, IFormCollection form, ClaimsPrincipal user, Events events, Draws draws, DrawView view)
    {
        if (events.Find(@event) is not { } held || draws.Find(held.Id, seq) is not { } draw)
        {
            return NoDraw(@event, seq);
        }

        var (seed, witness, faults) = (form["seed"].ToString().Trim(), form["witness"].ToString().Trim(), new Faults());
        if (seed.Length is 0 or > LongestSeed || seed.Any(letter => letter is < ' ' or > '~'))
        {
            faults.Add("seed", seed.Length == 0 ? "Type what the dice showed, such as 4 2 6 1."
                : $"\"{seed}\" cannot be typed alike on every keyboard; use letters A to Z, digits and plain signs, "
                    + $"{LongestSeed} at most.");
        }

        if (witness.Length is 0 or > LongestWitness || !PlainText.IsLine(witness))
        {
            faults.Add("witness", $"Name who threw the dice or saw it, in {LongestWitness} characters at most.");
        }

        if (faults.AreNone && await draws.Draw(held.Id, seq, seed, witness, SignedIn.From(user).Person) is { } refusal)
        {
            faults.Add(Faults.Whole, refusal);
        }

        return faults.AreNone ? TypedResults.LocalRedirect(Address(held, seq))
            : view.Page(held, draws.Find(held.Id, seq) ?? draw, faults, seed, witness);
    }

    private static Results<RazorComponentResult<DrawPage>, RazorComponentResult<ErrorPage>> Show(
        string @event, long seq, Events events, Draws draws, DrawView view) =>
        events.Find(@event) is { } held && draws.Find(held.Id, seq) is { } draw
            ? view.Page(held, draw, new Faults()) : NoDraw(@event, seq);

    private static Results<Ok<DrawAnswer[]>, ProblemHttpResult> Answer(string @event, Events events, Draws draws) =>
        events.Find(@event) is not { } held
            ? Problems.Refused(StatusCodes.Status404NotFound, $"There is no event \"{@event}\" on this station.")
            : TypedResults.Ok<DrawAnswer[]>([.. draws.Of(held.Id).Select(draw => new DrawAnswer(
                draw.Seq, draw.Asked.OfBowlers ? "bowlers" : "balls", draw.Asked.Squads, draw.Asked.Count, UtcText.Of(draw.At), draw.Pool,
                draw.PoolSha256, DrawByLot.PoolRule, DrawByLot.Rule, draw.Drawn?.Seed,
                draw.Drawn is { } drawn ? UtcText.Of(drawn.At) : null, draw.Drawn?.Seq, draw.Drawn?.Numbers))]);

    /// <summary>The address of a draw.</summary>
    internal static string Address(Event held, long seq) => string.Create(CultureInfo.InvariantCulture, $"/events/{held.Id}/draws/{seq}");

    private static RazorComponentResult<NewDrawPage> NewPage(Event held, TypedDraw typed) => new(new { Event = held, Typed = typed })
    {
        StatusCode = typed.Faults.AreNone ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity,
    };

    private static RazorComponentResult<ErrorPage> NoEvent(string name) =>
        ErrorAnswers.Page(StatusCodes.Status404NotFound, $"There is no event \"{name}\" on this station.");

    private static RazorComponentResult<ErrorPage> NoDraw(string name, long seq) =>
        ErrorAnswers.Page(
            StatusCodes.Status404NotFound, FormattableString.Invariant($"There is no draw {seq} of \"{name}\" on this station."));
}

/// <summary>Collects what the page of a draw shows.</summary>
public sealed class DrawView(Draws draws, InspectionLookup lookup, Events events, People people)
{
    /// <summary>The page.</summary>
    /// <param name="held">The event.</param>
    /// <param name="draw">The draw.</param>
    /// <param name="faults">The faults of the form.</param>
    /// <param name="seed">The seed as typed.</param>
    /// <param name="witness">The witness as typed.</param>
    internal RazorComponentResult<DrawPage> Page(Event held, LotDraw draw, Faults faults, string? seed = null, string? witness = null) =>
        new(new
        {
            Event = held,
            Draw = draw,
            Rows = Rows(held, draw),
            By = people.NameOf(draw.By),
            Faults = faults,
            Seed = seed,
            Witness = witness,
        })
        { StatusCode = faults.AreNone ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity };

    /// <summary>What was drawn, each with its balls; empty while there is no seed.</summary>
    internal IReadOnlyList<DrawnRow> Rows(Event held, LotDraw draw)
    {
        var drawn = draws.Slips(held.Id, draw);
        var done = draws.Compared([.. drawn.SelectMany(one => one.Slips)], draw.Drawn?.Seq ?? 0);
        return [.. drawn.Select(one =>
        {
            var found = one.Slips.Select(slip => InspectionNumber.TryParse(slip, out var number) ? lookup.ByNumber(number) : null)
                .OfType<FoundInspection>().Select(each => each.Inspection).ToList();
            var entry = draw.Asked.OfBowlers ? one.Number : found.FirstOrDefault()?.Entry;
            return new DrawnRow(
                one.Number, entry is null ? null : events.FindEntry(held.Id, entry),
                [.. found.Select(each => new DrawnBall(
                    each.Number.ToString(), $"{each.Sheet.Ball?.Maker} {each.Sheet.Ball?.Model}".Trim(), each.Sheet.Ball?.Serial,
                    done.Contains(each.Number.ToString())))]);
        })];
    }
}

/// <summary>The form of a draw as typed.</summary>
/// <param name="Key">The form's key.</param>
/// <param name="Of">balls or bowlers.</param>
/// <param name="Squads">The squads that were ticked.</param>
/// <param name="Count">How many, as typed.</param>
public sealed record TypedDraw(string Key, string Of, IReadOnlyList<string> Squads, string Count)
{
    /// <summary>The empty form, with a new key.</summary>
    public static TypedDraw Blank => new(FormKey.Fresh(), "balls", [], "");

    /// <summary>The faults of the form.</summary>
    public Faults Faults { get; } = new();

    /// <summary>Reads a form that was sent.</summary>
    public static TypedDraw From(IFormCollection form) => new(
        FormKey.Of(form), form["of"].ToString(), [.. form["squads"].OfType<string>()], form["count"].ToString().Trim());

    /// <summary>What it asks for, or null with its faults added.</summary>
    public AskedDraw? Read(Event held)
    {
        if (Of is not ("balls" or "bowlers"))
        {
            Faults.Add("of", "Choose what is drawn: balls or bowlers.");
        }

        foreach (var squad in Squads.Where(squad => held.Squads.All(one => one.Name != squad)))
        {
            Faults.Add("squads", $"\"{squad}\" is not a squad of {held.Name}; choose from those listed.");
        }

        if (!int.TryParse(Count, NumberStyles.None, CultureInfo.InvariantCulture, out var count) || count is 0 or > Draws.Most)
        {
            Faults.Add("count", Count.Length == 0 ? "Type how many are drawn."
                : $"\"{Count}\" is not a whole number from 1 to {Draws.Most}.");
        }

        return Faults.AreNone ? new AskedDraw(Of == "bowlers", [.. Squads.Distinct()], count) : null;
    }
}
