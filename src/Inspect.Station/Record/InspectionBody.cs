using System.Globalization;
using System.Text;
using System.Text.Json;
using Inspect.Ledger;
using Inspect.Rules.Judging;
using Inspect.Sheets;
using Inspect.Sheets.Json;
using Inspect.Station.Access;

namespace Inspect.Station.Record;

/// <summary>The format of an inspection in the register: the members of its entry's body, version 3.</summary>
/// <remarks>
/// In version 2 each finding has the member <c>exact</c> in addition to its words: the reading, the limit and the margin as exact numbers
/// in text, with their unit and notation, as <see cref="RecordedNumbers"/> says. All other members are those of version 1. Version 3 words
/// an unconfirmed limit otherwise. Version 1 is still read: its numbers are read back from its words (<see cref="FirstVersion"/>).
/// </remarks>
public static class InspectionBody
{
    /// <summary>The kind of entry.</summary>
    public const string Kind = "inspection";

    /// <summary>The version in which new inspections are recorded.</summary>
    public const int Version = VerdictJson.Latest;

    private const string InstantFormat = "yyyy-MM-dd'T'HH:mm:ss.fff'Z'";

    /// <summary>The canonical bytes of the body.</summary>
    /// <param name="inspection">The inspection.</param>
    /// <param name="parts">Its sheet and its verdict.</param>
    /// <param name="offset">The venue's offset from UTC.</param>
    /// <param name="place">Its place in the register.</param>
    public static byte[] Write(Inspection inspection, BodyParts parts, TimeSpan offset, EntryPlace place) =>
        CanonicalWriting.Bytes(inspection, (to, _) =>
        {
            to.WriteStartObject();
            to.WriteString("at"u8, Instant(inspection.At));
            to.WriteString("ball"u8, inspection.Ball);
            Write(to, "bowler"u8, inspection.Bowler);
            Write(to, "by"u8, inspection.By);
            to.WriteString("code"u8, inspection.Code.ToString());
            if (inspection.Confirmed.Count > 0)
            {
                to.WriteStartArray("confirmed"u8);
                foreach (var path in inspection.Confirmed)
                {
                    to.WriteStringValue(path);
                }

                to.WriteEndArray();
            }

            if (inspection.Verdict.Edition is { } edition)
            {
                to.WriteStartObject("edition"u8);
                to.WriteString("id"u8, edition.Id);
                to.WriteString("sha256"u8, edition.Sha256);
                to.WriteEndObject();
            }

            to.WriteString("engine"u8, inspection.Engine);
            to.WriteString("entry"u8, inspection.Entry);
            to.WriteString("event"u8, inspection.Event);
            to.WriteString("kind"u8, Kind);
            Write(to, inspection.List);
            Add(to, "measuredAt"u8, inspection.MeasuredAt is { } measuredAt ? Instant(measuredAt) : null);
            AddList(to, "notMeasured"u8, inspection.NotMeasured, Write);
            to.WriteString("number"u8, inspection.Number.ToString());
            AddList(to, "observations"u8, inspection.Observations, Write);
            to.WriteString("offset"u8, Offset(offset));
            to.WriteString(EntryPlace.PriorMember, place.Prior.ToString());
            to.WriteNumber(EntryPlace.SeqMember, place.Seq);
            to.WritePropertyName("sheet"u8);
            to.WriteRawValue(parts.Sheet.Span, skipInputValidation: true);
            Add(to, "supersedes"u8, inspection.Supersedes?.ToString());
            if (inspection.Verdict.Supplements.Count > 0)
            {
                to.WritePropertyName("supplements"u8);
                VerdictJson.Record(to, inspection.Verdict.Supplements);
            }

            Add(to, "tag"u8, inspection.Tag);
            if (TermsJson.Write(inspection.Terms) is { Count: > 0 } terms)
            {
                to.WritePropertyName("terms"u8);
                to.WriteRawValue(CanonicalJson.Write(terms), skipInputValidation: true);
            }

            to.WriteNumber("v"u8, Version);
            to.WritePropertyName("verdict"u8);
            to.WriteRawValue(parts.Verdict.Span, skipInputValidation: true);
            Add(to, "workDone"u8, inspection.WorkDoneHash);
            to.WriteEndObject();
        }, parts.Sheet.Length + parts.Verdict.Length + (4 * 1024)).ToArray();

