using System.Data.Common;
using System.Globalization;
using Inspect.Sheets;
using Inspect.Sheets.Json;
using Inspect.Sheets.Readings;
using Inspect.Station.Prepare;
using Inspect.Station.Web;

namespace Inspect.Station.Record;

/// <summary>A request to record an inspection. It is read strictly, and every fault is reported.</summary>
/// <param name="Event">The event it is recorded in.</param>
/// <param name="Entry">The bowler's entry.</param>
/// <param name="Sheet">What was measured, with the authority, edition and plan that the event sets.</param>
/// <param name="Ball">The id of a ball inspected before, or null for a ball not seen yet.</param>
/// <param name="Supersedes">The inspection this one replaces.</param>
/// <param name="Observations">The single readings behind the sheet's values.</param>
/// <param name="Confirmed">Paths of readings far from what a ball can have that were confirmed at the table.</param>
/// <param name="NotMeasured">Paths left unmeasured on purpose, each with its reason.</param>
/// <param name="Tag">The numbered seal or tag on the ball, or null.</param>
/// <param name="WorkDone">What was done to the ball since the inspection that this one replaces, or null.</param>
/// <param name="MeasuredAt">When it was measured, if earlier than the request.</param>
/// <param name="ListedReason">Why the model is listed or not, where the list of approved balls says otherwise.</param>
internal sealed record RecordRequest(
    Event Event,
    Entry Entry,
    Sheet Sheet,
    string? Ball,
    InspectionNumber? Supersedes,
    IReadOnlyList<Observation> Observations,
    IReadOnlyList<string> Confirmed,
    IReadOnlyList<(string Path, string Reason)> NotMeasured,
    string? Tag,
    string? WorkDone,
    DateTimeOffset? MeasuredAt,
    string? ListedReason)
{
    private const int MostObservations = 200;
    private const int MostLeftOut = 60;
    private const int LongestReason = 300;

    /// <summary>What <see cref="Read"/> reads.</summary>
    public static readonly ApiSchema Schema = new("InspectionRequest", $$"""
        {
          "type": "object", "description": "A request to record an inspection.", "required": ["event", "entry", "sheet"], "additionalProperties": false,
          "properties": {
            "event": { "type": "string", "description": "The event's short name." },
            "entry": { "type": "string", "description": "The bowler's number in it." },
            "sheet": { "$ref": "#/components/schemas/Sheet" },
            "ball": { "type": "string", "maxLength": 16, "description": "The id of a ball of this bowler inspected before; absent for a ball not seen yet." },
            "supersedes": { "type": "string", "description": "The number of the inspection that this one replaces." },
            "observations": {
              "type": "array", "maxItems": {{MostObservations}}, "description": "The single readings behind the sheet's values, as the instruments showed them.",
              "items": {
                "type": "object", "required": ["path", "text"], "additionalProperties": false,
                "properties": {
                  "path": { "type": "string", "description": "The reading of the sheet that it belongs to." },
                  "text": { "type": "string" },
                  "instrument": { "type": "string" },
                  "turned": { "type": "boolean", "description": "Whether the ball was turned, so that the sign is the other side's." },
                  "trial": { "type": "integer", "minimum": 1, "maximum": 99 }
                }
              }
            },
            "confirmed": {
              "type": "array", "maxItems": {{MostObservations}}, "description": "Readings of the sheet that are far from what a ball can have, and were confirmed to be read so.",
              "items": { "type": "string" }
            },
            "notMeasured": {
              "type": "array", "maxItems": {{MostLeftOut}}, "description": "What was left unmeasured on purpose.",
              "items": {
                "type": "object", "required": ["path", "reason"], "additionalProperties": false,
                "properties": { "path": { "type": "string" }, "reason": { "type": "string", "maxLength": {{LongestReason}} } }
              }
            },
            "measuredAt": { "type": "string", "format": "date-time", "description": "When it was measured, where that was earlier." },
            "tag": {
              "type": "string", "maxLength": {{Tags.Longest}}, "description": "The numbered seal or tag on the ball; one that another ball of the event wears is refused."
            },
            "listedReason": {
              "type": "string", "maxLength": {{LongestReason}}, "description": "Why the sheet says otherwise of the model than the list of approved balls that the event reads; asked for only then."
            },
            "workDone": {
              "type": "string", "maxLength": {{LongestReason}}, "description": "What was done to the ball since the inspection that this one replaces."
            }
          }
        }
        """);

    /// <summary>The request in a JSON body, or null with the faults added.</summary>
    public static RecordRequest? Read(ReadOnlyMemory<byte> utf8, DbConnection connection, TimeProvider time, List<Fault> faults)
    {
        if (StrictJson.Read(utf8, faults) is not { } members)
        {
            return null;
        }

        var (found, entry) = Entered(members, connection);
        members.Require("sheet");
        var sheet = ReadSheet(members, found, faults);
        var request = new RecordRequest(
            found!,
            entry!,
            sheet!,
            members.Text("ball", 16),
            Superseded(members),
            ReadObservations(members, sheet),
            ReadConfirmed(members, sheet),
            (members.Objects("notMeasured", MostLeftOut) ?? []).Select(ReadNotMeasured).ToList(),
            ReadTag(members),
            ReadWorkDone(members),
            ReadMeasuredAt(members, time),
            members.Text("listedReason", LongestReason));
        members.Close();
        return faults.Count == 0 ? request : null;
    }

    private static (Event?, Entry?) Entered(StrictObject members, DbConnection connection)
    {
        members.Require("event");
        members.Require("entry");
        var (name, number) = (members.Text("event"), members.Text("entry"));
        var found = name is null ? null : Events.Find(connection, name);
        if (name is not null && found is null)
        {
            members.Refuse("event", $"There is no event \"{name}\" on this station.");
        }

        var entry = found is null || number is null ? null : Events.FindEntry(connection, found.Id, number);
        if (found is not null && number is not null && entry is null)
        {
            members.Refuse("entry", $"There is no entry \"{number}\" in {found.Name}.");
        }
        else if (entry?.Refusal is { } withdrawn)
        {
            members.Refuse("entry", withdrawn);
        }

        return (found, entry);
    }

    private static Sheet? ReadSheet(StrictObject members, Event? found, List<Fault> faults)
    {
        if (members.Object("sheet") is not { } sheetMembers || found is null)
        {
            return null;
        }

        var sheet = SheetReader.Read(sheetMembers, faults, new SheetDefaults(found.Authority, found.Edition, found.Plan));
        if (sheet is not null && found.RefusalOf(sheet.Play) is { } refusal)
        {
            sheetMembers.Refuse("play", refusal);
        }

        return sheet;
    }

    private static InspectionNumber? Superseded(StrictObject members)
    {
        if (members.Text("supersedes") is not { } text)
        {
            return null;
        }

        if (!InspectionNumber.TryParse(text, out var number))
        {
            members.Refuse("supersedes", $"\"{text}\" is not the number of an inspection; write it as printed on the slip, "
                + "such as LANTERN-0417.");
            return null;
        }

        return number;
    }

    private static List<Observation> ReadObservations(StrictObject members, Sheet? sheet)
    {
        var read = new List<(StrictObject Members, Observation Observation, decimal Value)>();
        foreach (var member in members.Objects("observations", MostObservations) ?? [])
        {
            if (ReadObservation(member, sheet) is var (observation, value))
            {
                read.Add((member, observation, value));
            }
        }

        foreach (var readings in sheet is null ? [] : read.GroupBy(one => one.Observation.Path))
        {
            // A gauge that lets a ball through shows no number, so there is nothing to calculate.
            if (Catalogue.Measured(sheet!, readings.Key) is not { } said)
            {
                continue;
            }

            if (TwoPositions(readings.Select(one => (one.Observation, one.Value)).ToList(), said.Quantity) is { } exact)
            {
                if (said.Value != exact)
                {
                    var last = readings.Last();
                    last.Members.Refuse("text", $"\"{last.Observation.Text}\" and its other position do not give \"{said.Text}\", "
                        + $"which the sheet has for {readings.Key}: it is half their difference, \"{Written.As(exact, said.Notation)}\".");
                }

                continue;
            }

            if (said.Value < readings.Min(one => one.Value) || said.Value > readings.Max(one => one.Value))
            {
                var last = readings.Last();
                last.Members.Refuse("text", $"\"{last.Observation.Text}\" does not give \"{said.Text}\", "
                    + $"which the sheet has for {readings.Key}; send the readings it was calculated from.");
            }
        }

        return read.ConvertAll(one => one.Observation);
    }

    private static IReadOnlyList<string> ReadConfirmed(StrictObject members, Sheet? sheet)
    {
        var confirmed = members.Texts("confirmed", MostObservations) ?? [];
        foreach (var path in confirmed.Where(path => sheet is not null && Catalogue.ValueAt(sheet, path) is null))
        {
            members.Refuse("confirmed", $"The sheet has nothing at \"{path}\"; only what is on it can be confirmed.");
        }

        return confirmed;
    }

    /// <summary>The mean over the trials of half the difference of the two positions; null when the ball was not read in both.</summary>
    private static decimal? TwoPositions(List<(Observation Observation, decimal Value)> readings, Quantity quantity)
    {
        var isBoth = quantity == Quantity.Imbalance && readings.Any(one => one.Observation.Turned == true)
            && readings.Any(one => one.Observation.Turned != true);
        return isBoth ? readings.GroupBy(one => one.Observation.Trial ?? 1).Select(Trial).ToList() is var trials
            ? trials.Sum() / trials.Count : null : null;

        // The signs are turned back already, so the mean of the positions is half the difference of what the scale showed.
        static decimal Trial(IEnumerable<(Observation Observation, decimal Value)> trial)
        {
            var positions = trial.GroupBy(one => one.Observation.Turned == true).Select(position => position.Average(one => one.Value))
                .ToList();
            return positions.Sum() / positions.Count;
        }
    }

    /// <summary>One observation and its value. For an imbalance read with the ball turned, the sign is turned back.</summary>
    private static (Observation Observation, decimal Value)? ReadObservation(StrictObject members, Sheet? sheet)
    {
        members.Require("path");
        members.Require("text");
        var (path, text) = (members.Text("path"), members.Text("text"));
        var observation = new Observation(
            path ?? "", text ?? "", members.Text("instrument"), members.Flag("turned"), members.Whole("trial", 1, 99));
        members.Close();
        if (path is null || text is null || sheet is null)
        {
            return null;
        }

        if (Catalogue.ValueAt(sheet, path) is GaugeLimits gauge)
        {
            if (text == gauge.Text)
            {
                return (observation, 0);
            }

            members.Refuse("text", $"\"{text}\" is not \"{gauge.Text}\", the gauge that the sheet has for {path}; send the same limits.");
            return null;
        }

        if (Catalogue.Measured(sheet, path) is not { } reading)
        {
            members.Refuse("path", $"The sheet has no reading at \"{path}\"; an observation belongs to a reading of its sheet.");
            return null;
        }

        var parsed = ReadingParser.Parse(text, reading.Quantity);
        if (parsed.Reading is not { } observed)
        {
            members.Refuse("text", parsed.Refusal!);
            return null;
        }

        var turnedBack = observation.Turned == true && reading.Quantity == Quantity.Imbalance;
        return (observation, turnedBack ? -observed.Value : observed.Value);
    }

    private static (string Path, string Reason) ReadNotMeasured(StrictObject members)
    {
        members.Require("path");
        members.Require("reason");
        var left = (members.Text("path") ?? "", members.Text("reason", LongestReason) ?? "");
        members.Close();
        return left;
    }

    private static string? ReadTag(StrictObject members)
    {
        if (members.Text("tag", Tags.Longest)?.Trim() is not { } tag)
        {
            return null;
        }

        if (Tags.Unusable(tag) is { } refusal)
        {
            members.Refuse("tag", refusal);
        }

        return tag;
    }

    private static string? ReadWorkDone(StrictObject members)
    {
        var work = members.Text("workDone", LongestReason);
        if (work is not null && !members.Has("supersedes"))
        {
            members.Refuse("workDone", "Work done is recorded only for a ball that is measured again; "
                + "give the inspection that this one replaces in supersedes.");
        }

        return work;
    }

    private static DateTimeOffset? ReadMeasuredAt(StrictObject members, TimeProvider time)
    {
        if (members.Text("measuredAt") is not { } text)
        {
            return null;
        }

        if (!DateTimeOffset.TryParseExact(text, ["yyyy-MM-dd'T'HH:mm:ssK", "yyyy-MM-dd'T'HH:mm:ss.FFFFFFFK"], CultureInfo.InvariantCulture,
            DateTimeStyles.None, out var at)
            || !(text.EndsWith('Z') || text.LastIndexOfAny(['+', '-']) > 10))
        {
            members.Refuse("measuredAt", $"\"{text}\" is not a date and time; write it with its offset, "
                + "as 2027-03-14T09:26:53+01:00 or ending in Z.");
            return null;
        }

        if (at > time.GetUtcNow().AddMinutes(5))
        {
            members.Refuse("measuredAt", $"\"{text}\" is in the future; check the clock of the table.");
        }

        return at;
    }
}
