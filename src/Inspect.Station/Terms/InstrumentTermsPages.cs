using System.Globalization;
using Inspect.Rules.Rulesets;
using Inspect.Station.Access;
using Inspect.Station.Instruments;
using Inspect.Station.Prepare;
using Inspect.Station.Storage;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Inspect.Station.Terms;

/// <summary>The part of the page of an event's rules where a director uses the instruments' uncertainties and
/// sets how checks count.</summary>
public static class InstrumentTermsPages
{
    public static void MapInstrumentTermsPages(this IEndpointRouteBuilder app)
    {
        var pages = app.MapGroup("/events/{event}/rules").RequireAuthorization(Policies.Director).ExcludeFromDescription();
        pages.MapPost("instrument", Use).WithName("UseInstrumentUncertainty").WithSummary("Uses an instrument's uncertainty for the event");
        pages.MapPost("checks", SetChecks).WithName("SetCheckRule").WithSummary("Sets how checks of instruments count");
    }

    private static async Task<Results<RedirectHttpResult, RazorComponentResult<EventRulesPage>, RazorComponentResult<ErrorPage>>> Use(
        string @event, IFormCollection form, Events events, EditionLibrary editions, Database database, WriteGate gate)
    {
        if (events.Find(@event) is not { } held)
        {
            return EventRulesPages.NoEvent(@event);
        }

        var (name, reads) = (form["instrument"].ToString(), form["reads"].ToString());
        var isTaken = await gate.Run(write =>
        {
            if (UncertaintyOffer.All(write.Connection, write.Transaction)
                .FirstOrDefault(one => one.Instrument.Name == name && one.Label == reads) is not { } offer)
            {
                return false;
            }

            var terms = EventTerms.Of(write.Connection, held.Id, write.Transaction);
            EventTerms.Set(write, held.Id, offer.TakenOver(terms.Judging), terms.FreezeMinutes, terms.Shares);
            return true;
        });
        if (isTaken)
        {
            return TypedResults.LocalRedirect($"/events/{held.Id}/rules");
        }

        var faults = new Faults();
        faults.Add(Faults.Whole, $"\"{name}\" is not an instrument that reads this; choose one from the list.");
        return EventRulesPages.Page(held, editions, database, faults, new Dictionary<string, string>());
    }

    private static async Task<Results<RedirectHttpResult, RazorComponentResult<EventRulesPage>, RazorComponentResult<ErrorPage>>> SetChecks(
        string @event, IFormCollection form, Events events, EditionLibrary editions, Database database, WriteGate gate)
    {
        if (events.Find(@event) is not { } held)
        {
            return EventRulesPages.NoEvent(@event);
        }

        var (typed, faults) = (form["checkHours"].ToString().Trim(), new Faults());
        int? hours = null;
        if (typed.Length > 0)
        {
            if (int.TryParse(typed, NumberStyles.None, CultureInfo.InvariantCulture, out var read)
                && read is >= 1 and <= CheckRule.MostHours)
            {
                hours = read;
            }
            else
            {
                faults.Add("checkHours", string.Create(CultureInfo.InvariantCulture, $"\"{typed}\" is not a whole number of hours from 1 "
                    + $"to {CheckRule.MostHours}; leave it empty for the day at the venue."));
            }
        }

        if (!faults.AreNone)
        {
            return EventRulesPages.Page(held, editions, database, faults, EventRulesPages.Typed(form));
        }

        var rule = new CheckRule(hours, form["checkRequired"] == "yes");
        await gate.Run(write =>
        {
            CheckRule.Set(write, held.Id, rule);
            return true;
        });
        return TypedResults.LocalRedirect($"/events/{held.Id}/rules");
    }
}
