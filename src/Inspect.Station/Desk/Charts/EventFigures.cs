using System.Globalization;
using Dapper;
using Inspect.Rules.Judging;
using Inspect.Station.Prepare;
using Inspect.Station.Storage;
using Microsoft.Extensions.Caching.Memory;

namespace Inspect.Station.Desk.Charts;

/// <summary>Reads the inspections of one event for its charts, each body once.</summary>
/// <remarks>
/// Recorded bodies never change, so what was read from them is cached for a while and only later ones are read. What can change (what was
/// replaced, names, squads) is read from the tables each time. There is no table of readings, because it would slow down every recording.
/// </remarks>
public sealed class EventFigures(Database database) : IDisposable
{
    private const string Sql = """
        SELECT i.running AS Running, i.number AS Number, i.entry AS Entry, i.ball AS Ball, i.play AS Play, i.outcome AS Outcome, i.by_person AS By,
               i.superseded_by AS SupersededBy, before.outcome AS OutcomeBefore
        FROM inspection_index i
        LEFT JOIN inspection_index before ON before.number = i.supersedes
        LEFT JOIN entry e ON e.event = i.event AND e.entry = i.entry
        WHERE i.event = @eventId AND (@day IS NULL OR i.play = @day) AND (@squad IS NULL OR e.squad = @squad)
          AND (@inspector IS NULL OR i.by_person = @inspector)
        ORDER BY i.running
        """;

    private static readonly TimeSpan KeptUnasked = TimeSpan.FromMinutes(20);

    private readonly MemoryCache _read = new(new MemoryCacheOptions());

    /// <summary>The inspections asked for, oldest first.</summary>
    public IReadOnlyList<CountedInspection> Read(Event held, ChartsAsked asked)
    {
        var zone = TimeZoneInfo.FindSystemTimeZoneById(held.TimeZone);
        var bodies = _read.GetOrCreate(held.Id, entry =>
        {
            entry.SlidingExpiration = KeptUnasked;
            return new EventBodies(held.Id);
        })!;
        using var connection = database.OpenForReading();
        var rows = connection.Query<FiguresRow>(
            Sql,
            new
            {
                eventId = held.Id,
                day = NullWhenEmpty(asked.Day),
                squad = NullWhenEmpty(asked.Squad),
                inspector = NullWhenEmpty(asked.Inspector),
            }).AsList();

        // Read after the rows, so that every body they name is there.
        var figures = bodies.ReadOn(connection);
        return rows.ConvertAll(row => row.ToDomain(figures[row.Running], zone));
    }

    /// <summary>The people who recorded at the event, by id, with their names unless struck.</summary>
    public IReadOnlyList<(string Id, string Name)> Inspectors(Event held)
    {
        const string Recorders = """
            SELECT DISTINCT i.by_person AS Id, p.name AS Name
            FROM inspection_index i LEFT JOIN person p ON p.id = i.by_person
            WHERE i.event = @eventId ORDER BY p.name, i.by_person
            """;
        using var connection = database.OpenForReading();
        return connection.Query<(string Id, string? Name)>(Recorders, new { eventId = held.Id })
            .Select(row => (row.Id, row.Name ?? "name struck")).ToList();
    }

    public void Dispose() => _read.Dispose();

    private static string? NullWhenEmpty(string text) => text.Length == 0 ? null : text;

    private sealed record FiguresRow(
        long Running, string Number, string Entry, string? Ball, string Play, string Outcome, string By, string? SupersededBy,
        string? OutcomeBefore)
    {
        public CountedInspection ToDomain(BodyFigures figures, TimeZoneInfo zone) => new()
        {
            Number = Number,
            Entry = Entry,
            Ball = Ball,
            At = TimeZoneInfo.ConvertTime(figures.At, zone).DateTime,
            Outcome = VerdictJson.Outcomes[Outcome],
            By = By,
            Before = OutcomeBefore is null ? null : VerdictJson.Outcomes[OutcomeBefore],
            SupersededBy = SupersededBy,
            Play = DateOnly.ParseExact(Play, "yyyy-MM-dd", CultureInfo.InvariantCulture),
            Under = figures.Under,
            Findings = figures.Findings,
            Observations = figures.Observations,
        };
    }
}
