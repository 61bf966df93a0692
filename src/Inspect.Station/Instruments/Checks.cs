using System.Data.Common;
using System.Text.Json.Nodes;
using Dapper;
using Inspect.Ledger;
using Inspect.Metrology;
using Inspect.Sheets;
using Inspect.Sheets.Readings;
using Inspect.Station.Access;
using Inspect.Station.Decide;
using Inspect.Station.Record;
using Inspect.Station.Storage;

namespace Inspect.Station.Instruments;

/// <summary>Checks of instruments as the register has them, and what was measured between a good check and a failed one.</summary>
public static class Checks
{
    /// <summary>The kind of entry.</summary>
    public const string Kind = "check";

    private const int Version = 1;

    /// <summary>Records a check that decided something: an entry of the register, and its row in the index.</summary>
    /// <returns>The number of the entry.</returns>
    public static long Append(WriteTransaction write, Instrument instrument, CheckOutcome outcome, PersonId by, DateTimeOffset at)
    {
        var entry = Register.Append(write, Kind, Version, new JsonObject
        {
            ["at"] = UtcText.Of(at),
            ["by"] = new JsonObject { ["person"] = by.ToString(), ["name"] = People.PseudonymOfName(write, by) },
            ["instrument"] = instrument.Name,
            ["instrumentKind"] = InstrumentKinds.WordOf(instrument.Kind),
            ["outcome"] = outcome.IsGood ? "good" : "failed",
            ["points"] = new JsonArray([.. outcome.Findings.Select(finding => Written(finding, UnitOf(instrument)))]),
        });
        Index(write, entry.Seq, entry.Body);
        return entry.Seq;
    }

    /// <summary>Throws the index of checks away and makes it again from the register.</summary>
    public static void Rebuild(WriteTransaction write)
    {
        write.Connection.Execute("DELETE FROM check_index", null, write.Transaction);
        foreach (var (seq, body) in Register.OfKind(write, Kind))
        {
            Index(write, seq, body);
        }
    }

    /// <summary>The checks of an instrument, the latest first.</summary>
    public static IReadOnlyList<CheckRow> Of(DbConnection connection, string instrument) =>
        connection.Query<CheckRow>($"{CheckRow.Columns} WHERE instrument = @instrument ORDER BY seq DESC", new { instrument }).AsList();

    /// <summary>One recorded check, or null where the register has none there of this instrument.</summary>
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

    /// <summary>The checks on either side of what some inspections were measured with: of each instrument the last before an inspection and the first after it.</summary>
    /// <param name="connection">Where it is read.</param>
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

    /// <summary>Every inspection whose readings name an instrument, recorded after its last good check before an entry and before that entry.</summary>
    /// <param name="connection">Where it is read.</param>
    /// <param name="instrument">Which instrument.</param>
    /// <param name="before">The failed check's entry; <see cref="long.MaxValue"/> for a check not recorded yet.</param>
    /// <param name="transaction">The turn at the gate, when it is one.</param>
    public static IReadOnlyList<MeasuredWith> MeasuredSinceGood(
        DbConnection connection, string instrument, long before, DbTransaction? transaction = null) => connection.Query<MeasuredWith>(
        $"""
        SELECT x.number AS Number, x.event AS Event, x.entry AS Entry, p.name AS Bowler, x.serial AS Serial, x.outcome AS Outcome, x.at AS At,
               x.superseded_by AS SupersededBy,
               {RulingIndex.Decided("x")} AS Decision
        FROM inspection_instrument m
          JOIN inspection_index x ON x.seq = m.seq
          LEFT JOIN entry e ON e.event = x.event AND e.entry = x.entry
          LEFT JOIN person p ON p.id = e.person
        WHERE m.instrument = @instrument AND m.seq < @before
          AND m.seq > coalesce((SELECT max(seq) FROM check_index WHERE instrument = @instrument AND outcome = 'good' AND seq < @before), 0)
        ORDER BY m.seq
        """,
        new { instrument, before },
        transaction).AsList();

    /// <summary>The unit that sentences about an instrument are written in: that of its display.</summary>
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

    private static void Index(WriteTransaction write, long seq, byte[] bytes)
    {
        if (!CanonicalJson.TryParse(bytes, out var parsed) || parsed is not JsonObject body)
        {
            throw new InvalidDataException($"Entry {seq} of the register is not canonical JSON.");
        }

        write.Connection.Execute(
            "INSERT INTO check_index (seq, instrument, outcome, by_person, at) VALUES (@seq, @instrument, @outcome, @byPerson, @at)",
            new
            {
                seq,
                instrument = Member(seq, body, "instrument"),
                outcome = Member(seq, body, "outcome"),
                byPerson = Member(seq, body["by"] as JsonObject ?? [], "person"),
                at = Member(seq, body, "at"),
            },
            write.Transaction);
    }

    private static string Member(long seq, JsonObject body, string name) =>
        body[name]?.GetValue<string>() ?? throw new InvalidDataException($"Entry {seq} of the register has no '{name}', by which a check is found.");
}

/// <summary>A check as the register has it.</summary>
/// <param name="Row">When, by whom, how it came out.</param>
/// <param name="Sentences">What it said of each point.</param>
public sealed record RecordedCheck(CheckRow Row, IReadOnlyList<string> Sentences);

/// <summary>An inspection some of whose readings an instrument gave.</summary>
/// <param name="Number">The inspection.</param>
/// <param name="Event">The event.</param>
/// <param name="Entry">The bowler's number.</param>
/// <param name="Bowler">The bowler; null once struck.</param>
/// <param name="Serial">The ball's serial number.</param>
/// <param name="Outcome">pass, fail or hold, as recorded.</param>
/// <param name="At">When, UTC.</param>
/// <param name="SupersededBy">The inspection that replaced it, or null while it stands.</param>
/// <param name="Decision">The last ruling on it, or null.</param>
public sealed record MeasuredWith(
    string Number, string Event, string Entry, string? Bowler, string? Serial, string Outcome, string At, string? SupersededBy, string? Decision)
{
    /// <summary>Whether its ball may still be in use, or waits on a verdict that this instrument reached.</summary>
    public bool IsToBeCalledBack => IsOpen && !(Last?.CallsBack() ?? false);

    /// <summary>Whether the ball has to be measured again: nothing replaced the inspection, and nobody withdrew it.</summary>
    public bool IsOpen => SupersededBy is null && !(Last?.IsWithdrawal() ?? false);

    /// <summary>Where it stands, in a few words.</summary>
    public string StandingWords => Standing.InAList(SupersededBy, Last);

    private Decision? Last => Decision is null ? null : Decisions.Words[Decision];
}
