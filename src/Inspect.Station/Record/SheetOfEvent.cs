using System.Data.Common;
using Dapper;
using Inspect.Rules.Judging;
using Inspect.Rules.Rulesets;
using Inspect.Sheets;
using Inspect.Sheets.Json;
using Inspect.Station.ModelLists;
using Inspect.Station.Prepare;

namespace Inspect.Station.Record;

/// <summary>A ball as it is presented, with what was measured of it.</summary>
/// <param name="Held">The event.</param>
/// <param name="Entry">The bowler's entry.</param>
/// <param name="Sheet">What was measured, as read.</param>
/// <param name="Ball">The ball's id where it was inspected before.</param>
/// <param name="At">When.</param>
public sealed record PresentedBall(Event Held, Entry Entry, Sheet Sheet, string? Ball, DateTimeOffset At);

/// <summary>A sheet as its event judges it.</summary>
/// <param name="Sheet">The sheet, completed by the event and the station.</param>
/// <param name="Terms">The event's terms.</param>
/// <param name="Verdict">The verdict; null where there is a fault.</param>
/// <param name="Lists">What the lists of models say that the event reads; null where they say nothing.</param>
internal sealed record JudgedSheet(Sheet Sheet, TermsOfEvent Terms, Verdict? Verdict, ListAnswers? Lists);

/// <summary>Judges a sheet as its event sets: with its own rules and terms, what was drawn, and what
/// the station knows of the ball.</summary>
internal static class SheetOfEvent
{
    /// <summary>The completed sheet, the event's terms as they are now and the verdict, or no verdict with the faults added.</summary>
    /// <param name="connection">The connection to read the event's terms and earlier inspections.</param>
    /// <param name="transaction">The write transaction, or null.</param>
    /// <param name="editions">All editions.</param>
    /// <param name="presented">The sheet as read, with whose ball it is and when.</param>
    /// <param name="faults">Where faults are collected.</param>
    public static JudgedSheet Judge(
        DbConnection connection, DbTransaction? transaction, EditionLibrary editions, PresentedBall presented, List<Fault> faults)
    {
        var (held, entry, sheet) = (presented.Held, presented.Entry, presented.Sheet);
        var terms = EventTerms.Of(connection, held.Id, transaction);
        if (sheet.Circumstances is not null)
        {
            faults.Add(new Fault("circumstances", "The station knows which ball this is and when it is presented; leave this out."));
            return new JudgedSheet(sheet, terms, null, null);
        }

        var lists = EventLists.Answer(connection, transaction, held, sheet);
        sheet = lists?.Complete(sheet) ?? sheet;
        if (terms.Judging.Supplements.Count > 0)
        {
            sheet = sheet with { Circumstances = CircumstancesOf(connection, transaction, presented, terms.FreezeMinutes) };
        }

        if (terms.Shares.Count > 0 && EditionOf(editions, held, sheet) is { } edition)
        {
            var ids = edition.RuleIds.Concat(terms.Judging.Supplements.SelectMany(supplement => supplement.RuleIds)).Distinct();
            var serial = SerialLookAlikes.Fold(sheet.Ball?.Serial ?? "");
            sheet = sheet with
            {
                Plan = ids.Where(id => (sheet.Plan?.Contains(id) ?? true) && terms.Draws(id, entry.Number, serial))
                .ToList()
            };
        }

        return new JudgedSheet(sheet, terms, SheetJudge.Judge(editions, sheet, faults, terms.Judging), lists);
    }

    private static Edition? EditionOf(EditionLibrary editions, Event held, Sheet sheet) =>
        held.Edition is { } id ? editions.TryFind(id, out var named) ? named : null : editions.InForceOn(held.Authority, sheet.Play);

    /// <summary>What the station knows of the ball and the time.</summary>
    public static Circumstances CircumstancesOf(
        DbConnection connection, DbTransaction? transaction, PresentedBall presented, int? freezeMinutes)
    {
        var (held, entry, ball) = (presented.Held, presented.Entry, presented.Ball);
        const string Sql = $"""
            SELECT ball FROM inspection_index WHERE event = @eventId AND entry IN ({InspectionLookup.Numbers}) AND ball IS NOT NULL
            GROUP BY ball ORDER BY min(seq)
            """;
        var balls = connection.Query<string>(Sql, new { eventId = held.Id, entry = entry.Number }, transaction).AsList();
        var number = ball is not null && balls.IndexOf(ball) is >= 0 and var known ? known + 1 : balls.Count + 1;
        if (held.Squads.FirstOrDefault(squad => squad.Name == entry.Squad) is not { } squad)
        {
            return new Circumstances(number, null, null);
        }

        return new Circumstances(number, At(held, presented.At) >= squad.Starts, IsFrozen(held, entry, presented.At, freezeMinutes));
    }

    /// <summary>Whether a bowler's balls may no longer be changed at a time; null where the event says nothing of it.</summary>
    public static bool? IsFrozen(Event held, Entry entry, DateTimeOffset at, int? freezeMinutes) =>
        freezeMinutes is { } minutes && held.Squads.FirstOrDefault(squad => squad.Name == entry.Squad) is { } squad
            ? At(held, at) >= squad.Starts.AddMinutes(-minutes) : null;

    private static DateTime At(Event held, DateTimeOffset at) =>
        TimeZoneInfo.ConvertTime(at, TimeZoneInfo.FindSystemTimeZoneById(held.TimeZone)).DateTime;
}
