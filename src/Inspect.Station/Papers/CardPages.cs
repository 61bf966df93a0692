using System.Globalization;
using System.Text;
using Inspect.Rules.Replaying;
using Inspect.Station.Access;
using Inspect.Station.Prepare;
using Inspect.Station.Record;
using Inspect.Station.Slip;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Inspect.Station.Papers;

/// <summary>Prints the cards of entries and sheets to be filled in by hand, and gives the links of the cards to be sent.</summary>
public static class CardPages
{
    /// <summary>The fields of the form of cards.</summary>
    public static readonly ChoiceFields OfCards = new("squad", "entry", "paper");

    /// <summary>The fields of the form of sheets, on the same page.</summary>
    public static readonly ChoiceFields OfSheets = new("sheets.squad", "sheets.entry", "sheets.paper");

    private const int MostSheets = 40;

    public static void MapCardPages(this IEndpointRouteBuilder app)
    {
        var pages = app.MapGroup("/events/{event}").RequireAuthorization(Policies.Inspector).ExcludeFromDescription();
        pages.MapGet("cards", Show).WithName("CardsPage").WithSummary("Which entry cards are to be printed");
        pages.MapPost("cards.pdf", Print).WithName("PrintCards").WithSummary("The cards of entries on paper");
        pages.MapPost("sheets.pdf", Sheets).WithName("PrintSheets").WithSummary("Inspection sheets to be filled in by hand");
        pages.MapPost("cards.csv", Links).WithName("CardLinks").WithSummary("The links of the entry cards as a table");
    }

    private static Results<RazorComponentResult<CardsPage>, RazorComponentResult<ErrorPage>> Show(
        string @event, Events events, PublicAddress address, string? entry = null) =>
        events.Find(@event) is { } held
            ? Page(held, events.EntriesOf(held.Id), address, entry, new Faults()) : NoEvent(@event);

    private static async Task<Results<FileContentHttpResult, RazorComponentResult<CardsPage>, RazorComponentResult<ErrorPage>>> Print(
        string @event, IFormCollection form, Events events, EntryCards cards, PublicAddress address)
    {
        if (events.Find(@event) is not { } held)
        {
            return NoEvent(@event);
        }

        var (entries, faults) = (events.EntriesOf(held.Id), new Faults());
        var chosen = Chosen(held, entries, form, OfCards, faults);
        var size = Size(held, form, OfCards, faults);
        if (!faults.AreNone)
        {
            return Page(held, entries, address, form["entry"], faults);
        }

        var codes = await cards.Of(held, chosen);
        var printed = chosen.Select(entry => new EntryCard(
            held.Name, entry.Number, entry.Bowler,
            held.Squads.FirstOrDefault(squad => squad.Name == entry.Squad) is { } squad
                ? $"{squad.Name}, {EventWords.Moment(squad.Starts)}" : null,
            ScanAddress.OfCard(new Uri(address.Root), codes[entry.Number]))).ToList();
        return TypedResults.File(EntryCardPaper.Render(size!, printed).Pdf, "application/pdf", $"{held.Id}-cards.pdf");
    }

    private static async Task<Results<FileContentHttpResult, RazorComponentResult<CardsPage>, RazorComponentResult<ErrorPage>>> Links(
        string @event, IFormCollection form, Events events, EntryCards cards, PublicAddress address)
    {
        if (events.Find(@event) is not { } held)
        {
            return NoEvent(@event);
        }

        var (entries, faults) = (events.EntriesOf(held.Id), new Faults());
        var chosen = Chosen(held, entries, form, OfCards, faults);
        if (!faults.AreNone)
        {
            return Page(held, entries, address, form["entry"], faults);
        }

        var codes = await cards.Of(held, chosen);
        var table = new StringBuilder(CsvRow.Of("entry", "bowler", "squad", "link"));
        foreach (var entry in chosen)
        {
            // In small letters: not every mail program makes a link of an address that begins with HTTP.
            table.Append(CsvRow.Of(entry.Number, entry.Bowler, entry.Squad, address.Of($"/e/{codes[entry.Number]}")));
        }

        var bytes = Encoding.UTF8.GetBytes(table.ToString());
        return TypedResults.File(bytes, "text/csv; charset=utf-8; header=present", $"{held.Id}-cards.csv");
    }

