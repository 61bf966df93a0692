using System.Data.Common;
using Dapper;
using Inspect.Rules.Judging;
using Inspect.Rules.Rulesets;
using Inspect.Sheets;
using Inspect.Sheets.Json;
using Inspect.Station.Access;
using Inspect.Station.ModelLists;
using Inspect.Station.Prepare;
using Inspect.Station.Storage;

namespace Inspect.Station.Record;

/// <summary>Finds recorded inspections by number, by code or by entry.</summary>
public sealed class InspectionLookup(Database database, ILogger<InspectionLookup> log)
{
    private static readonly string Columns = $"""
        SELECT seq AS Seq, number AS Number, event AS Event, entry AS Entry, code AS Code, ball AS Ball, serial AS Serial, play AS Play,
               outcome AS Outcome, at AS At, supersedes AS Supersedes, superseded_by AS SupersededBy,
               {RulingIndex.Decided("inspection_index")} AS Decision
        FROM inspection_index
        """;

    /// <summary>The inspection with a number, and its standing now.</summary>
    public FoundInspection? ByNumber(InspectionNumber number)
    {
        using var connection = database.OpenForReading();
        return Find(connection, number, null);
    }

    /// <summary>The inspection whose slip has a code, and its standing now.</summary>
    public FoundInspection? ByCode(SlipCode code)
    {
        using var connection = database.OpenForReading();
        return Found(connection,
            connection.QuerySingleOrDefault<InspectionRow>($"{Columns} WHERE code = @code", new { code = code.ToString() }));
    }

    /// <summary>The inspections of one entry and of those that were merged into it, newest first.</summary>
    public IReadOnlyList<InspectionRow> OfEntry(string eventId, string entry)
    {
        // Put in order here: asked for the order, the engine reads through the whole event instead of the few rows of an entry.
        using var connection = database.OpenForReading();
        return [.. connection.Query<InspectionRow>($"{Columns} WHERE event = @eventId AND entry IN ({Numbers})", new { eventId, entry })
            .OrderByDescending(row => row.Seq)];
    }

    /// <summary>The number of an entry and of those that were merged into it, as a subquery.</summary>
    internal const string Numbers =
        "SELECT @entry UNION ALL SELECT m.entry FROM entry m WHERE m.event = @eventId AND m.merged_into = @entry";

    /// <summary>Every inspection of one ball, oldest first.</summary>
    public IReadOnlyList<InspectionRow> OfBall(string ball)
    {
        using var connection = database.OpenForReading();
        return connection.Query<InspectionRow>($"{Columns} WHERE ball = @ball ORDER BY seq", new { ball }).AsList();
    }

    /// <summary>The latest inspection of a ball under any entry of one person; null when there is none.</summary>
    public FoundInspection? LatestOf(string ball, PersonId bowler)
    {
        using var connection = database.OpenForReading();
        return LatestNumberOf(connection, ball, bowler, null) is { } number && InspectionNumber.TryParse(number, out var latest)
            ? Find(connection, latest, null) : null;
    }

    /// <summary>The latest inspections of an event.</summary>
    public IReadOnlyList<InspectionRow> Latest(string eventId, int most)
    {
        using var connection = database.OpenForReading();
        return connection.Query<InspectionRow>(
            $"{Columns} WHERE event = @eventId ORDER BY seq DESC LIMIT @most", new { eventId, most }).AsList();
    }

    /// <summary>The verdict that recording a sheet now would reach, or null with the faults added; nothing is kept.</summary>
    public PreviewedInspection? Preview(EditionLibrary editions, PresentedBall presented, List<Fault> faults)
    {
        using var connection = database.OpenForReading();
        var (completed, terms, verdict, lists) = SheetOfEvent.Judge(connection, null, editions, presented, faults);
        RuleErrorLog.Write(log, verdict?.RuleErrors ?? []);
        var edition = verdict?.Edition is { } mark && editions.TryFind(mark.Id, out var found) ? found : null;
        return verdict is null
            ? null
            : new PreviewedInspection(
                completed, terms.Judging, verdict, edition,
                LookAlikes.Sentence(connection, presented.Held.Id, presented.Entry.Number, presented.Ball, presented.Sheet.Ball?.Serial))
            {
                Lists = lists,
                IsOtherwise = lists?.IsOtherwise(presented.Sheet.Ball?.Listed) == true,
            };
    }

    /// <summary>What the event set when an inspection was judged, and the supplements of that time whose rules
    /// are no longer known.</summary>
    public (JudgingTerms Terms, IReadOnlyList<string> Gone) TermsOf(Inspection inspection)
    {
        using var connection = database.OpenForReading();
        return EventTerms.AsJudged(connection, inspection.Event, inspection.Terms, inspection.Verdict);
    }

    /// <summary>Why a tag cannot be put on a ball, in a sentence; null when it can.</summary>
    public string? TagFault(string eventId, string tag, string? ball)
    {
        using var connection = database.OpenForReading();
        return Tags.Unusable(tag) ?? Tags.Taken(connection, null, eventId, tag, ball);
    }

    /// <summary>A sentence about another ball of the event with a serial that looks like this one's; null when there is none.</summary>
    public string? LookAlikeOf(Inspection inspection)
    {
        using var connection = database.OpenForReading();
        return LookAlikes.Sentence(connection, inspection.Event, inspection.Entry, inspection.Ball, inspection.Sheet.Ball?.Serial);
    }

    /// <summary>Every inspection of an event as it was recorded, oldest first.</summary>
    public IReadOnlyList<Inspection> AllOf(string eventId)
    {
        using var connection = database.OpenForReading();
        return [.. Register.Bodies(
            connection,
            $"SELECT {Register.Entry("r")} FROM inspection_index i JOIN register_entry r ON r.seq = i.seq WHERE i.event = @eventId "
                + "ORDER BY i.seq",
            new { eventId }).Select(entry => InspectionBody.Read(entry.Body))];
    }

