using System.Data.Common;
using Dapper;
using Inspect.Rules.Judging;
using Inspect.Rules.Rulesets;
using Inspect.Sheets;
using Inspect.Sheets.Json;
using Inspect.Station.Prepare;

namespace Inspect.Station.Record;

/// <summary>Judges a sheet by the rules and terms of its event, with the draw of spot checks and what the station
/// knows of the ball.</summary>
internal static class SheetOfEvent
{
    /// <summary>The completed sheet, the event's terms and the verdict, or no verdict with the faults added.</summary>
    /// <param name="connection">The connection to read the event's terms and earlier inspections.</param>
    /// <param name="transaction">The write transaction, or null.</param>
    /// <param name="editions">All editions.</param>
    /// <param name="held">The event.</param>
    /// <param name="entry">The bowler's entry.</param>
    /// <param name="sheet">As read.</param>
    /// <param name="ball">The ball's id; null for a ball not inspected before.</param>
    /// <param name="now">When the ball is presented.</param>
    /// <param name="faults">The faults are added here.</param>
    public static (Sheet Sheet, JudgingTerms Terms, Verdict? Verdict) Judge(
        DbConnection connection, DbTransaction? transaction, EditionLibrary editions, Event held, Entry entry, Sheet sheet, string? ball,
        DateTimeOffset now, List<Fault> faults)
    {
        var terms = EventTerms.Of(connection, held.Id, transaction);
        if (sheet.Circumstances is not null)
        {
            faults.Add(new Fault("circumstances", "The station knows which ball this is and when it is presented; leave this out."));
            return (sheet, terms.Judging, null);
        }

        if (terms.Judging.Supplements.Count > 0)
        {
            sheet = sheet with { Circumstances = CircumstancesOf(connection, transaction, held, entry, ball, terms.FreezeMinutes, now) };
        }

        if (terms.Shares.Count > 0 && EditionOf(editions, held, sheet) is { } edition)
        {
            var ids = edition.RuleIds.Concat(terms.Judging.Supplements.SelectMany(supplement => supplement.RuleIds)).Distinct();
            var serial = SerialLookAlikes.Fold(sheet.Ball?.Serial ?? "");
            sheet = sheet with { Plan = ids.Where(id => (sheet.Plan?.Contains(id) ?? true) && terms.Draws(id, entry.Number, serial))
                .ToList() };
        }

        return (sheet, terms.Judging, SheetJudge.Judge(editions, sheet, faults, terms.Judging));
    }

    private static Edition? EditionOf(EditionLibrary editions, Event held, Sheet sheet) =>
        held.Edition is { } id ? editions.TryFind(id, out var named) ? named : null : editions.InForceOn(held.Authority, sheet.Play);

    private static Circumstances CircumstancesOf(
        DbConnection connection, DbTransaction? transaction, Event held, Entry entry, string? ball, int? freezeMinutes, DateTimeOffset now)
    {
        const string Sql = """
            SELECT ball FROM inspection_index WHERE event = @Event AND entry = @Entry AND ball IS NOT NULL GROUP BY ball ORDER BY min(seq)
            """;
        var balls = connection.Query<string>(Sql, new { Event = held.Id, Entry = entry.Number }, transaction).AsList();
        var number = ball is not null && balls.IndexOf(ball) is >= 0 and var known ? known + 1 : balls.Count + 1;
        if (held.Squads.FirstOrDefault(squad => squad.Name == entry.Squad) is not { } squad)
        {
            return new Circumstances(number, null, null);
        }

        var local = TimeZoneInfo.ConvertTime(now, TimeZoneInfo.FindSystemTimeZoneById(held.TimeZone)).DateTime;
        return new Circumstances(
            number, local >= squad.Starts, freezeMinutes is { } minutes ? local >= squad.Starts.AddMinutes(-minutes) : null);
    }
}