    private static Results<FileContentHttpResult, RazorComponentResult<CardsPage>, RazorComponentResult<ErrorPage>> Sheets(
        string @event, IFormCollection form, Events events, EnteredBalls balls, InspectionLookup lookup, PublicAddress address)
    {
        if (events.Find(@event) is not { } held)
        {
            return NoEvent(@event);
        }

        var (entries, faults) = (events.EntriesOf(held.Id), new Faults());
        var isForAnyone = form[OfSheets.Squad].ToString().Length == 0 && form[OfSheets.Entry].ToString().Trim().Length == 0;
        List<Entry> chosen = isForAnyone ? [] : Chosen(held, entries, form, OfSheets, faults);
        if (!int.TryParse(form["sheets"], NumberStyles.None, CultureInfo.InvariantCulture, out var many) || many is 0 or > MostSheets)
        {
            faults.Add("sheets", $"\"{form["sheets"]}\" is not a number of sheets from 1 to {MostSheets}.");
        }

        var size = Size(held, form, OfSheets, faults);
        if (!faults.AreNone)
        {
            return Page(held, entries, address, form[OfSheets.Entry], faults);
        }

        var listed = chosen.SelectMany(entry =>
            balls.ToInspect(held.Id, entry.Number, lookup.OfEntry(held.Id, entry.Number)).Select(ball => (BallAsWritten?)ball.Ball)
                .DefaultIfEmpty(null).SelectMany(ball => Enumerable.Repeat(ball, ball is null ? many : 1))
                .Select(ball => new EmptySheet(held.Name, entry.Number, entry.Bowler ?? "", ball)));
        List<EmptySheet> sheets = [.. isForAnyone ? Enumerable.Repeat(new EmptySheet(held.Name, "", "", null), many) : listed];
        return TypedResults.File(EmptySheetPaper.Render(size!, sheets).Pdf, "application/pdf", $"{held.Id}-sheets.pdf");
    }

    private static PaperSize? Size(Event held, IFormCollection form, ChoiceFields fields, Faults faults)
    {
        if (!PaperSize.TryFind(form[fields.Paper], held.Authority, out var size))
        {
            faults.Add(fields.Paper, $"\"{form[fields.Paper]}\" is not a paper size known here; choose A4 or Letter.");
        }

        return size;
    }

    // By squad, those without one last, and within it by number.
    private static List<Entry> Chosen(Event held, IReadOnlyList<Entry> entries, IFormCollection form, ChoiceFields fields, Faults faults)
    {
        var (squad, number) = (form[fields.Squad].ToString(), form[fields.Entry].ToString().Trim());
        var order = held.Squads.Index().ToDictionary(each => each.Item.Name, each => each.Index);
        if (squad.Length > 0 && !order.ContainsKey(squad))
        {
            faults.Add(fields.Squad, $"There is no squad \"{squad}\" in {held.Name}; choose one from the list.");
        }

        var chosen = entries.Where(entry => !entry.IsWithdrawn)
            .Where(entry => number.Length > 0 ? string.Equals(entry.Number, number, StringComparison.OrdinalIgnoreCase)
                : squad.Length == 0 || entry.Squad == squad)
            .OrderBy(entry => entry.Squad is { } name && order.TryGetValue(name, out var place) ? place : int.MaxValue).ToList();
        if (number.Length > 0 && chosen.Count == 0)
        {
            faults.Add(fields.Entry, entries.FirstOrDefault(entry => entry.Number == number)?.Refusal
                ?? $"There is no entry \"{number}\" in {held.Name}.");
        }
        else if (chosen.Count == 0 && faults.AreNone)
        {
            faults.Add(squad.Length > 0 ? fields.Squad : fields.Entry, "Nobody is entered there yet, so there is nothing to print.");
        }

        return chosen;
    }

    private static RazorComponentResult<CardsPage> Page(
        Event held, IReadOnlyList<Entry> entries, PublicAddress address, string? typed, Faults faults)
    {
        PaperSize.TryFind(null, held.Authority, out var usual);
        return new RazorComponentResult<CardsPage>(new
        {
            Event = held,
            Entries = entries,
            address.IsOnlyForThisMachine,
            Typed = typed,
            Paper = usual!.Name,
            Faults = faults,
        })
        { StatusCode = faults.AreNone ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity };
    }

    private static RazorComponentResult<ErrorPage> NoEvent(string @event) =>
        ErrorAnswers.Page(StatusCodes.Status404NotFound, $"There is no event \"{@event}\" on this station.");
}

/// <summary>The names of the fields that say for whom something is printed, and on what.</summary>
public sealed record ChoiceFields(string Squad, string Entry, string Paper);
