using System.Data.Common;
using System.Globalization;
using Dapper;
using Inspect.Sheets;
using Inspect.Sheets.Readings;
using Inspect.Station.Access;
using Inspect.Station.Storage;

namespace Inspect.Station.Instruments;

/// <summary>The instruments of this station and all their changes.</summary>
public sealed class InstrumentBook(Database database)
{
    private const string Columns = """
        SELECT i.instrument AS Name, i.kind AS Kind, c.version AS Version, c.serial AS Serial, c.resolution AS Resolution,
               c.repeatability AS Repeatability, c.repeatability_freedom AS RepeatabilityFreedom, c.repeatability_from AS RepeatabilityFrom,
               c.tolerance AS Tolerance, c.calibration AS Calibration, c.calibrated AS Calibrated, c.due AS Due, c.certificate AS Certificate,
               c.scale_constant AS ScaleConstant, c.ring_diameter AS RingDiameter,
               c.ring_circumference AS RingCircumference, c.value AS Value, c.accuracy_class AS AccuracyClass, c.retired AS Retired, c.at AS At,
               c.by_person AS ByPerson
        FROM instrument i JOIN instrument_change c ON c.instrument = i.instrument
        """;

    private const string Now = "c.version = (SELECT max(version) FROM instrument_change l WHERE l.instrument = i.instrument)";

    /// <summary>Every instrument as it is now, by kind and name.</summary>
    public IReadOnlyList<Instrument> All()
    {
        using var connection = database.OpenForReading();
        return All(connection, null);
    }

    /// <summary>The instrument with a name, upper or lower case, or null.</summary>
    public Instrument? Find(string name)
    {
        using var connection = database.OpenForReading();
        return Find(connection, name, null);
    }

    /// <summary>Every change of an instrument, newest first.</summary>
    public IReadOnlyList<Instrument> History(string name)
    {
        using var connection = database.OpenForReading();
        return [.. connection.Query<InstrumentRow>($"{Columns} WHERE i.instrument = @name ORDER BY c.version DESC", new { name })
            .Select(row => row.ToDomain())];
    }

    internal static IReadOnlyList<Instrument> All(DbConnection connection, DbTransaction? transaction) =>
        [.. connection.Query<InstrumentRow>($"{Columns} WHERE {Now}", null, transaction).Select(row => row.ToDomain())
            .OrderBy(instrument => instrument.Kind).ThenBy(instrument => instrument.Name, StringComparer.OrdinalIgnoreCase)];

    internal static Instrument? Find(DbConnection connection, string name, DbTransaction? transaction) =>
        connection.QuerySingleOrDefault<InstrumentRow>($"{Columns} WHERE i.instrument = @name AND {Now}", new { name },
            transaction)?.ToDomain();

    /// <summary>Adds an instrument, unless its name is taken. Returns whether it was added.</summary>
    public static bool TryAdd(WriteTransaction write, Instrument added)
    {
        if (Find(write.Connection, added.Name, write.Transaction) is not null)
        {
            return false;
        }

        write.Connection.Execute(
            "INSERT INTO instrument (instrument, kind) VALUES (@Name, @kind)",
            new { added.Name, kind = InstrumentKinds.WordOf(added.Kind) },
            write.Transaction);
        Insert(write, added with { Version = 1 });
        return true;
    }

    /// <summary>Saves a change, unless somebody else changed the instrument since it was read. Returns whether it was saved.</summary>
    public static bool TryChange(WriteTransaction write, Instrument changed)
    {
        if (Find(write.Connection, changed.Name, write.Transaction) is not { } before || before.Version != changed.Version)
        {
            return false;
        }

        Insert(write, changed with { Version = before.Version + 1 });
        return true;
    }

