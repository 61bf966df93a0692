using System.Globalization;
using System.Security.Claims;
using System.Text;
using System.Text.Json.Nodes;
using Inspect.Rules.Judging;
using Inspect.Rules.Rulesets;
using Inspect.Sheets;
using Inspect.Sheets.Json;
using Inspect.Sheets.Readings;
using Inspect.Station.Access;
using Inspect.Station.Prepare;
using Inspect.Station.Storage;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Inspect.Station.Terms;

/// <summary>The page of an event's rules, for its director: the editions in force, its supplements, how it decides near a
/// limit, and confirmed limits.</summary>
public static class EventRulesPages
{
    /// <summary>The quantities whose uncertainty can be set, with the unit their parts are typed in.</summary>
    internal static readonly IReadOnlyList<RuleTerm> Measured = [.. Catalogue.Terms.Where(term => term.Group is not null)];

    private static readonly string[] Parts = ["resolution", "repeatability", "betweenOperators", "calibration"];

    public static void MapEventRulesPages(this IEndpointRouteBuilder app)
    {
        var pages = app.MapGroup("/events/{event}/rules").RequireAuthorization(Policies.Director).ExcludeFromDescription();
        pages.MapGet("", Show).WithName("EventRulesPage").WithSummary("What an event adds to the edition");
        pages.MapPost("supplement", AddSupplement).WithName("AddSupplement").WithSummary("Adds an event's own rules");
        pages.MapPost("supplement/remove", RemoveSupplement).WithName("RemoveSupplement").WithSummary("Removes a supplement");
        pages.MapPost("terms", SetTerms).WithName("SetEventTerms").WithSummary("Sets how the event decides near a limit");
        pages.MapPost("edition", UseRevision).WithName("UseRevision")
            .WithSummary("Moves an event to the revision of the edition it is fixed to");
        pages.MapPost("confirm", Confirm).WithName("ConfirmLimit").WithSummary("Confirms a limit from a document");
    }

    private static Results<RazorComponentResult<EventRulesPage>, RazorComponentResult<ErrorPage>> Show(
        string @event, Events events, EditionLibrary editions, Database database) =>
        events.Find(@event) is { } held ? Page(held, editions, database, new Faults(), new Dictionary<string, string>()) : NoEvent(@event);

    private static async Task<Results<
        RedirectHttpResult, RazorComponentResult<EventRulesPage>, RazorComponentResult<ErrorPage>>> AddSupplement(
        string @event, IFormCollection form, ClaimsPrincipal user, Events events, EditionLibrary editions, Database database,
        WriteGate gate, TimeProvider time)
    {
        if (events.Find(@event) is not { } held)
        {
            return NoEvent(@event);
        }

        var bytes = Encoding.UTF8.GetBytes(form["supplement"].ToString());
        var found = new List<Fault>();
        var supplement = SupplementLoader.Load(bytes, found);
        var faults = new Faults();
        found.ForEach(fault => faults.Add("supplement", fault.Path == StrictJson.Root ? fault.Message : $"{fault.Path}: {fault.Message}"));
        if (supplement is not null)
        {
            EventRules.Loosened(held, supplement, editions).ToList().ForEach(message => faults.Add("supplement", message));
        }

        if (supplement is null || !faults.AreNone)
        {
            return Page(held, editions, database, faults, Typed(form));
        }

        var (by, at) = (SignedIn.From(user).Person, time.GetUtcNow());
        await gate.Run(write =>
        {
            EventTerms.Add(write, held.Id, supplement, bytes, by, at);
            return true;
        });
        return TypedResults.LocalRedirect($"/events/{held.Id}/rules");
    }

    private static async Task<Results<RedirectHttpResult, RazorComponentResult<ErrorPage>>> RemoveSupplement(
        string @event, IFormCollection form, Events events, WriteGate gate)
    {
        if (events.Find(@event) is not { } held)
        {
            return NoEvent(@event);
        }

        await gate.Run(write =>
        {
            EventTerms.Remove(write, held.Id, form["supplement"].ToString());
            return true;
        });
        return TypedResults.LocalRedirect($"/events/{held.Id}/rules");
    }

