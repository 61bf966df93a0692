using System.Data.Common;
using System.Text.Json;
using Dapper;
using Inspect.Metrology;
using Inspect.Sheets.Readings;
using Inspect.Station.Access;
using Inspect.Station.Storage;

namespace Inspect.Station.Instruments;

/// <summary>The saved gauge studies.</summary>
public static class GaugeStudies
{
    private const string Columns = """
        SELECT study AS Study, instrument AS Instrument, title AS Title, unit AS Unit, readings AS Readings, at AS At, by_person AS ByPerson
        FROM gauge_study
        """;

    /// <summary>Saves a study and returns its number.</summary>
    public static long Keep(
        WriteTransaction write, Instrument instrument, string title, StudyReadings readings, PersonId by, DateTimeOffset at) =>
        write.Connection.QuerySingle<long>(
            """
            INSERT INTO gauge_study (study, instrument, title, unit, readings, at, by_person)
            VALUES ((SELECT coalesce(max(study), 0) + 1 FROM gauge_study), @Name, @title, @unit, @readings, @at, @by)
            RETURNING study
            """,
            new
            {
                instrument.Name,
                title,
                unit = readings.Unit.ToString(),
                readings = JsonSerializer.Serialize(new Written(readings.Parts, readings.Inspectors, readings.Trials, readings.Texts)),
                at = UtcText.Of(at),
                by = by.ToString(),
            },
            write.Transaction);

    /// <summary>The studies of an instrument, newest first.</summary>
    public static IReadOnlyList<KeptStudy> Of(DbConnection connection, string instrument) =>
        [.. connection.Query<StudyRow>($"{Columns} WHERE instrument = @instrument ORDER BY study DESC", new { instrument })
            .Select(row => row.ToDomain())];

    /// <summary>One study of an instrument, or null.</summary>
    public static KeptStudy? Find(DbConnection connection, string instrument, long study) =>
        connection.QuerySingleOrDefault<StudyRow>($"{Columns} WHERE instrument = @instrument AND study = @study",
            new { instrument, study })?.ToDomain();

    private sealed record Written(
        IReadOnlyList<string> Parts, IReadOnlyList<string> Inspectors, int Trials, IReadOnlyList<string> Readings);

    private sealed record StudyRow(long Study, string Instrument, string Title, string Unit, string Readings, string At, string ByPerson)
    {
        public KeptStudy ToDomain()
        {
            var written = JsonSerializer.Deserialize<Written>(Readings)!;
            var unit = Enum.Parse<Unit>(Unit);
            return new KeptStudy(
                Study,
                Title,
                new StudyReadings(written.Parts, written.Inspectors, written.Trials, unit, written.Readings),
                UtcText.Parse(At),
                PersonId.From(ByPerson));
        }
    }
}

/// <summary>A saved gauge study.</summary>
/// <param name="Id">Its number.</param>
/// <param name="Title">Its title.</param>
/// <param name="Readings">The readings.</param>
/// <param name="At">When it was saved.</param>
/// <param name="By">Who saved it.</param>
public sealed record KeptStudy(long Id, string Title, StudyReadings Readings, DateTimeOffset At, PersonId By);

/// <summary>The readings of a study as typed: row by row, and in a row inspector by inspector and trial by trial.</summary>
/// <param name="Parts">What was measured.</param>
/// <param name="Inspectors">Who measured.</param>
/// <param name="Trials">How often each inspector measured each part.</param>
/// <param name="Unit">The unit of numbers without one, and of the results.</param>
/// <param name="Texts">As typed.</param>
public sealed record StudyReadings(
    IReadOnlyList<string> Parts, IReadOnlyList<string> Inspectors, int Trials, Unit Unit, IReadOnlyList<string> Texts)
{
    /// <summary>The readings as numbers in <see cref="Unit"/>.</summary>
    public GaugeTable ToTable()
    {
        var table = new double[Parts.Count, Inspectors.Count, Trials];
        for (var i = 0; i < Texts.Count; i++)
        {
            var perRow = Inspectors.Count * Trials;
            table[i / perRow, i % perRow / Trials, i % Trials] = Read(Texts[i], Unit).Value!.Value;
        }

        return new GaugeTable(Parts, Inspectors, table);
    }

    /// <summary>One reading as a number in a unit, or what is wrong with it in one sentence. A deviation from a
    /// size may be negative.</summary>
    internal static (double? Value, string? Refusal) Read(string text, Unit unit)
    {
        var results = Units.MeasuredIn(unit).Select(quantity => ReadingParser.Parse(text, quantity, unit)).ToList();
        return results.Find(result => result.Reading is not null)?.Reading is { } reading
            ? (Seam.ToDouble(reading.Value / Units.Factor(unit)), null)
            : (null, results[^1].Refusal);
    }
}
