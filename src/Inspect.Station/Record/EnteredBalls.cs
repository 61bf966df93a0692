using System.Data.Common;
using Dapper;
using Inspect.Sheets;
using Inspect.Station.Access;
using Inspect.Station.Prepare;
using Inspect.Station.Storage;

namespace Inspect.Station.Record;

/// <summary>The lists of balls that bowlers say they bring. Nothing on a list is measured: the form starts from it, and an inspection
/// is found by the serial number.</summary>
public sealed class EnteredBalls(Database database)
{
    // How many balls a list may ever have had, those taken off it too, while its bowler writes on it.
    private const int MostEver = 200;

    private const string Columns = """
        SELECT b.id AS Id, b.entry AS Entry, b.maker AS Maker, b.model AS Model, b.serial AS Serial, b.hand AS Hand, b.digits AS Digits,
               b.known AS Known, l.entry AS LentBy, m.entry AS MovedFrom,
               b.added_by AS AddedBy, a.name AS AddedName, b.added_at AS AddedAt,
               b.removed_by AS RemovedBy, r.name AS RemovedName, b.removed_at AS RemovedAt,
               (SELECT t.entry FROM entered_ball t WHERE t.moved_from = b.id) AS MovedTo,
               (SELECT string_agg(t.entry, ' ') FROM entered_ball t WHERE t.lent_from = b.id AND t.removed_at IS NULL) AS LentTo
        FROM entered_ball b LEFT JOIN entered_ball l ON l.id = b.lent_from LEFT JOIN entered_ball m ON m.id = b.moved_from
        LEFT JOIN person a ON a.id = b.added_by LEFT JOIN person r ON r.id = b.removed_by
        """;

    /// <summary>The list of an entry in the order in which it was written, with the balls that were taken off it.</summary>
    public IReadOnlyList<EnteredBall> OfEntry(string eventId, string entry)
    {
        using var connection = database.OpenForReading();
        return Read(connection, null, "b.event = @eventId AND b.entry = @entry", new { eventId, entry });
    }

    /// <summary>The balls of an entry's list that no standing inspection is of, in the order in which they were written.</summary>
    public IReadOnlyList<EnteredBall> ToInspect(string eventId, string entry, IReadOnlyList<InspectionRow> inspected) =>
        [.. OfEntry(eventId, entry).Where(ball => ball.Removed is null && !inspected.Any(row => row.Stands && ball.Is(row)))];

    /// <summary>A ball that stands on the list of an entry, or null.</summary>
    public EnteredBall? Find(string eventId, string entry, long id)
    {
        using var connection = database.OpenForReading();
        return Find(connection, null, eventId, entry, id);
    }

    /// <summary>What should be looked at: for each ball of a list another ball of the event whose serial number looks the same.
    /// It refuses nothing.</summary>
    public IReadOnlyDictionary<long, string> Doubts(string eventId, string entry, IReadOnlyList<InspectionRow> inspected)
    {
        using var connection = database.OpenForReading();
        var doubts = new Dictionary<long, string>();
        const string AlikeAndThere = "b.event = @eventId AND b.removed_at IS NULL AND b.serial_folded = @folded";
        const string Mine = "b.event = @eventId AND b.entry = @entry AND b.removed_at IS NULL AND b.serial IS NOT NULL";
        foreach (var ball in Read(connection, null, Mine, new { eventId, entry }))
        {
            // A ball that is lent stands on two lists on purpose.
            var other = Read(connection, null, AlikeAndThere, new { eventId, folded = SerialLookAlikes.Fold(ball.Ball.Serial!) })
                .FirstOrDefault(each => each.Id != ball.Id && each.LentBy != entry && ball.LentBy != each.Entry);
            var mine = inspected.FirstOrDefault(row => row.Stands && ball.Is(row));
            var sentence = other is not null
                ? other.Entry == entry
                    ? $"Two balls of this list have a serial that reads {ball.Ball.Serial}: if it is one ball, take one off the list."
                    : $"Serial {other.Ball.Serial} is on the list of entry {other.Entry} as well: look at both balls."
                : mine is null ? LookAlikes.Sentence(connection, eventId, entry, ball.Ball.Known, ball.Ball.Serial) : null;
            if (sentence is not null)
            {
                doubts[ball.Id] = sentence;
            }
        }

        return doubts;
    }

    /// <summary>Writes a ball on a list. Returns why it was not, in a sentence; null when it was.</summary>
    /// <param name="write">The turn at the gate.</param>
    /// <param name="held">The event.</param>
    /// <param name="entry">The entry's number.</param>
    /// <param name="ball">The ball.</param>
    /// <param name="by">The official who writes it; null when the bowler does.</param>
    /// <param name="at">When.</param>
    /// <param name="mostBalls">How many balls the event takes; null for any number. An official may write down more.</param>
    public static string? Add(
        WriteTransaction write, Event held, string entry, BallAsWritten ball, PersonId? by, DateTimeOffset at, int? mostBalls)
    {
        var there = Read(write.Connection, write.Transaction, "b.event = @Id AND b.entry = @entry AND b.removed_at IS NULL",
            new { held.Id, entry });
        if (by is null && (mostBalls ?? Catalogue.MostBalls) is var most && there.Count >= most)
        {
            return $"This event takes {most} {(most == 1 ? "ball" : "balls")} a bowler; take one off the list to enter another.";
        }

        // A card that got about must not fill the store.
        if (by is null && write.Connection.ExecuteScalar<long>(
            "SELECT count(*) FROM entered_ball WHERE event = @Id AND entry = @entry", new { held.Id, entry }, write.Transaction)
            >= MostEver)
        {
            return "This list has been changed too often; ask at the inspection table.";
        }

        if (there.Any(each => each.Ball.Known is { } known && known == ball.Known))
        {
            return $"{ball.Name} is on the list already.";
        }

        Insert(write, held.Id, entry, ball, (by, at), null, null);
        return null;
    }

