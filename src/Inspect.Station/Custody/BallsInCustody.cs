using System.Data.Common;
using Dapper;
using Inspect.Station.Access;
using Inspect.Station.Prepare;
using Inspect.Station.Record;
using Inspect.Station.Slip;
using Inspect.Station.Storage;

namespace Inspect.Station.Custody;

/// <summary>A ball that the venue keeps or kept.</summary>
/// <param name="Id">Its number among all that were taken in.</param>
/// <param name="Entry">Whose ball it is.</param>
/// <param name="Ball">The ball's opaque id.</param>
/// <param name="Number">The inspection by which it was known.</param>
/// <param name="Serial">Its serial number, as it was recorded.</param>
/// <param name="Place">Where it stands.</param>
/// <param name="In">Who took it in, and when.</param>
/// <param name="Out">Who gave it out, and when; null while it is here.</param>
/// <param name="GivenTo">The entry to which it was given.</param>
public sealed record KeptBall(
    long Id, string Entry, string Ball, string Number, string? Serial, string? Place, ListMark In, ListMark? Out, string? GivenTo);

/// <summary>The balls that a venue keeps between squads: taken in and given out by slip or tag, with who did it.</summary>
public sealed class BallsInCustody(Database database, InspectionLookup lookup)
{
    private const string Columns = """
        SELECT c.id AS Id, c.entry AS Entry, c.ball AS Ball, c.number AS Number, i.serial AS Serial, c.place AS Place,
               a.name AS InName, c.in_at AS InAt, o.name AS OutName, c.out_at AS OutAt, c.out_to AS OutTo
        FROM custody c JOIN inspection_index i ON i.number = c.number JOIN person a ON a.id = c.in_by LEFT JOIN person o ON o.id = c.out_by
        """;

    /// <summary>The balls that are here, by entry, and those given out last.</summary>
    public (IReadOnlyList<KeptBall> Here, IReadOnlyList<KeptBall> GivenOut) Of(string eventId, int most)
    {
        using var connection = database.OpenForReading();
        return (
            Read(connection, "c.event = @eventId AND c.out_at IS NULL ORDER BY c.entry, c.id", new { eventId }),
            Read(connection, "c.event = @eventId AND c.out_at IS NOT NULL ORDER BY c.out_at DESC, c.id DESC LIMIT @most",
                new { eventId, most }));
    }

    /// <summary>The balls of one entry that are here.</summary>
    public IReadOnlyList<KeptBall> OfEntry(string eventId, string entry)
    {
        using var connection = database.OpenForReading();
        return Read(connection, "c.event = @eventId AND c.entry = @entry AND c.out_at IS NULL ORDER BY c.id", new { eventId, entry });
    }

    /// <summary>The ball if it is here, or null.</summary>
    public KeptBall? Here(string eventId, string ball)
    {
        using var connection = database.OpenForReading();
        return Read(connection, "c.event = @eventId AND c.ball = @ball AND c.out_at IS NULL", new { eventId, ball }).SingleOrDefault();
    }

    /// <summary>The latest inspection of the ball that a scan, a tag or a number means; null with a sentence when it means none.</summary>
    public FoundInspection? Find(Event held, string typed, out string? refusal)
    {
        refusal = null;
        var found = InspectionNumber.TryParse(typed, out var number) ? lookup.ByNumber(number)
            : ScanAddress.TryRead(typed, out var code) && lookup.ByCode(code) is { } scanned ? scanned
            : Tagged(held, typed);
        if (found is { IsSuperseded: true } && lookup.OfBall(found.Inspection.Ball).LastOrDefault(row => row.Event == held.Id) is { } last
            && InspectionNumber.TryParse(last.Number, out var latest))
        {
            found = lookup.ByNumber(latest);
        }

        refusal = typed.Length == 0 ? "Scan the slip or the tag of the ball, or type the number of its inspection."
            : found is null ? $"No inspected ball of {held.Name} has \"{typed}\" as slip, tag or number."
            : found.Inspection.Event != held.Id ? $"\"{typed}\" is slip {found.Inspection.Number}, which belongs to another event."
            : null;
        return refusal is null ? found : null;
    }

    /// <summary>Takes a ball in, unless it is here already. Returns whether it was taken in.</summary>
    public static bool TakeIn(WriteTransaction write, Inspection ball, string? place, PersonId by, DateTimeOffset at) =>
        write.Connection.Execute(
            """
            INSERT INTO custody (id, event, entry, ball, number, place, in_by, in_at)
            SELECT coalesce((SELECT max(id) FROM custody), 0) + 1, @Event, @Entry, @Ball, @number, @place, @by, @at
            WHERE NOT EXISTS (SELECT 1 FROM custody WHERE event = @Event AND ball = @Ball AND out_at IS NULL)
            """,
            new { ball.Event, ball.Entry, ball.Ball, number = ball.Number.ToString(), place, by = by.ToString(), at = UtcText.Of(at) },
            write.Transaction) == 1;

    /// <summary>Gives a ball out. Returns whether it was here.</summary>
    public static bool GiveOut(WriteTransaction write, string eventId, long id, string to, PersonId by, DateTimeOffset at) =>
        write.Connection.Execute(
            "UPDATE custody SET out_to = @to, out_by = @by, out_at = @at WHERE event = @eventId AND id = @id AND out_at IS NULL",
            new { eventId, id, to, by = by.ToString(), at = UtcText.Of(at) },
            write.Transaction) == 1;

    private FoundInspection? Tagged(Event held, string typed)
    {
        using var connection = database.OpenForReading();
        return Tags.NumberOf(connection, held.Id, typed) is { } tagged && InspectionNumber.TryParse(tagged, out var number)
            ? lookup.ByNumber(number) : null;
    }

    private static List<KeptBall> Read(DbConnection connection, string where, object values) =>
        [.. connection.Query<KeptRow>($"{Columns} WHERE {where}", values).Select(row => row.ToDomain())];

    private sealed record KeptRow
    {
        public required long Id { get; init; }
        public required string Entry { get; init; }
        public required string Ball { get; init; }
        public required string Number { get; init; }
        public string? Serial { get; init; }
        public string? Place { get; init; }
        public string? InName { get; init; }
        public required string InAt { get; init; }
        public string? OutName { get; init; }
        public string? OutAt { get; init; }
        public string? OutTo { get; init; }

        public KeptBall ToDomain() => new(
            Id, Entry, Ball, Number, Serial, Place, new ListMark(InName ?? "name struck", UtcText.Parse(InAt)),
            OutAt is null ? null : new ListMark(OutName ?? "name struck", UtcText.Parse(OutAt)), OutTo);
    }
}
