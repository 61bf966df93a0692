using System.Data.Common;
using Dapper;
using Inspect.Station.Access;
using Inspect.Station.Storage;

namespace Inspect.Station.Record;

/// <summary>The index of rulings, made from the register's entries alone.</summary>
public static class RulingIndex
{
    /// <summary>The kind of entry.</summary>
    public const string Kind = "ruling";

    /// <summary>The index.</summary>
    public static readonly RegisterIndex Index = new("rulings", Kind, ["ruling_index"], Add, Holds);

    private const string Columns = """
        SELECT r.seq AS Seq, r.number AS Number, r.decision AS Decision, why.text AS Reason, what.text AS Condition, r.by_person AS ByPerson, r.at AS At
        FROM ruling_index r
        LEFT JOIN remark why ON why.person = r.by_person AND why.hash = r.reason_hash
        LEFT JOIN remark what ON what.person = r.by_person AND what.hash = r.condition_hash
        """;

    /// <summary>A part of a query: the decision of the latest ruling on an inspection; null when there is none.</summary>
    /// <param name="inspection">The name of inspection_index in that query.</param>
    internal static string Decided(string inspection) =>
        $"(SELECT d.decision FROM ruling_index d WHERE d.inspection_seq = {inspection}.seq ORDER BY d.seq DESC LIMIT 1)";

    /// <summary>A part of a query: whether an inspection still counts for its ball, that is, was not withdrawn or taken back.</summary>
    /// <inheritdoc cref="Decided"/>
    internal static string Counts(string inspection) => $"coalesce({Decided(inspection)}, '') NOT IN ('withdraw', 'undo')";

    /// <summary>Every ruling on an inspection, oldest first.</summary>
    public static IReadOnlyList<Ruling> Of(DbConnection connection, string number, DbTransaction? transaction = null) =>
        [.. connection.Query<RulingRow>($"{Columns} WHERE r.number = @number ORDER BY r.seq", new { number }, transaction)
            .Select(row => row.ToDomain())];

    /// <summary>The rulings in force on the inspections of an event: the latest of each, oldest first.</summary>
    public static IReadOnlyList<Ruling> InForceAt(DbConnection connection, string eventId) => [.. connection.Query<RulingRow>(
        $"{Columns} WHERE r.event = @eventId AND r.seq = (SELECT max(seq) FROM ruling_index l WHERE l.number = r.number) ORDER BY r.seq",
        new { eventId }).Select(row => row.ToDomain())];

    private static void Add(WriteTransaction write, RegisterEntry ruling) =>
        write.Connection.Execute(
            """
            INSERT INTO ruling_index (seq, number, inspection_seq, event, decision, reason_hash, condition_hash, by_person, at)
            VALUES (@Seq, @number, (SELECT i.seq FROM inspection_index i WHERE i.number = @number), @eventId, @decision, @reason, @condition, @by, @at)
            """,
            new
            {
                ruling.Seq,
                number = ruling.Text("inspection"),
                eventId = ruling.Text("event"),
                decision = ruling.Text("decision"),
                reason = ruling.Text("reason"),
                condition = ruling.TextOrNull("condition"),
                by = ruling.Text("by", "person"),
                at = ruling.Text("at"),
            },
            write.Transaction);

    private static bool Holds(RegisterIndex index, DbConnection connection, RegisterEntry ruling) =>
        connection.QuerySingleOrDefault<(string Number, string? Inspection, string Event, string Decision, string Reason, string? Condition,
            string By, string At)>(
            """
            SELECT r.number, i.number, r.event, r.decision, r.reason_hash, r.condition_hash, r.by_person, r.at
            FROM ruling_index r LEFT JOIN inspection_index i ON i.seq = r.inspection_seq WHERE r.seq = @Seq
            """,
            new { ruling.Seq }) == (
            ruling.Text("inspection"), ruling.Text("inspection"), ruling.Text("event"), ruling.Text("decision"), ruling.Text("reason"),
            ruling.TextOrNull("condition"), ruling.Text("by", "person"), ruling.Text("at"));

    private sealed record RulingRow(long Seq, string Number, string Decision, string? Reason, string? Condition, string ByPerson, string At)
    {
        public Ruling ToDomain() => new(
            Seq,
            InspectionNumber.TryParse(Number, out var number) ? number
                : throw new InvalidDataException($"The index of rulings has \"{Number}\" for an inspection."),
            Decisions.Words[Decision],
            Reason,
            Condition,
            PersonId.From(ByPerson),
            UtcText.Parse(At));
    }
}
