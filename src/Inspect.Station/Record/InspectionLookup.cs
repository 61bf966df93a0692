using System.Data.Common;
using Dapper;
using Inspect.Rules.Judging;
using Inspect.Rules.Rulesets;
using Inspect.Sheets;
using Inspect.Sheets.Json;
using Inspect.Station.Access;
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

    /// <summary>The inspection with a number, and where it stands now.</summary>
    public FoundInspection? ByNumber(InspectionNumber number)
    {
        using var connection = database.OpenForReading();
        return Find(connection, number, null);
    }

    /// <summary>The inspection whose slip carries a code, and where it stands now.</summary>
    public FoundInspection? ByCode(SlipCode code)
    {
        using var connection = database.OpenForReading();
        return Found(connection, connection.QuerySingleOrDefault<InspectionRow>($"{Columns} WHERE code = @code", new { code = code.ToString() }));
    }

    /// <summary>The inspections of one entry, newest first.</summary>
    public IReadOnlyList<InspectionRow> OfEntry(string eventId, string entry)
    {
        using var connection = database.OpenForReading();
        return connection.Query<InspectionRow>(
            $"{Columns} WHERE event = @eventId AND entry = @entry ORDER BY seq DESC", new { eventId, entry }).AsList();
    }

    /// <summary>Every inspection of one ball, oldest first.</summary>
    public IReadOnlyList<InspectionRow> OfBall(string ball)
    {
        using var connection = database.OpenForReading();
        return connection.Query<InspectionRow>($"{Columns} WHERE ball = @ball ORDER BY seq", new { ball }).AsList();
    }

    /// <summary>The latest inspection of a ball under any entry of one person, or null when the person never brought it.</summary>
    public FoundInspection? LatestOf(string ball, PersonId bowler)
    {
        using var connection = database.OpenForReading();
        return LatestNumberOf(connection, ball, bowler, null) is { } number && InspectionNumber.TryParse(number, out var latest) ? Find(connection, latest, null) : null;
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
        var (completed, terms, verdict) = SheetOfEvent.Judge(connection, null, editions, presented, faults);
        RuleErrorLog.Write(log, verdict?.RuleErrors ?? []);
        var edition = verdict?.Edition is { } mark && editions.TryFind(mark.Id, out var found) ? found : null;
        return verdict is null
            ? null
            : new PreviewedInspection(
                completed, terms, verdict, edition,
                LookAlikes.Sentence(connection, presented.Held.Id, presented.Entry.Number, presented.Ball, presented.Sheet.Ball?.Serial));
    }

    /// <summary>What the event set when an inspection was judged, and the supplements of then whose rules are not known any more.</summary>
    public (JudgingTerms Terms, IReadOnlyList<string> Gone) TermsOf(Inspection inspection)
    {
        using var connection = database.OpenForReading();
        return EventTerms.AsJudged(connection, inspection.Event, inspection.Terms, inspection.Verdict);
    }

    /// <summary>What keeps a tag from being put on a ball, in a sentence; null when nothing does.</summary>
    public string? TagFault(string eventId, string tag, string? ball)
    {
        using var connection = database.OpenForReading();
        return Tags.Unusable(tag) ?? Tags.Taken(connection, null, eventId, tag, ball);
    }

    /// <summary>Another ball of the event whose serial can be taken for this one's, in a sentence; null when there is none.</summary>
    public string? LookAlikeOf(Inspection inspection)
    {
        using var connection = database.OpenForReading();
        return LookAlikes.Sentence(connection, inspection.Event, inspection.Entry, inspection.Ball, inspection.Sheet.Ball?.Serial);
    }

    /// <summary>Every inspection of an event as it was recorded, oldest first.</summary>
    public IReadOnlyList<Inspection> AllOf(string eventId)
    {
        using var connection = database.OpenForReading();
        return connection.Query<byte[]>(
            "SELECT r.body FROM inspection_index i JOIN register_entry r ON r.seq = i.seq WHERE i.event = @eventId ORDER BY i.seq",
            new { eventId },
            buffered: false).Select(body => InspectionBody.Read(body)).ToList();
    }

    /// <summary>The inspection with a number, and where it stands now, inside a transaction where one is given.</summary>
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

    internal static InspectionRow? Row(DbConnection connection, InspectionNumber number, DbTransaction? transaction) =>
        connection.QuerySingleOrDefault<InspectionRow>($"{Columns} WHERE number = @number", new { number = number.ToString() }, transaction);

    private static FoundInspection? Found(DbConnection connection, InspectionRow? row, DbTransaction? transaction = null)
    {
        if (row is null)
        {
            return null;
        }

        var body = Register.BodyOf(connection, row.Seq, transaction)
            ?? throw new InvalidDataException($"The register has no entry {row.Seq}, which the index names for {row.Number}.");
        return new FoundInspection(InspectionBody.Read(body), row.Seq, row.SupersededBy, RulingIndex.Of(connection, row.Number, transaction));
    }
}

/// <summary>What recording a sheet now would come to.</summary>
/// <param name="Sheet">The sheet with what the event and the station add to it.</param>
/// <param name="Terms">What the event adds to the edition.</param>
/// <param name="Verdict">The verdict.</param>
/// <param name="Edition">The edition it was judged under, where one is in force.</param>
/// <param name="LookAlike">Another ball of the event whose serial can be taken for this one's, in a sentence; null when there is none.</param>
public sealed record PreviewedInspection(Sheet Sheet, JudgingTerms Terms, Verdict Verdict, Edition? Edition, string? LookAlike);

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
    /// <summary>Whether it still speaks for its ball: neither replaced nor withdrawn nor taken back.</summary>
    public bool Stands => SupersededBy is null && Decision is not ("withdraw" or "undo");

    /// <summary>Where it stands, in a few words for a list.</summary>
    public string StandingWords => Standing.InAList(SupersededBy, Decision is null ? null : Decisions.Words[Decision]);
}

/// <summary>A recorded inspection and where it stands now.</summary>
/// <param name="Inspection">What was recorded.</param>
/// <param name="Seq">Its entry in the register.</param>
/// <param name="SupersededBy">The inspection that replaced it, or null while it stands.</param>
/// <param name="Rulings">What was ruled on it, oldest first.</param>
public sealed record FoundInspection(Inspection Inspection, long Seq, string? SupersededBy, IReadOnlyList<Ruling> Rulings)
{
    /// <summary>The ruling in force.</summary>
    public Ruling? Ruling => Rulings.Count == 0 ? null : Rulings[^1];

    /// <summary>Whether a later inspection of the same ball replaced it.</summary>
    public bool IsSuperseded => SupersededBy is not null;
}
