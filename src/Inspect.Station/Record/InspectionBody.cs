using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Inspect.Rules.Judging;
using Inspect.Sheets;
using Inspect.Sheets.Json;
using Inspect.Station.Access;

namespace Inspect.Station.Record;

/// <summary>The format of an inspection in the register: the members of its entry's body, version 2.</summary>
/// <remarks>
/// In version 2 each finding has the member <c>exact</c> in addition to its words: the reading, the limit and the margin as exact numbers
/// in text, with their unit and notation, as <see cref="RecordedNumbers"/> says. All other members are those of version 1. Version 1 is
/// still read: its numbers are read back from its words (<see cref="FirstVersion"/>).
/// </remarks>
public static class InspectionBody
{
    /// <summary>The kind of entry.</summary>
    public const string Kind = "inspection";

    /// <summary>The version in which new inspections are recorded.</summary>
    public const int Version = VerdictJson.WithNumbers;

    private const string InstantFormat = "yyyy-MM-dd'T'HH:mm:ss.fff'Z'";

    /// <summary>The body without its kind, version and place, which the register adds.</summary>
    public static JsonObject Write(Inspection inspection, TimeSpan offset)
    {
        var body = new JsonObject
        {
            ["number"] = inspection.Number.ToString(),
            ["code"] = inspection.Code.ToString(),
            ["at"] = Instant(inspection.At),
            ["offset"] = Offset(offset),
            ["event"] = inspection.Event,
            ["entry"] = inspection.Entry,
            ["bowler"] = Write(inspection.Bowler),
            ["ball"] = inspection.Ball,
            ["by"] = Write(inspection.By),
            ["sheet"] = SheetJson.Write(inspection.Sheet),
            ["engine"] = inspection.Engine,
            ["verdict"] = VerdictJson.Recorded(inspection.Verdict, Version),
        };
        if (inspection.Verdict.Edition is { } edition)
        {
            body["edition"] = new JsonObject { ["id"] = edition.Id, ["sha256"] = edition.Sha256 };
        }

        if (TermsJson.Write(inspection.Terms) is { Count: > 0 } terms)
        {
            body["terms"] = terms;
        }

        if (inspection.Verdict.Supplements.Count > 0)
        {
            body["supplements"] = body["verdict"]!["supplements"]!.DeepClone();
        }

        if (inspection.Supersedes is { } superseded)
        {
            body["supersedes"] = superseded.ToString();
        }

        if (inspection.MeasuredAt is { } measuredAt)
        {
            body["measuredAt"] = Instant(measuredAt);
        }

        if (inspection.Tag is { } tag)
        {
            body["tag"] = tag;
        }

        if (inspection.WorkDoneHash is { } workDone)
        {
            body["workDone"] = workDone;
        }

        if (inspection.Observations.Count > 0)
        {
            body["observations"] = new JsonArray([.. inspection.Observations.Select(Write)]);
        }

        if (inspection.NotMeasured.Count > 0)
        {
            body["notMeasured"] = new JsonArray(
                [.. inspection.NotMeasured.Select(left => new JsonObject { ["path"] = left.Path, ["reason"] = left.ReasonHash })]);
        }

        return body;
    }

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
        if (Text(members, "kind") != Kind || version is not (VerdictJson.WordsOnly or VerdictJson.WithNumbers))
        {
            throw new FormatException("This entry of the register is not an inspection of version 1 or 2.");
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
            NotMeasured = List(members, "notMeasured").Select(left => new LeftUnmeasured(Text(left, "path"), Text(left, "reason")))
                .ToList(),
            Tag = Optional(members, "tag"),
            WorkDoneHash = Optional(members, "workDone"),
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

    private static JsonObject Write(SealedName name) => new() { ["person"] = name.Person.ToString(), ["name"] = name.Hash };

    private static SealedName ReadName(JsonElement members) => new(PersonId.From(Text(members, "person")), Text(members, "name"));

    private static JsonObject Write(Observation observation)
    {
        var written = new JsonObject { ["path"] = observation.Path, ["text"] = observation.Text };
        if (observation.Instrument is { } instrument)
        {
            written["instrument"] = instrument;
        }

        if (observation.Turned is { } turned)
        {
            written["turned"] = turned;
        }

        if (observation.Trial is { } trial)
        {
            written["trial"] = trial;
        }

        return written;
    }

    private static Observation ReadObservation(JsonElement members) => new(
        Text(members, "path"),
        Text(members, "text"),
        Optional(members, "instrument"),
        Find(members, "turned")?.GetBoolean(),
        Find(members, "trial")?.GetInt32());

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