    /// <summary>Reads the inspection from a body of the register.</summary>
    /// <exception cref="FormatException">The body is not an inspection that this version can read.</exception>
    public static Inspection Read(ReadOnlyMemory<byte> body)
    {
        using var document = JsonDocument.Parse(body);
        return Read(document.RootElement);
    }

    /// <summary>Reads the inspection from a body that was parsed.</summary>
    /// <exception cref="FormatException">The body is not an inspection that this version can read.</exception>
    public static Inspection Read(JsonElement members)
    {
        if (members.ValueKind != JsonValueKind.Object)
        {
            throw new FormatException("This entry of the register is not an object.");
        }

        var version = VersionOf(members);
        if (Text(members, "kind") != Kind || version is < VerdictJson.WordsOnly or > VerdictJson.Latest)
        {
            throw new FormatException("This entry of the register is not an inspection of version 1, 2 or 3.");
        }

        return new Inspection
        {
            Number = Number(Text(members, "number")),
            Code = SlipCode.TryParse(Text(members, "code"), out var code) ? code
                : throw new FormatException("This inspection has an unreadable code."),
            At = ReadInstant(Text(members, "at")),
            Event = Text(members, "event"),
            Entry = Text(members, "entry"),
            Bowler = ReadName(Object(members, "bowler")),
            Ball = Text(members, "ball"),
            Supersedes = Optional(members, "supersedes") is { } superseded ? Number(superseded) : null,
            By = ReadName(Object(members, "by")),
            MeasuredAt = Optional(members, "measuredAt") is { } measuredAt ? ReadInstant(measuredAt) : null,
            Sheet = ReadSheet(Object(members, "sheet")),
            Observations = List(members, "observations").Select(ReadObservation).ToList(),
            Confirmed = Find(members, "confirmed") is { ValueKind: JsonValueKind.Array } confirmed
                ? confirmed.EnumerateArray().Select(path => path.GetString() ?? "").ToList() : [],
            NotMeasured = List(members, "notMeasured").Select(left => new LeftUnmeasured(Text(left, "path"), Text(left, "reason")))
                .ToList(),
            Tag = Optional(members, "tag"),
            WorkDoneHash = Optional(members, "workDone"),
            List = ReadList(members),
            Terms = ReadTerms(members),
            Engine = Text(members, "engine"),
            Verdict = VerdictReader.Read(Object(members, "verdict"), version),
        };
    }

    /// <summary>The version that a body says it has; 0 when it says none.</summary>
    public static int VersionOf(JsonElement members) =>
        Find(members, "v") is { ValueKind: JsonValueKind.Number } version && version.TryGetInt32(out var number) ? number : 0;

    /// <summary>An instant as the register writes it: UTC, to the millisecond.</summary>
    public static string Instant(DateTimeOffset at) => at.UtcDateTime.ToString(InstantFormat, CultureInfo.InvariantCulture);

    /// <summary>Reads an instant of the register.</summary>
    public static DateTimeOffset ReadInstant(string text) =>
        DateTimeOffset.ParseExact(
            text, InstantFormat, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal | DateTimeStyles.AdjustToUniversal);

    /// <summary>The venue's offset from UTC as the register writes it.</summary>
    public static string Offset(TimeSpan offset) =>
        (offset < TimeSpan.Zero ? "-" : "+") + offset.ToString("hh':'mm", CultureInfo.InvariantCulture);

    private static void Write(Utf8JsonWriter to, ReadOnlySpan<byte> name, SealedName person)
    {
        to.WriteStartObject(name);
        to.WriteString("name"u8, person.Hash);
        to.WriteString("person"u8, person.Person.ToString());
        to.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter to, ListRead? list)
    {
        if (list is not null)
        {
            to.WriteStartObject("list"u8);
            to.WriteString("name"u8, list.Name);
            Add(to, "reason"u8, list.ReasonHash);
            Add(to, "said"u8, list.Said is { } said ? Words.Of(said) : null);
            to.WriteString("sha256"u8, list.Sha256);
            to.WriteEndObject();
        }
    }

    private static void Write(Utf8JsonWriter to, LeftUnmeasured left)
    {
        to.WriteString("path"u8, left.Path);
        to.WriteString("reason"u8, left.ReasonHash);
    }