    private static async Task<Results<RedirectHttpResult, RazorComponentResult<EventRulesPage>, RazorComponentResult<ErrorPage>>> SetTerms(
        string @event, IFormCollection form, Events events, EditionLibrary editions, Database database, WriteGate gate)
    {
        if (events.Find(@event) is not { } held)
        {
            return NoEvent(@event);
        }

        var faults = new Faults();
        var terms = ReadTerms(form, faults);
        var freeze = Whole(form, "freezeMinutes", 1440, faults);
        var shares = new Dictionary<string, int>();
        foreach (var id in RuleIds(held, editions, database))
        {
            if (Whole(form, $"share.{id}", 100, faults) is { } percent and < 100)
            {
                shares[id] = percent;
            }
        }

        if (terms is null || !faults.AreNone)
        {
            return Page(held, editions, database, faults, Typed(form));
        }

        await gate.Run(write =>
        {
            EventTerms.Set(write, held.Id, terms, freeze, shares);
            return true;
        });
        return TypedResults.LocalRedirect($"/events/{held.Id}/rules");
    }

    private static async Task<Results<
        RedirectHttpResult, RazorComponentResult<EventRulesPage>, RazorComponentResult<ErrorPage>>> UseRevision(
        string @event, IFormCollection form, ClaimsPrincipal user, Events events, EditionLibrary editions, Database database,
        WriteGate gate, TimeProvider time)
    {
        if (events.Find(@event) is not { } held)
        {
            return NoEvent(@event);
        }

        var faults = new Faults();
        var revision = EventRules.RevisionFor(held, editions);
        if (revision is null || revision.Id != form["revision"])
        {
            faults.Add("useRevision", "The edition of this event has changed since this page was shown; look at it again.");
        }
        else if (form["useRevision"] != "yes")
        {
            faults.Add("useRevision", $"Tick the box if this event is to be judged under {revision.Id} from now on.");
        }
        else
        {
            using var connection = database.OpenForReading();
            EventTerms.Supplements(connection, held.Id).SelectMany(supplement => SupplementCheck.Against(revision, supplement))
                .Select(loosening => loosening.Message).Distinct().ToList().ForEach(message => faults.Add("useRevision", message));
        }

        if (!faults.AreNone)
        {
            return Page(held, editions, database, faults, Typed(form));
        }

        var (by, at) = (SignedIn.From(user).Person, time.GetUtcNow());
        await gate.Run(write => EventEdition.Use(write, held, revision!, by, at));
        return TypedResults.LocalRedirect($"/events/{held.Id}/rules");
    }

    private static async Task<Results<RedirectHttpResult, RazorComponentResult<EventRulesPage>, RazorComponentResult<ErrorPage>>> Confirm(
        string @event, IFormCollection form, ClaimsPrincipal user, Events events, EditionLibrary editions, Database database,
        WriteGate gate, TimeProvider time)
    {
        if (events.Find(@event) is not { } held)
        {
            return NoEvent(@event);
        }

        var faults = new Faults();
        var chosen = OpenLimits(held, editions).FirstOrDefault(limit => limit.Key == form["limit"]);
        var document = form["document"].ToString().Trim();
        if (chosen is null)
        {
            faults.Add("limit", "Choose the limit that was read in the document.");
        }

        if (document.Length is 0 or > 300)
        {
            faults.Add("document", "Name the document in which the limit was read, in at most 300 characters.");
        }

        var given = chosen?.Quantity is { } quantity ? Given(form, quantity, faults) : null;
        if (!faults.AreNone)
        {
            return Page(held, editions, database, faults, Typed(form));
        }

        var at = time.GetUtcNow();
        var confirmation = new Confirmation(
            chosen!.Rule, chosen.Limit, SignedIn.From(user).Person.ToString(), held.DayAt(at), document, given);
        await gate.Run(write =>
        {
            EventTerms.Confirm(write, held.Id, confirmation, at);
            return true;
        });
        return TypedResults.LocalRedirect($"/events/{held.Id}/rules");
    }

    /// <summary>The limit typed in for a rule whose edition has no figure.</summary>
    private static GivenLimit? Given(IFormCollection form, RuleQuantity quantity, Faults faults)
    {
        if (Catalogue.Of(quantity) is not { Quantity: { } measure, Rule: var term })
        {
            faults.Add("limit", "This limit is a day and not a figure; it cannot be given here.");
            return null;
        }

        var result = ReadingParser.Parse(form["given"].ToString(), measure, term!.PartUnit);
        if (result.Reading is not { } reading)
        {
            faults.Add("given", result.Refusal!);
            return null;
        }

        return new GivenLimit(quantity, new Limit(null, new Bound(reading.Value, true, reading.Text, reading.Notation)));
    }

