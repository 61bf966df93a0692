using System.Text.Json.Nodes;
using Inspect.Sheets;
using Inspect.Sheets.Json;
using Inspect.Station.Access;
using Inspect.Station.Prepare;
using Inspect.Station.Record;
using Inspect.Station.Storage;
using Inspect.Station.Web;

namespace Inspect.Station.Decide;

/// <summary>Records spot checks: an official compares a ball in use with what was recorded of it.</summary>
/// <remarks>Each is an entry of its own. One that finds another ball waits for a director's ruling; none changes a verdict.</remarks>
public sealed class SpotChecks(KeyedRequests requests, Events events)
{
    private const int LongestRemark = 300;

    /// <summary>Records a spot check, once for each key.</summary>
    /// <param name="by">Who compared.</param>
    /// <param name="number">The inspection that the ball was compared with.</param>
    /// <param name="key">The request's Idempotency-Key.</param>
    /// <param name="request">The request's body: <c>isTheBall</c>, <c>differs</c> where it is not, and <c>remark</c>.</param>
    public Task<DecideResult> Record(SignedIn by, InspectionNumber number, string key, byte[] request)
    {
        var faults = new List<Fault>();
        var typed = Read(request, faults);
        return requests.Once(new KeyedRequest("spot check", by, number, key, request), faults, (turn, refusals) =>
        {
            if (Refusal(turn.Found) is { } refusal)
            {
                refusals.Add(Faults.Whole, refusal);
            }

            if (!refusals.AreNone || typed is not { } found)
            {
                return null;
            }

            var entry = Append(turn, found, by.Person);
            return JsonAnswer.Bytes(new SpotCheckRecorded(
                number.ToString(), found.Differs.Count == 0, [.. found.Differs.Select(SpotCheck.Words.WordOf)], entry.Seq,
                Standing.WordOf(turn.Found)));
        });
    }

    /// <summary>Why no ball is compared with an inspection, in a sentence; null when one can be.</summary>
    public static string? Refusal(FoundInspection found) => found switch
    {
        { SupersededBy: { } later } => $"{found.Inspection.Number} was replaced by {later}: compare the ball with {later}.",
        { Ruling: { } ruling } when ruling.Decision.IsWithdrawal() =>
            $"{found.Inspection.Number} was withdrawn and no longer counts: the ball is measured before it is used.",
        _ => null,
    };

    /// <summary>The parts of a ball that its record says something of.</summary>
    public static IReadOnlyList<Compared> Recorded(Inspection inspection) =>
    [
        .. inspection.Sheet.Ball is { Maker: null, Model: null } or null ? Array.Empty<Compared>() : [Compared.Name],
        .. inspection.Sheet.Ball?.Serial is null ? Array.Empty<Compared>() : [Compared.Serial],
        .. inspection.Tag is null ? Array.Empty<Compared>() : [Compared.Tag],
        .. inspection.Sheet.Holes is { Count: > 0 } ? [Compared.Holes] : Array.Empty<Compared>(),
    ];

    /// <summary>What <see cref="Read"/> reads.</summary>
    internal static readonly ApiSchema Schema = new("SpotCheckRequest", $$"""
        {
          "type": "object", "description": "A comparison of a ball in use with its inspection.", "required": ["isTheBall"],
          "additionalProperties": false,
          "properties": {
            "isTheBall": { "type": "boolean", "description": "Whether it is the ball of the inspection, as recorded." },
            "differs": {
              "type": "array", "minItems": 1, "maxItems": {{SpotCheck.Words.Count}},
              "items": { "type": "string", "enum": ["name", "serial", "tag", "holes"] },
              "description": "What differs; for a ball that is another one alone, which needs it."
            },
            "remark": { "type": "string", "minLength": 1, "maxLength": {{LongestRemark}}, "description": "What an official should know; it can be struck." }
          }
        }
        """);

    private EntryPosition Append(DecideTurn turn, AskedSpotCheck asked, PersonId by)
    {
        var inspection = turn.Found.Inspection;
        var zone = TimeZoneInfo.FindSystemTimeZoneById(events.Find(inspection.Event)!.TimeZone);
        var compared = Recorded(inspection).Union(asked.Differs);
        var body = new JsonObject
        {
            ["inspection"] = inspection.Number.ToString(),
            ["event"] = inspection.Event,
            ["entry"] = inspection.Entry,
            ["ball"] = inspection.Ball,
            ["compared"] = Written(compared),
            ["differs"] = Written(asked.Differs),
            ["by"] = new JsonObject { ["person"] = by.ToString(), ["name"] = People.PseudonymOfName(turn.Write, by) },
            ["at"] = UtcText.Of(turn.At),
            ["offset"] = InspectionBody.Offset(zone.GetUtcOffset(turn.At)),
        };
        if (asked.Remark is { } remark)
        {
            body["remark"] = Remarks.Seal(turn.Write, by, remark);
        }

        return Register.Append(turn.Write, SpotCheckIndex.Kind, 1, body);

        static JsonArray Written(IEnumerable<Compared> parts) =>
            [.. parts.Order().Select(part => JsonValue.Create(SpotCheck.Words.WordOf(part)))];
    }

    private static AskedSpotCheck? Read(byte[] request, List<Fault> faults)
    {
        if (StrictJson.Read(request, faults) is not { } members)
        {
            return null;
        }

        members.Require("isTheBall");
        var isTheBall = members.Flag("isTheBall");
        var differs = members.Choices("differs", SpotCheck.Words, SpotCheck.Words.Count);
        var remark = members.Text("remark", LongestRemark);
        if (isTheBall == false && (differs is { Count: 0 } || (differs is null && !members.Has("differs"))))
        {
            members.Refuse("differs", "Say what differs: name, serial, tag or holes.");
        }

        if (isTheBall == true && members.Has("differs"))
        {
            members.Refuse("differs", "It is the ball, so nothing differs: leave this out.");
        }

        members.Close();
        return faults.Count == 0 ? new AskedSpotCheck([.. (differs ?? []).Distinct().Order()], remark?.Trim()) : null;
    }

    private sealed record AskedSpotCheck(IReadOnlyList<Compared> Differs, string? Remark);
}