    private static void Write(Utf8JsonWriter to, Observation observation)
    {
        Add(to, "instrument"u8, observation.Instrument);
        to.WriteString("path"u8, observation.Path);
        to.WriteString("text"u8, observation.Text);
        if (observation.Trial is { } trial)
        {
            to.WriteNumber("trial"u8, trial);
        }

        if (observation.Turned is { } turned)
        {
            to.WriteBoolean("turned"u8, turned);
        }
    }

    private static void Add(Utf8JsonWriter to, ReadOnlySpan<byte> name, string? text)
    {
        if (text is not null)
        {
            to.WriteString(name, text);
        }
    }

    private static void AddList<T>(Utf8JsonWriter to, ReadOnlySpan<byte> name, IReadOnlyList<T> items, Action<Utf8JsonWriter, T> write)
    {
        if (items.Count > 0)
        {
            to.WriteStartArray(name);
            foreach (var item in items)
            {
                to.WriteStartObject();
                write(to, item);
                to.WriteEndObject();
            }

            to.WriteEndArray();
        }
    }

    private static SealedName ReadName(JsonElement members) => new(PersonId.From(Text(members, "person")), Text(members, "name"));

    private static Observation ReadObservation(JsonElement members) => new(
        Text(members, "path"),
        Text(members, "text"),
        Optional(members, "instrument"),
        Find(members, "turned")?.GetBoolean(),
        Find(members, "trial")?.GetInt32());

    private static ListRead? ReadList(JsonElement members) => Find(members, "list") is { ValueKind: JsonValueKind.Object } list
        ? new ListRead(
            Text(list, "name"), Text(list, "sha256"), Optional(list, "said") is { } said ? Words.Listings.GetValueOrDefault(said) : null,
            Optional(list, "reason"))
        : null;

    private static JudgingTerms ReadTerms(JsonElement members)
    {
        if (Find(members, "terms") is not { ValueKind: JsonValueKind.Object } written)
        {
            return JudgingTerms.None;
        }

        var faults = new List<Fault>();
        return TermsReader.Read(Encoding.UTF8.GetBytes(written.GetRawText()), faults)
            ?? throw new FormatException($"The terms of this inspection cannot be read: {faults[0].Path}: {faults[0].Message}");
    }

    private static Sheet ReadSheet(JsonElement members)
    {
        var faults = new List<Fault>();
        return SheetReader.Read(members, faults)
            ?? throw new FormatException($"The sheet of this inspection cannot be read: {faults[0].Path}: {faults[0].Message}");
    }

    private static InspectionNumber Number(string text) =>
        InspectionNumber.TryParse(text, out var number) ? number
            : throw new FormatException($"\"{text}\" is not the number of an inspection.");

    private static JsonElement Object(JsonElement members, string name) =>
        Find(members, name) is { ValueKind: JsonValueKind.Object } found ? found
            : throw new FormatException($"This inspection has no \"{name}\".");

    private static IEnumerable<JsonElement> List(JsonElement members, string name) =>
        Find(members, name) is { ValueKind: JsonValueKind.Array } list
            ? list.EnumerateArray().Where(item => item.ValueKind == JsonValueKind.Object) : [];

    private static string Text(JsonElement members, string name) =>
        Optional(members, name) ?? throw new FormatException($"This inspection has no \"{name}\".");

    private static string? Optional(JsonElement members, string name) => Find(members, name)?.GetString();

    private static JsonElement? Find(JsonElement members, string name) =>
        members.TryGetProperty(name, out var found) && found.ValueKind != JsonValueKind.Null ? found : null;
}

/// <summary>The large parts of a body, which do not depend on its place in the register and so are written before its turn.</summary>
/// <param name="Sheet">The canonical bytes of the sheet.</param>
/// <param name="Verdict">The canonical bytes of the verdict.</param>
public sealed record BodyParts(ReadOnlyMemory<byte> Sheet, ReadOnlyMemory<byte> Verdict)
{
    public static BodyParts Of(Sheet sheet, Verdict verdict) => new(
        CanonicalWriting.Bytes(sheet, SheetJson.Record, 4 * 1024),
        CanonicalWriting.Bytes(verdict, (to, written) => VerdictJson.Record(to, written, InspectionBody.Version), 20 * 1024));
}
