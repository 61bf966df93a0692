using System.Data.Common;
using System.Text.Json.Nodes;
using Dapper;
using Inspect.Metrology;
using Inspect.Sheets;
using Inspect.Sheets.Readings;
using Inspect.Station.Access;
using Inspect.Station.Storage;

namespace Inspect.Station.Instruments;

/// <summary>Checks of instruments in the register.</summary>
public static class Checks
{
    /// <summary>The kind of entry.</summary>
    public const string Kind = "check";

    /// <summary>The index of checks.</summary>
    public static readonly RegisterIndex Index = new("checks of instruments", Kind, ["check_index"], Add, RegisterIndex.HasRow);

    private const int Version = 1;

    /// <summary>Records a check as an entry of the register.</summary>
    /// <returns>The number of the entry.</returns>
    public static long Append(WriteTransaction write, Instrument instrument, CheckOutcome outcome, PersonId by, DateTimeOffset at)
    {
        return Register.Append(write, Kind, Version, new JsonObject
        {
            ["at"] = UtcText.Of(at),
            ["by"] = new JsonObject { ["person"] = by.ToString(), ["name"] = People.PseudonymOfName(write, by) },
            ["instrument"] = instrument.Name,
            ["instrumentKind"] = InstrumentKinds.WordOf(instrument.Kind),
            ["outcome"] = outcome.IsGood ? "good" : "failed",
            ["points"] = new JsonArray([.. outcome.Findings.Select(finding => Written(finding, UnitOf(instrument)))]),
        }).Seq;
    }

    /// <summary>The checks of an instrument, newest first.</summary>
    public static IReadOnlyList<CheckRow> Of(DbConnection connection, string instrument) =>
        connection.Query<CheckRow>($"{CheckRow.Columns} WHERE instrument = @instrument ORDER BY seq DESC", new { instrument }).AsList();

    /// <summary>How many checks of each instrument were good and how many failed, in a span of time.</summary>
    public static IReadOnlyDictionary<string, (int Good, int Failed)> Counted(
        DbConnection connection, DateTimeOffset from, DateTimeOffset to) => connection.Query<CheckRow>(
            $"{CheckRow.Columns} WHERE at BETWEEN @from AND @to ORDER BY seq", new { from = UtcText.Of(from), to = UtcText.Of(to) })
        .GroupBy(row => row.Instrument, StringComparer.OrdinalIgnoreCase).ToDictionary(
            checks => checks.Key, checks => (checks.Count(row => row.IsGood), checks.Count(row => !row.IsGood)),
            StringComparer.OrdinalIgnoreCase);

    /// <summary>One recorded check; null when this entry is not a check of this instrument.</summary>
    public static RecordedCheck? Find(DbConnection connection, string instrument, long seq)
    {
        var row = connection.QuerySingleOrDefault<CheckRow>(
            $"{CheckRow.Columns} WHERE seq = @seq AND instrument = @instrument", new { seq, instrument });
        if (row is null)
        {
            return null;
        }

        var body = JsonNode.Parse(Register.BodyOf(connection, seq)!)!;
        return new RecordedCheck(row, [.. body["points"]!.AsArray().Select(point => point!["sentence"]!.GetValue<string>())]);
    }

    /// <summary>The checks before and after some inspections: for each of their instruments, the last check before the inspection and
    /// the first after it.</summary>
    /// <param name="connection">The connection to read from.</param>
    /// <param name="inspections">The entries of the inspections.</param>
    public static IReadOnlyList<RecordedCheck> Around(DbConnection connection, IReadOnlyCollection<long> inspections) =>
        [.. connection.Query<CheckRow>(
            $"""
            {CheckRow.Columns} WHERE seq IN (
              SELECT (SELECT max(b.seq) FROM check_index b WHERE b.instrument = m.instrument AND b.seq < m.seq)
              FROM inspection_instrument m WHERE m.seq IN @inspections
              UNION
              SELECT (SELECT min(a.seq) FROM check_index a WHERE a.instrument = m.instrument AND a.seq > m.seq)
              FROM inspection_instrument m WHERE m.seq IN @inspections)
            ORDER BY seq
            """,
            new { inspections })
            .AsList().Select(row => Find(connection, row.Instrument, row.Seq)!)];

    /// <summary>The unit of sentences about an instrument: that of its display.</summary>
    public static Unit UnitOf(Instrument instrument) => instrument.Resolution?.Notation.Unit is { } unit and not Unit.PoundOunce
        ? unit
        : InstrumentKinds.UnitOf(instrument.Kind);

    private static JsonObject Written(CheckFinding finding, Unit unit) => new()
    {
        ["what"] = finding.Point.What,
        ["nominal"] = Text(finding.Point.Nominal, unit, isSize: false),
        ["ownError"] = Text(finding.Point.OwnError, unit),
        ["shown"] = new JsonArray([.. finding.Point.Shown.Select(reading => JsonValue.Create(reading.Text))]),
        ["tolerance"] = Text(finding.Tolerance, unit),
        ["within"] = finding.IsWithin,
        ["sentence"] = finding.Sentence,
    };

    private static string Text(decimal value, Unit unit, bool isSize = true) => isSize
        ? Inspect.Sheets.Readings.Written.Difference(value, new Notation(unit, false)).Trim()
        : Inspect.Sheets.Readings.Written.As(value, new Notation(unit, false)).Trim();

    private static void Add(WriteTransaction write, RegisterEntry check) => write.Connection.Execute(
        "INSERT INTO check_index (seq, instrument, outcome, by_person, at) VALUES (@Seq, @instrument, @outcome, @byPerson, @at)",
        new
        {
            check.Seq,
            instrument = check.Text("instrument"),
            outcome = check.Text("outcome"),
            byPerson = check.Text("by", "person"),
            at = check.Text("at"),
        },
        write.Transaction);
}

/// <summary>A check in the register.</summary>
/// <param name="Row">Its time, person and outcome.</param>
/// <param name="Sentences">A sentence for each point.</param>
public sealed record RecordedCheck(CheckRow Row, IReadOnlyList<string> Sentences);
