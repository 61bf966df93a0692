using System.Data.Common;
using Dapper;
using Inspect.Station.Access;
using Inspect.Station.Storage;

namespace Inspect.Station.Record;

/// <summary>The index of spot checks, made from the register's entries alone.</summary>
public static class SpotCheckIndex
{
    /// <summary>The kind of entry.</summary>
    public const string Kind = "spot-check";

    /// <summary>The index.</summary>
    public static readonly RegisterIndex Index = new("spot checks", Kind, ["spot_check_index"], Add, RegisterIndex.HasRow);

    private const string Columns = """
        SELECT s.seq AS Seq, s.number AS Number, s.differs AS Differs, s.remark_hash AS RemarkHash, r.text AS Remark, s.by_person AS ByPerson,
               s.at AS At
        FROM spot_check_index s LEFT JOIN remark r ON r.person = s.by_person AND r.hash = s.remark_hash
        """;

    /// <summary>A part of a query: whether a spot check found another ball and nobody has ruled on the inspection since.</summary>
    /// <param name="inspection">The name of inspection_index in that query.</param>
    internal static string IsOpen(string inspection) => $"""
        (coalesce((SELECT max(o.seq) FROM spot_check_index o WHERE o.number = {inspection}.number AND o.differs <> ''), 0)
         > coalesce((SELECT max(d.seq) FROM ruling_index d WHERE d.inspection_seq = {inspection}.seq), 0))
        """;

    /// <summary>Every spot check of an inspection, oldest first.</summary>
    public static IReadOnlyList<SpotCheck> Of(DbConnection connection, string number, DbTransaction? transaction = null) =>
        [.. connection.Query<SpotCheckRow>($"{Columns} WHERE s.number = @number ORDER BY s.seq", new { number }, transaction)
            .Select(row => row.ToDomain())];

    /// <summary>Every spot check of an event: what is open first, then where another ball was found, each newest first.</summary>
    public static IReadOnlyList<(SpotCheck Check, string Entry, bool IsOpen)> OfEvent(DbConnection connection, string eventId)
    {
        var about = connection.Query<(string Number, string Entry, long IsOpen)>(
            $"""
            SELECT i.number, i.entry, i.superseded_by IS NULL AND {IsOpen("i")} FROM inspection_index i
            WHERE i.event = @eventId AND i.number IN (SELECT number FROM spot_check_index WHERE event = @eventId)
            """,
            new { eventId }).ToDictionary(row => row.Number);
        return [.. connection.Query<SpotCheckRow>($"{Columns} WHERE s.event = @eventId", new { eventId }).Select(row => row.ToDomain())
            .Select(check => (check, about[check.Inspection.ToString()].Entry,
                !check.IsTheBall && about[check.Inspection.ToString()].IsOpen == 1))
            .OrderBy(each => each.Item3 ? 0 : each.check.IsTheBall ? 2 : 1).ThenByDescending(each => each.check.Seq)];
    }

    /// <summary>How many spot checks an event has, and how many of them found another ball.</summary>
    public static (long All, long Differing) Counted(DbConnection connection, string eventId) => connection.QuerySingle<(long, long)>(
        "SELECT count(*), count(nullif(differs, '')) FROM spot_check_index WHERE event = @eventId", new { eventId });

    private static void Add(WriteTransaction write, RegisterEntry check) => write.Connection.Execute(
        """
        INSERT INTO spot_check_index (seq, number, event, differs, remark_hash, by_person, at)
        VALUES (@Seq, @number, @eventId, @differs, @remark, @by, @at)
        """,
        new
        {
            check.Seq,
            number = check.Text("inspection"),
            eventId = check.Text("event"),
            differs = string.Join(' ', check.ListAt("differs").Select(part => part.GetString())),
            remark = check.TextOrNull("remark"),
            by = check.Text("by", "person"),
            at = check.Text("at"),
        },
        write.Transaction);

    private sealed record SpotCheckRow(
        long Seq, string Number, string Differs, string? RemarkHash, string? Remark, string ByPerson, string At)
    {
        public SpotCheck ToDomain() => new(
            Seq,
            InspectionNumber.TryParse(Number, out var number) ? number
                : throw new InvalidDataException($"The index of spot checks has \"{Number}\" for an inspection."),
            [.. Differs.Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(word => SpotCheck.Words[word])],
            RemarkHash is not null,
            Remark,
            PersonId.From(ByPerson),
            UtcText.Parse(At));
    }
}
