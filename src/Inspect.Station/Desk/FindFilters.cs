using Inspect.Station.Record;
using static Inspect.Station.Storage.EngineSql;

namespace Inspect.Station.Desk;

/// <summary>Every filter of the search, in the order of the form and of links.</summary>
/// <remarks>For a new filter add a row here, and in a migration an index on its column and the inspection's entry.</remarks>
internal static class FindFilters
{
    /// <summary>The table of all inspections.</summary>
    public static readonly FindTable Inspections = new("inspection_index", "i", "seq", null);

    private static readonly FindTable Rules =
        new("inspection_rule", "r", "seq", null, ("event", "event"), ("by_person", "by_person"), ("outcome", "verdict"));

    private static readonly FindTable Instruments = new("inspection_instrument", "m", "seq", null);
    private static readonly FindTable Models = new("inspection_model", "b", "seq", By("inspection_model_seq"));
    private static readonly FindTable Rulings = new("ruling_index", "g", "inspection_seq", null, ("event", "event"));

    private static readonly FindChoice[] Outcomes =
        [new("pass", "Pass", "pass passed"), new("fail", "Fail", "fail failed"), new("hold", "Hold", "hold held open undecided")];

    private static readonly FindChoice[] Standings =
    [
        new(Standing.Stands, "stands"), new(Standing.Superseded, "replaced", "replaced superseded"),
        new(Standing.Ruled, "ruled on", "ruled ruling"),
        new(Standing.Withdrawn, "withdrawn", "withdrawn"),
    ];

    private static readonly FindChoice[] RuleOutcomes = [new("fail", "not met"), new("hold", "open")];

    // As written in the index of days.
    private const string RecordedDay = "substr(at, 1, 10)";

    /// <summary>The one field in which anything may be typed.</summary>
    public static readonly FindFilter Search = new(
        "q", "A bowler, a maker or model, a serial, a tag, an entry number, an inspection number or the code of a slip; or several words, "
            + "each of which is one of these.",
        (_, _, typed) => FindReader.Words(
            typed, "a bowler, a maker or model, a serial, a tag, an entry number, an inspection number or the code of a slip"))
    {
        Seek = FindSearch.Any,
    };

    public static readonly FindFilter Event = new("event", "The event's short name.", (reader, _, typed) => reader.Event(typed))
    {
        Label = "Event",
        Choices = choices => choices.Events.Select(
            held => new FindChoice(held.Id, held.Id, $"{held.Id} {held.Name}", $"{held.Id}: {held.Name}")),
        Any = "every event",
        Offer = choice => $"event {choice.Words}",
        Sql = _ => Led("event", "= @event", "inspection_find_event", 3),
    };

    public static readonly FindFilter Ball = new("ball", "The id of a ball.", (_, _, typed) => FindReader.Ball(typed))
    {
        Sql = _ => Led("ball", "= @ball", "inspection_index_ball", 0, isNarrow: true),
    };

    /// <summary>Maker and model. Its value is the list of every recorded spelling that fits; an empty list finds nothing.</summary>
    public static readonly FindFilter Model = new(
        "model", "Maker or model of the ball or words of them; accents, case and order are forgiven.",
        (reader, _, typed) => reader.Models(typed))
    {
        Label = "Maker or model",

        Sql = _ => OfModels("model"),
    };

    /// <summary>The same for a maker or model that was typed into the one field and fits too many inspections to be listed there.</summary>
    public static readonly FindFilter SearchedModel = Model with { Name = "searchedModel", Sql = _ => OfModels("searchedModel") };

    public static readonly FindFilter Rule = new(
        "rule", "The id of a rule that was not met or stayed open.", (reader, _, typed) => reader.Rule(typed))
    {
        Label = "Rule",
        Choices = choices => choices.Rules.Select(rule => new FindChoice(rule.Value, rule.Words, rule.Words)),
        Offer = choice => $"not met or open: {choice.Words.ToLowerInvariant()}",
        Sql = _ => new(
            [new(Rules, "rule", "= @rule")],
            new FindLead(Rules, By("inspection_rule_person"), ["rule", "by_person"], 0),
            new FindLead(Rules, By("inspection_rule_event"), ["rule", "event"], 0),
            new FindLead(Rules, By("inspection_rule_find"), ["rule"], 0)),
    };

    public static readonly FindFilter From = new("from", "The first day of play.", (_, _, typed) => FindReader.DayOf(typed))
    {
        Label = "Day of play from",
        Named = "played from",
        Type = "date",
        Sql = _ => new([Is("play", ">= @from")]),
        Days = new("play", IsLast: false),
    };

    public static readonly FindFilter RecordedFrom = new(
        "recordedFrom", "A day, a local time at the event's venue (without an event: UTC), or an instant with its offset.",
        (reader, asked, typed) => reader.RecordedFrom(asked, typed))
    {
        Label = "Recorded from",
        Hint = _ => "2027-03-14 or 2027-03-14T09:26",
        Sql = _ => new([Is("at", ">= @recordedFrom")]),
        Days = new(RecordedDay, IsLast: false),
    };

