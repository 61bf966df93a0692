using System.Security.Cryptography;
using System.Text.Json.Nodes;
using Dapper;
using Inspect.Station.Access;
using Inspect.Station.Prepare;
using Inspect.Station.Record;
using Inspect.Station.Storage;

namespace Inspect.Station.Papers;

/// <summary>A closing report that was issued, as the register names it.</summary>
/// <param name="Seq">Its entry in the register.</param>
/// <param name="Event">The event's short name.</param>
/// <param name="Number">Its number.</param>
/// <param name="Entries">How many entries the register had when it was made.</param>
/// <param name="Sha256">The hash of its file.</param>
/// <param name="At">When it was issued.</param>
/// <param name="By">Who issued it.</param>
/// <param name="IsStruck">Whether the file is gone; the register keeps its hash.</param>
public sealed record IssuedReport(
    long Seq, string Event, string Number, long Entries, string Sha256, DateTimeOffset At, PersonId By, bool IsStruck);

/// <summary>How much was recorded at an event since a state of the register.</summary>
public sealed record RecordedSince(long Inspections, long Rulings);

/// <summary>Issues closing reports: the file is kept where it can be struck, its hash and number in an entry of the register.</summary>
/// <remarks>The last one issued counts. Which one that is, and what its hash was, can be proved for as long as
/// the register is kept.</remarks>
public sealed class IssuedReports(Database database, WriteGate gate, ClosingReports reports, TimeProvider time)
{
    /// <summary>The kind of entry.</summary>
    public const string Kind = "report";

    /// <summary>The index of reports. Rebuilding it does not touch the files.</summary>
    public static readonly RegisterIndex Index = new("closing reports", Kind, ["report_index"], AddRow, RegisterIndex.HasRow);

    private const string Columns = """
        SELECT i.seq AS Seq, i.event AS Event, i.number AS Number, i.entries AS Entries, i.sha256 AS Sha256, i.at AS At, i.by_person AS ByPerson,
               f.seq AS Kept
        FROM report_index i LEFT JOIN report_file f ON f.seq = i.seq
        """;

    /// <summary>Makes the report from the present register, keeps its file and records it.</summary>
    /// <param name="held">The event.</param>
    /// <param name="by">Who issues it.</param>
    /// <param name="size">The paper size.</param>
    /// <param name="after">The entry of the last report that the person issuing this one has seen; 0 for none.</param>
    /// <returns>The report; null when another was issued in the meantime, and then nothing is recorded.</returns>
    public Task<IssuedReport?> Issue(Event held, SignedIn by, PaperSize size, long after)
    {
        // Made before the write transaction: a large event takes a while, and the tables go on recording. The report
        // names its state of the register.
        var report = reports.Of(held, by);
        var pdf = ClosingReportPaper.Render(report, size).Pdf;
        return gate.Run(write =>
        {
            var last = write.Connection.ExecuteScalar<long>(
                "SELECT coalesce(max(seq), 0) FROM report_index WHERE event = @id", new { id = held.Id }, write.Transaction);
            if (last != after)
            {
                return null;
            }

            var at = time.GetUtcNow();
            var entry = Register.Append(write, Kind, 1, new JsonObject
            {
                ["at"] = UtcText.Of(at),
                ["offset"] = InspectionBody.Offset(TimeZoneInfo.FindSystemTimeZoneById(held.TimeZone).GetUtcOffset(at)),
                ["event"] = held.Id,
                ["report"] = report.Number,
                ["entries"] = report.RegisterSize,
                ["root"] = report.RegisterRoot,
                ["sha256"] = Convert.ToHexStringLower(SHA256.HashData(pdf)),
                ["by"] = new JsonObject { ["person"] = by.Person.ToString(), ["name"] = People.PseudonymOfName(write, by.Person) },
            });
            write.Connection.Execute("INSERT INTO report_file (seq, pdf) VALUES (@Seq, @pdf)", new { entry.Seq, pdf }, write.Transaction);
            return write.Connection.QuerySingle<ReportRow>($"{Columns} WHERE i.seq = @Seq", new { entry.Seq }, write.Transaction)
                .ToDomain();
        });
    }

    /// <summary>The reports issued for an event, newest first: the one that counts.</summary>
    public IReadOnlyList<IssuedReport> Of(string eventId)
    {
        using var connection = database.OpenForReading();
        return [.. connection.Query<ReportRow>($"{Columns} WHERE i.event = @eventId ORDER BY i.seq DESC", new { eventId })
            .Select(row => row.ToDomain())];
    }

    /// <summary>The report whose file has exactly these bytes, of any event; null when there is none.</summary>
    public IssuedReport? WithFile(ReadOnlySpan<byte> pdf)
    {
        var sha256 = Convert.ToHexStringLower(SHA256.HashData(pdf));
        using var connection = database.OpenForReading();
        return connection.QueryFirstOrDefault<ReportRow>($"{Columns} WHERE i.sha256 = @sha256", new { sha256 })?.ToDomain();
    }

    /// <summary>The bytes of an issued report; null when there is none or its file was struck.</summary>
    public byte[]? FileOf(string eventId, string number)
    {
        const string Sql =
            "SELECT f.pdf FROM report_index i JOIN report_file f ON f.seq = i.seq WHERE i.event = @eventId AND i.number = @number";
        using var connection = database.OpenForReading();
        return connection.QuerySingleOrDefault<byte[]>(Sql, new { eventId, number });
    }

    /// <summary>What was recorded at an event after the first <paramref name="entries"/> entries of the register.</summary>
    public RecordedSince Since(string eventId, long entries)
    {
        const string Sql = """
            SELECT (SELECT count(*) FROM inspection_index WHERE event = @eventId AND seq > @entries) AS Inspections,
                   (SELECT count(*) FROM ruling_index WHERE event = @eventId AND seq > @entries) AS Rulings
            """;
        using var connection = database.OpenForReading();
        return connection.QuerySingle<RecordedSince>(Sql, new { eventId, entries });
    }

    /// <summary>Strikes the file of a report: it is gone, its number and hash stay in the register.</summary>
    public Task<int> Strike(string eventId, string number) => gate.Run(write => write.Connection.Execute(
        "DELETE FROM report_file WHERE seq = (SELECT seq FROM report_index WHERE event = @eventId AND number = @number)",
        new { eventId, number },
        write.Transaction));

    private static void AddRow(WriteTransaction write, RegisterEntry report) => write.Connection.Execute(
        "INSERT INTO report_index (seq, event, number, entries, sha256, by_person, at) "
        + "VALUES (@Seq, @eventId, @number, @entries, @sha256, @by, @at)",
        new
        {
            report.Seq,
            eventId = report.Text("event"),
            number = report.Text("report"),
            entries = report.Body.GetProperty("entries").GetInt64(),
            sha256 = report.Text("sha256"),
            by = report.Text("by", "person"),
            at = report.Text("at"),
        },
        write.Transaction);

    private sealed record ReportRow(
        long Seq, string Event, string Number, long Entries, string Sha256, string At, string ByPerson, long? Kept)
    {
        public IssuedReport ToDomain() => new(
            Seq, Event, Number, Entries, Sha256, UtcText.Parse(At), PersonId.From(ByPerson), IsStruck: Kept is null);
    }
}