    /// <summary>Takes a ball off a list. It stays to be seen with who took it off. Returns whether it stood there.</summary>
    public static bool Remove(WriteTransaction write, string eventId, string entry, long id, PersonId? by, DateTimeOffset at) =>
        write.Connection.Execute(
            """
            UPDATE entered_ball SET removed_by = @by, removed_at = @at
            WHERE event = @eventId AND entry = @entry AND id = @id AND removed_at IS NULL
            """,
            new { eventId, entry, id, by = by?.ToString(), at = UtcText.Of(at) },
            write.Transaction) == 1;

    /// <summary>Moves a ball to another entry's list, or lends it: then it stands on both. Returns whether it stood on the list.</summary>
    public static bool Pass(
        WriteTransaction write, EntryAddress from, long id, string to, bool isLent, (PersonId By, DateTimeOffset At) mark)
    {
        if (Find(write.Connection, write.Transaction, from.Event, from.Entry, id) is not { } ball)
        {
            return false;
        }

        // The borrower grips it in another way until somebody says how.
        var without = ball.Ball with { Hand = null, Digits = null, Known = null };
        Insert(write, from.Event, to, without, (mark.By, mark.At), isLent ? id : null, isLent ? null : id);
        return isLent || Remove(write, from.Event, from.Entry, id, mark.By, mark.At);
    }

    private static EnteredBall? Find(DbConnection connection, DbTransaction? transaction, string eventId, string entry, long id) =>
        Read(connection, transaction, "b.event = @eventId AND b.entry = @entry AND b.id = @id AND b.removed_at IS NULL",
            new { eventId, entry, id }).SingleOrDefault();

    private static void Insert(
        WriteTransaction write, string eventId, string entry, BallAsWritten ball, (PersonId? By, DateTimeOffset At) added, long? lentFrom,
        long? movedFrom) => write.Connection.Execute(
        """
        INSERT INTO entered_ball (
          id, event, entry, maker, model, serial, serial_folded, hand, digits, known, lent_from, moved_from, added_by, added_at)
        SELECT coalesce(max(id), 0) + 1, @eventId, @entry, @Maker, @Model, @Serial, @folded, @hand, @digits, @Known, @lentFrom, @movedFrom,
               @by, @at
        FROM entered_ball
        """,
        new
        {
            eventId,
            entry,
            ball.Maker,
            ball.Model,
            ball.Serial,
            folded = ball.Serial is { } serial ? SerialLookAlikes.Fold(serial) : null,
            hand = ball.Hand is { } hand ? Words.Of(hand) : null,
            digits = ball.Digits is { Count: > 0 } digits ? string.Join(' ', digits.Select(Words.Of)) : null,
            ball.Known,
            lentFrom,
            movedFrom,
            by = added.By?.ToString(),
            at = UtcText.Of(added.At),
        },
        write.Transaction);

    private static List<EnteredBall> Read(DbConnection connection, DbTransaction? transaction, string where, object values) =>
        [.. connection.Query<BallRow>($"{Columns} WHERE {where} ORDER BY b.id", values, transaction).Select(row => row.ToDomain())];

    // Worked-out columns have no type of their own while there is no row, so the members are set by name.
    private sealed record BallRow
    {
        public required long Id { get; init; }
        public required string Entry { get; init; }
        public string? Maker { get; init; }
        public string? Model { get; init; }
        public string? Serial { get; init; }
        public string? Hand { get; init; }
        public string? Digits { get; init; }
        public string? Known { get; init; }
        public string? LentBy { get; init; }
        public string? MovedFrom { get; init; }
        public string? AddedBy { get; init; }
        public string? AddedName { get; init; }
        public required string AddedAt { get; init; }
        public string? RemovedBy { get; init; }
        public string? RemovedName { get; init; }
        public string? RemovedAt { get; init; }
        public string? MovedTo { get; init; }
        public string? LentTo { get; init; }

        public EnteredBall ToDomain() => new(
            Id,
            Entry,
            new BallAsWritten(
                Maker, Model, Serial, Hand is null ? null : Words.Hands[Hand],
                [.. (Digits ?? "").Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(digit => Words.Digits[digit])], Known),
            Mark(AddedBy, AddedName, AddedAt),
            RemovedAt is null ? null : Mark(RemovedBy, RemovedName, RemovedAt),
            LentBy,
            MovedFrom,
            MovedTo,
            (LentTo ?? "").Split(' ', StringSplitOptions.RemoveEmptyEntries));

        private static ListMark Mark(string? by, string? name, string at) =>
            new(by is null ? "the bowler" : name ?? "name struck", UtcText.Parse(at));
    }
}