    /// <summary>The inspection with a number, and its standing now, within a transaction if one is given.</summary>
    internal static FoundInspection? Find(DbConnection connection, InspectionNumber number, DbTransaction? transaction) =>
        Found(connection, Row(connection, number, transaction), transaction);

    internal static string? LatestNumberOf(DbConnection connection, string ball, PersonId bowler, DbTransaction? transaction) =>
        connection.ExecuteScalar<string?>(
            """
            SELECT i.number FROM inspection_index i JOIN entry e ON e.event = i.event AND e.entry = i.entry
            WHERE i.ball = @ball AND e.person = @bowler ORDER BY i.seq DESC LIMIT 1
            """,
            new { ball, bowler = bowler.ToString() },
            transaction);

    /// <summary>Whether an inspection's entry was merged into another.</summary>
    internal static bool IsMerged(DbConnection connection, DbTransaction? transaction, InspectionRow row, string into) =>
        connection.ExecuteScalar<long>(
            "SELECT EXISTS (SELECT 1 FROM entry WHERE event = @Event AND entry = @Entry AND merged_into = @into)",
            new { row.Event, row.Entry, into }, transaction) == 1;

    internal static InspectionRow? Row(DbConnection connection, InspectionNumber number, DbTransaction? transaction) =>
        connection.QuerySingleOrDefault<InspectionRow>($"{Columns} WHERE number = @number", new { number = number.ToString() },
            transaction);

    private static FoundInspection? Found(DbConnection connection, InspectionRow? row, DbTransaction? transaction = null)
    {
        if (row is null)
        {
            return null;
        }

        var body = Register.BodyOf(connection, row.Seq, transaction)
            ?? throw new InvalidDataException($"The register has no entry {row.Seq}, which the index names for {row.Number}.");
        return new FoundInspection(
            InspectionBody.Read(body), row.Seq, row.SupersededBy, RulingIndex.Of(connection, row.Number, transaction),
            SpotCheckIndex.Of(connection, row.Number, transaction), FreezeAlert.Of(connection, row.Number, transaction));
    }
}

/// <summary>What recording a sheet now would give.</summary>
/// <param name="Sheet">The sheet, completed by the event and the station.</param>
/// <param name="Terms">What the event adds to the edition.</param>
/// <param name="Verdict">The verdict.</param>
/// <param name="Edition">The edition it was judged under; null when none is in force.</param>
/// <param name="LookAlike">A sentence about another ball of the event with a serial that looks like this one's; null
/// when there is none.</param>
public sealed record PreviewedInspection(Sheet Sheet, JudgingTerms Terms, Verdict Verdict, Edition? Edition, string? LookAlike)
{
    /// <summary>What the lists of models say that the event reads; null where they say nothing.</summary>
    public ListAnswers? Lists { get; init; }

    /// <summary>Whether the list of approved balls says something else than the sheet, which then needs a reason.</summary>
    public bool IsOtherwise { get; init; }
}

/// <summary>A row of the index of inspections.</summary>
public sealed record InspectionRow(
    long Seq,
    string Number,
    string Event,
    string Entry,
    string Code,
    string? Ball,
    string? Serial,
    string Play,
    string Outcome,
    string At,
    string? Supersedes,
    string? SupersededBy,
    string? Decision)
{
    /// <summary>Whether it still counts for its ball: not replaced, withdrawn or taken back.</summary>
    public bool Stands => SupersededBy is null && Decision is not ("withdraw" or "undo");

    /// <summary>Its standing, in a few words for a list.</summary>
    public string StandingWords => Standing.InAList(SupersededBy, Decision is null ? null : Decisions.Words[Decision]);
}

/// <summary>A recorded inspection and its standing now.</summary>
/// <param name="Inspection">What was recorded.</param>
/// <param name="Seq">Its entry in the register.</param>
/// <param name="SupersededBy">The inspection that replaced it, or null.</param>
/// <param name="Rulings">What was ruled on it, oldest first.</param>
/// <param name="SpotChecks">The comparisons of a ball in use with it, oldest first.</param>
/// <param name="Alert">That it differs from its slip although the ball was not to be changed; null when it does not.</param>
public sealed record FoundInspection(
    Inspection Inspection, long Seq, string? SupersededBy, IReadOnlyList<Ruling> Rulings, IReadOnlyList<SpotCheck> SpotChecks,
    FreezeAlert? Alert)
{
    /// <summary>The ruling in force.</summary>
    public Ruling? Ruling => Rulings.Count == 0 ? null : Rulings[^1];

    /// <summary>The same without a text that names a bowler who is under age.</summary>
    public FoundInspection ForAnyone(YoungBowlers young) =>
        this with { Rulings = [.. Rulings.Select(ruling => ruling.ForAnyone(young, Inspection.Entry))] };

    /// <summary>The spot checks that found another ball and on which nobody has ruled since.</summary>
    public IEnumerable<SpotCheck> OpenSpotChecks => SpotChecks.Where(check => !check.IsTheBall && check.Seq > (Ruling?.Seq ?? 0));

    /// <summary>Whether there is an alert and nobody has ruled since.</summary>
    public bool IsAlertOpen => Alert is not null && Ruling is null;

    /// <summary>Whether a director has to decide although it may have passed.</summary>
    public bool IsDoubted => IsAlertOpen || OpenSpotChecks.Any();

    /// <summary>Whether a later inspection of the same ball replaced it.</summary>
    public bool IsSuperseded => SupersededBy is not null;
}