    private static void Insert(WriteTransaction write, Instrument one) => write.Connection.Execute(
        """
        INSERT INTO instrument_change (instrument, version, serial, resolution, repeatability, repeatability_freedom, repeatability_from, tolerance,
          calibration, calibrated, due, certificate, scale_constant, ring_diameter, ring_circumference, value, accuracy_class, retired, at, by_person)
        VALUES (@Name, @Version, @Serial, @resolution, @repeatability, @RepeatabilityFreedom, @RepeatabilityFrom, @tolerance,
          @calibration, @calibrated, @due, @Certificate, @scaleConstant, @ringDiameter, @ringCircumference, @value, @AccuracyClass, @retired, @at, @by)
        """,
        new
        {
            one.Name,
            one.Version,
            one.Serial,
            resolution = one.Resolution?.Text,
            repeatability = one.Repeatability?.Text,
            one.RepeatabilityFreedom,
            one.RepeatabilityFrom,
            tolerance = one.Tolerance?.Text,
            calibration = one.Calibration?.Text,
            calibrated = Day(one.Calibrated),
            due = Day(one.Due),
            one.Certificate,
            scaleConstant = one.ScaleConstant?.Text,
            ringDiameter = one.Rings.Diameter?.Text,
            ringCircumference = one.Rings.Circumference?.Text,
            value = one.Value?.Text,
            one.AccuracyClass,
            retired = one.IsRetired ? 1L : 0L,
            at = UtcText.Of(one.At),
            by = one.By.ToString(),
        },
        write.Transaction);

    private static string? Day(DateOnly? day) => day?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    private sealed class InstrumentRow
    {
        public string Name { get; init; } = "";
        public string Kind { get; init; } = "";
        public long Version { get; init; }
        public string? Serial { get; init; }
        public string? Resolution { get; init; }
        public string? Repeatability { get; init; }
        public long? RepeatabilityFreedom { get; init; }
        public string? RepeatabilityFrom { get; init; }
        public string? Tolerance { get; init; }
        public string? Calibration { get; init; }
        public string? Calibrated { get; init; }
        public string? Due { get; init; }
        public string? Certificate { get; init; }
        public string? ScaleConstant { get; init; }
        public string? RingDiameter { get; init; }
        public string? RingCircumference { get; init; }
        public string? Value { get; init; }
        public string? AccuracyClass { get; init; }
        public long Retired { get; init; }
        public string At { get; init; } = "";
        public string ByPerson { get; init; } = "";

        public Instrument ToDomain()
        {
            var kind = InstrumentKinds.Named(Kind) ?? throw new InvalidDataException($"\"{Kind}\" is not a kind of instrument.");
            return new Instrument
            {
                Name = Name,
                Kind = kind,
                Version = Version,
                Serial = Serial,
                Resolution = Size(Resolution, kind),
                Repeatability = Size(Repeatability, kind),
                RepeatabilityFreedom = RepeatabilityFreedom is { } freedom ? checked((int)freedom) : null,
                RepeatabilityFrom = RepeatabilityFrom,
                Tolerance = Size(Tolerance, kind),
                Calibration = Size(Calibration, kind),
                Calibrated = Day(Calibrated),
                Due = Day(Due),
                Certificate = Certificate,
                ScaleConstant = ScaleConstant is null ? null : ReadingParser.Parse(ScaleConstant, Quantity.Length).Reading,
                Rings = (Ring(RingDiameter), Ring(RingCircumference)),
                Value = Value is null ? null : TypedInstrument.ReadValue(Value, kind).Value,
                AccuracyClass = AccuracyClass,
                IsRetired = Retired == 1,
                At = UtcText.Parse(At),
                By = PersonId.From(ByPerson),
            };
        }

        private static Reading? Size(string? text, InstrumentKind kind) =>
            text is null ? null : TypedInstrument.ReadSize(text, kind).Size;

        private static GaugeLimits? Ring(string? text) => text is null ? null : GaugeLimits.Parse(text).Limits;

        private static DateOnly? Day(string? text) =>
            text is null ? null : DateOnly.ParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture);
    }
}