    private static JudgingTerms? ReadTerms(IFormCollection form, Faults faults)
    {
        var written = new JsonObject { ["decision"] = form["decision"].ToString() is { Length: > 0 } word ? word : "simple" };
        if (form["guardFactor"].ToString().Trim() is { Length: > 0 } factor)
        {
            written["guardFactor"] = factor;
        }

        var uncertainties = new JsonArray();
        foreach (var term in Measured)
        {
            var parts = new JsonObject { ["quantity"] = term.Word };
            foreach (var part in Parts)
            {
                if (form[$"{term.Word}.{part}"].ToString().Trim() is { Length: > 0 } typed)
                {
                    var result = ReadingParser.Parse(typed, Catalogue.Of(term.Quantity).Quantity!.Value, term.PartUnit);
                    if (result.Refusal is { } refusal)
                    {
                        faults.Add($"{term.Word}.{part}", refusal);
                    }

                    parts[part] = result.Reading?.Text;
                }
            }

            if (parts.Count > 1)
            {
                uncertainties.Add((JsonNode)parts);
            }
        }

        written["uncertainties"] = uncertainties;
        if (!faults.AreNone)
        {
            return null;
        }

        var found = new List<Fault>();
        var terms = TermsReader.Read(Encoding.UTF8.GetBytes(written.ToJsonString()), found);
        found.ForEach(fault => faults.Add(fault.Path, fault.Message));
        return terms;
    }

    private static int? Whole(IFormCollection form, string name, int most, Faults faults)
    {
        if (form[name].ToString().Trim() is not { Length: > 0 } typed)
        {
            return null;
        }

        if (int.TryParse(typed, NumberStyles.None, CultureInfo.InvariantCulture, out var number) && number <= most)
        {
            return number;
        }

        faults.Add(name, $"\"{typed}\" is not a whole number from 0 to {most}.");
        return null;
    }

    /// <summary>Every limit of the editions in force that has to be confirmed before it decides.</summary>
    internal static IReadOnlyList<OpenLimit> OpenLimits(Event held, EditionLibrary editions) => EventRules.InForce(held, editions)
        .SelectMany(edition => edition.Rules)
        .SelectMany(rule => (rule is Rule.Limited limited ? limited.Cases : rule is Rule.Counted counted ? counted.Cases : [])
            .Where(one => one.Reference.Basis == Basis.Memory)
            .Select(one => new OpenLimit(
                rule.Id, one.Limit?.ToString(), one.Limit is null && rule is Rule.Limited unknown ? unknown.Quantity : null)))
        .Distinct().ToList();

    /// <summary>Those that nobody has confirmed for the event yet.</summary>
    internal static IReadOnlyList<OpenLimit> ToConfirm(Event held, EditionLibrary editions, Database database)
    {
        using var connection = database.OpenForReading();
        var confirmed = EventTerms.Of(connection, held.Id).Judging.Confirmations;
        return [.. OpenLimits(held, editions).Where(limit => !confirmed.Any(one => one.Rule == limit.Rule && one.Limit == limit.Limit))];
    }

    internal static IReadOnlyList<string> RuleIds(Event held, EditionLibrary editions, Database database)
    {
        using var connection = database.OpenForReading();
        return EventRules.InForce(held, editions).SelectMany(edition => edition.RuleIds)
            .Concat(EventTerms.Supplements(connection, held.Id).SelectMany(supplement => supplement.RuleIds)).Distinct().ToList();
    }

    internal static RazorComponentResult<EventRulesPage> Page(
        Event held, EditionLibrary editions, Database database, Faults faults, IReadOnlyDictionary<string, string> typed)
    {
        using var connection = database.OpenForReading();
        return new RazorComponentResult<EventRulesPage>(new
        {
            Event = held,
            Editions = EventRules.InForce(held, editions),
            Revision = EventRules.RevisionFor(held, editions),
            Changes = EventEdition.ChangesOf(connection, held.Id),
            Terms = EventTerms.Of(connection, held.Id),
            Open = OpenLimits(held, editions),
            RuleIds = RuleIds(held, editions, database),
            Faults = faults,
            Typed = typed,
        })
        { StatusCode = faults.AreNone ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity };
    }

    internal static Dictionary<string, string> Typed(IFormCollection form) =>
        form.Where(field => !field.Key.StartsWith("__", StringComparison.Ordinal))
            .ToDictionary(field => field.Key, field => field.Value.ToString());

    internal static RazorComponentResult<ErrorPage> NoEvent(string name) =>
        ErrorAnswers.Page(StatusCodes.Status404NotFound, $"There is no event \"{name}\" on this station.");
}

/// <summary>A limit that was not read in the rule book, or was not found.</summary>
/// <param name="Rule">The rule's id.</param>
/// <param name="Limit">The limit in words, or null when none was found.</param>
/// <param name="Quantity">The quantity that a limit is needed for, when none was found.</param>
public sealed record OpenLimit(string Rule, string? Limit, RuleQuantity? Quantity)
{
    /// <summary>Its name in a form.</summary>
    public string Key => $"{Rule}: {Limit ?? "no figure found"}";
}