    /// <summary>All of them.</summary>
    public static readonly IReadOnlyList<FindFilter> All =
    [
        Search,
        Event,
        new("entry", "The bowler's number in an event.", (_, _, typed) => FindReader.Entry(typed))
        {
            Label = "Entry",
            Seek = (connection, typed, eventId) => Sought.Of(FindSearch.Entry(connection, typed, eventId)),
        },
        new("bowler", "A bowler's name or part of it; accents, case and order are forgiven.",
            (_, _, typed) => FindReader.Words(typed, "a bowler's name or part of it"))
        {
            Label = "Bowler",
            Seek = (connection, typed, eventId) => Sought.Of(FindSearch.Bowler(connection, typed, eventId)),
        },
        Ball,
        new("serial", "A serial number; look-alike characters count as one.", (_, _, typed) => FindReader.Serial(typed))
        {
            Label = "Serial",
            Sql = _ => Led("serial_folded", "= @serial", "inspection_index_serial", 1, isNarrow: true),
        },
        Model,
        new("inspector", "The sign-in name of the person who recorded.", (reader, _, typed) => reader.Inspector(typed))
        {
            Label = "Inspector",
            Choices = choices => choices.Officials.Select(
                official => new FindChoice(official.SignInName, official.Name, $"{official.Name} {official.SignInName}")),
            Any = "everyone",
            Offer = choice => $"recorded by {choice.Words}",
            Sql = _ => Led("by_person", "= @inspector", "inspection_find_person", 2),
        },
        new("outcome", "pass, fail or hold.", (_, _, typed) => FindReader.OneOf(Outcomes, typed))
        {
            Label = "Verdict",
            Choices = _ => Outcomes,
            Offer = choice => $"verdict: {choice.Words}",
            Sql = _ => Led("outcome", "= @outcome", "inspection_find_outcome", 5),
        },
        new("standing", "stands, superseded, withdrawn or ruled.", (_, _, typed) => FindReader.OneOf(Standings, typed))
        {
            Label = "Standing",
            Choices = _ => Standings,
            Offer = choice => choice.Words,
            Sql = standing => standing switch
            {
                Standing.Superseded => Led("superseded_by", "IS NOT NULL", "inspection_find_superseded", 6),
                Standing.Stands => new([Is("superseded_by", "IS NULL"), new(Rulings, "seq", "IS NOT NULL", IsNone: true)]),
                Standing.Withdrawn => LatestRuling("IN"),
                _ => LatestRuling("NOT IN"),
            },
        },
        Rule,
        new("ruleOutcome", "fail or hold; only with a rule.", (_, asked, typed) => asked[Rule] is null
            ? FindValue.No($"\"{typed}\" says how a rule came out; name the rule as well.")
            : FindReader.OneOf(RuleOutcomes, typed))
        {
            Label = "The rule was",
            Named = "which was",
            Choices = _ => RuleOutcomes,
            Any = "not met or open",
            Sql = _ => new([new(Rules, "outcome", "= @ruleOutcome")]),
        },
        new("instrument", "The name of an instrument that a reading was taken with.", (reader, _, typed) => reader.Instrument(typed))
        {
            Label = "Instrument",
            Choices = choices => choices.Instruments.Select(name => new FindChoice(name, name, name)),
            Offer = choice => $"read with {choice.Words}",
            Sql = _ => new([new(Instruments, "instrument", "= @instrument")], new FindLead(Instruments, null, ["instrument"], 1)),
        },
        new("edition", "The rule edition's id.", (reader, _, typed) => reader.Edition(typed))
        {
            Label = "Rule edition",
            Named = "under",
            Choices = choices => choices.Editions.Select(edition => new FindChoice(edition.Value, edition.Words)),
            Sql = _ => Led("edition", "= @edition", "inspection_find_edition", 4),
        },
        From,
        new("to", "The last day of play.", (_, asked, typed) => FindReader.LastDay(asked, typed))
        {
            Label = "Day of play to",
            Named = "played to",
            Type = "date",
            Sql = _ => new([Is("play", "<= @to")]),
            Days = new("play", IsLast: true),
        },
        RecordedFrom,
        new("recordedTo", "Written like recordedFrom; the whole day or minute is included.",
            (reader, asked, typed) => reader.RecordedTo(asked, typed))
        {
            Label = "Recorded to",
            Hint = asked => asked[Event] is null ? "without an event: UTC" : "at the venue",
            Sql = _ => new([Is("at", "< @recordedTo")]),
            Days = new(RecordedDay, IsLast: true),
        },
    ];

    private static FindCondition Is(string column, string test) => new(Inspections, column, test);

    // The last choice, because the rows of several models must be sorted.
    private static FindSql OfModels(string names) =>
        new([new(Models, "name", $"IN (SELECT k.value FROM {Each(names)} k)")], new FindLead(Models, ByKey, ["name"], 7));

    private static FindSql Led(string column, string test, string index, int turn, bool isNarrow = false) =>
        new([Is(column, test)], new FindLead(Inspections, By(index), [column], turn, isNarrow));

    private static FindSql LatestRuling(string isOneOf) => new(
        [
            Is("superseded_by", "IS NULL"),
            new(Rulings, "seq", "= (SELECT max(l.seq) FROM ruling_index l WHERE l.inspection_seq = g.inspection_seq)"),
            new(Rulings, "decision", $"{isOneOf} ('withdraw', 'undo')"),
        ],
        new FindLead(Rulings, null, ["seq", "decision", "event"], 6),
        new FindLead(Rulings, null, ["seq", "decision"], 6));
}
