using System.Text.Json.Nodes;
using Dapper;
using Inspect.Sheets.Json;
using Inspect.Station.Access;
using Inspect.Station.Prepare;
using Inspect.Station.Record;
using Inspect.Station.Storage;
using Inspect.Station.Web;

namespace Inspect.Station.Decide;

/// <summary>Records decisions about inspections. Each is its own entry and does not change the measured verdict.</summary>
/// <remarks>The inspector measures and the director rules. Nobody rules on what they measured, unless the event
/// has only one official.</remarks>
public sealed class Rulings(WriteGate gate, KeyedRequests requests, Events events, TimeProvider time)
{
    private static readonly TimeSpan UndoWithin = TimeSpan.FromMinutes(10);

    // As long as the slip is not printed nobody was told the verdict, but not for longer than a day at the table.
    private static readonly TimeSpan UndoUnprintedWithin = TimeSpan.FromHours(12);

    private const int LongestReason = 300;
    private const int LongestCondition = 120;

    /// <summary>Appends a decision. The caller has checked that the person may take it. The reason is stored separately, where
    /// it can be struck.</summary>
    /// <exception cref="InvalidOperationException">There is no such inspection.</exception>
    public static EntryPosition Append(
        WriteTransaction write, InspectionNumber number, Decision decision, string reason, PersonId by, DateTimeOffset at,
        string? condition = null)
    {
        var about = write.Connection.QuerySingleOrDefault<AboutRow>(
            """
            SELECT i.event AS Event, i.entry AS Entry, i.ball AS Ball, e.time_zone AS TimeZone
            FROM inspection_index i JOIN event e ON e.event = i.event
            WHERE i.number = @number
            """,
            new { number = number.ToString() },
            write.Transaction) ?? throw new InvalidOperationException($"There is no inspection {number}.");
        var body = new JsonObject
        {
            ["inspection"] = number.ToString(),
            ["event"] = about.Event,
            ["entry"] = about.Entry,
            ["decision"] = decision.Word(),
            ["reason"] = Remarks.Seal(write, by, reason),
            ["by"] = new JsonObject { ["person"] = by.ToString(), ["name"] = People.PseudonymOfName(write, by) },
            ["at"] = UtcText.Of(at),
            ["offset"] = InspectionBody.Offset(TimeZoneInfo.FindSystemTimeZoneById(about.TimeZone).GetUtcOffset(at)),
        };
        if (about.Ball is not null)
        {
            body["ball"] = about.Ball;
        }

        if (condition is not null)
        {
            body["condition"] = Remarks.Seal(write, by, condition);
        }

        return Register.Append(write, RulingIndex.Kind, 1, body);
    }

    /// <summary>Records a director's ruling, once for each key.</summary>
    /// <param name="by">Who rules.</param>
    /// <param name="number">The inspection ruled on.</param>
    /// <param name="key">The request's Idempotency-Key.</param>
    /// <param name="request">The request's body: <c>decision</c>, <c>reason</c>, and <c>condition</c> when the ball is
    /// allowed on a condition.</param>
    /// <param name="seen">The entry of the latest ruling that the director has seen, 0 for none; null when not given.</param>
    public Task<DecideResult> Record(SignedIn by, InspectionNumber number, string key, byte[] request, long? seen = null)
    {
        var faults = new List<Fault>();
        var typed = Read(request, faults);
        return requests.Once(new KeyedRequest("ruling", by, number, key, request), faults, (turn, refusals) =>
        {
            if (seen is not null && seen != (turn.Found.Ruling?.Seq ?? 0))
            {
                refusals.Add(Faults.Whole, $"Somebody ruled on {number} while this form was open. Their ruling is shown below; "
                    + "record another only if it is still needed.");
            }

            if (typed is { } ruling && Refusal(turn.Found, ruling.Decision, by.Person) is { } refusal)
            {
                refusals.Add("decision", refusal);
            }

            if (!refusals.AreNone || typed is not { } allowed)
            {
                return null;
            }

            var entry = Append(turn.Write, number, allowed.Decision, allowed.Reason, by.Person, turn.At, allowed.Condition);
            var standing = Standing.WordOf(InspectionLookup.Find(turn.Write.Connection, number, turn.Write.Transaction)!);
            return JsonAnswer.Bytes(new RulingRecorded(number.ToString(), allowed.Decision.Word(), entry.Seq, standing));
        });
    }

    /// <summary>Takes an inspection back: within ten minutes of recording it or until its slip is printed, and by the person who recorded
    /// it.</summary>
    /// <returns>Null when it was taken back, else why not, in a sentence.</returns>
    public Task<string?> Undo(SignedIn by, InspectionNumber number, string reason) => gate.Run(write =>
    {
        if (InspectionLookup.Find(write.Connection, number, write.Transaction) is not { } found)
        {
            return $"There is no inspection \"{number}\" on this station.";
        }

        if (reason.Length is 0 or > LongestReason)
        {
            return $"Say in a few words why {number} is taken back, in {LongestReason} characters at most.";
        }

        // A second press changes nothing.
        if (found.Ruling?.Decision == Decision.Undo)
        {
            return null;
        }

        var at = time.GetUtcNow();
        if (!CanUndo(found, by.Person, at, SlipPrints.IsPrinted(write.Connection, write.Transaction, found.Seq)))
        {
            return $"{number} can no longer be taken back here: only the person who recorded it can, within ten minutes or until its slip "
                + "is printed. A director can withdraw it.";
        }

        Append(write, number, Decision.Undo, reason, by.Person, at);
        return null;
    });

    /// <summary>Whether someone may still take an inspection back.</summary>
    /// <param name="found">The inspection.</param>
    /// <param name="by">The person.</param>
    /// <param name="now">The time.</param>
    /// <param name="isPrinted">Whether its slip was printed.</param>
    public static bool CanUndo(FoundInspection found, PersonId by, DateTimeOffset now, bool isPrinted) =>
        found.Inspection.By.Person == by && now - found.Inspection.At <= (isPrinted ? UndoWithin : UndoUnprintedWithin)
        && !found.IsSuperseded && found.Rulings.Count == 0;

    /// <summary>What a director can decide about an inspection now.</summary>
    public IReadOnlyList<Decision> Open(FoundInspection found, PersonId by) =>
        [.. new[] { Decision.Accept, Decision.Allow, Decision.Remeasure, Decision.Withdraw }.Where(
            decision => Refusal(found, decision, by) is null)];

    /// <summary>Why a decision cannot be taken, in a sentence; null when it can.</summary>
    public string? Refusal(FoundInspection found, Decision decision, PersonId by)
    {
        var number = found.Inspection.Number;
        var outcome = found.Inspection.Verdict.Outcome;
        var isCalledBack = found.Ruling?.Decision.CallsBack() == true;
        return decision switch
        {
            Decision.Undo => "A ruling is one of accept, allow, remeasure and withdraw; "
                + "only the person who recorded an inspection takes it back.",
            _ when found.SupersededBy is { } later => $"{number} was replaced by {later}: rule on that one.",
            Decision.Recall => "A failed check of an instrument calls a ball back; a ruling cannot.",
            _ when found.Ruling?.Decision.IsWithdrawal() == true =>
                $"{number} was withdrawn, and nothing more is ruled on it: the ball is measured again.",
            _ when found.Inspection.By.Person == by && events.Find(found.Inspection.Event)?.HasSingleOfficial != true =>
                $"You measured {number} yourself; another director has to rule on it.",
            Decision.Accept or Decision.Allow when outcome == Rules.Judging.Outcome.Fail =>
                $"{number} was measured outside a limit, which no ruling sets aside; "
                + "the appeal is a second measurement on another instrument.",
            Decision.Accept or Decision.Allow when outcome == Rules.Judging.Outcome.Pass && !isCalledBack && !found.IsDoubted =>
                $"{number} passed and needs no ruling.",
            Decision.Remeasure when found.Ruling?.Decision == Decision.Remeasure && !found.IsDoubted =>
                $"{number} is already to be measured again.",
            _ => null,
        };
    }

    /// <summary>What <see cref="Read"/> reads.</summary>
    internal static readonly ApiSchema Schema = new("RulingRequest", $$"""
        {
          "type": "object", "description": "A ruling on an inspection.", "required": ["decision", "reason"], "additionalProperties": false,
          "properties": {
            "decision": { "type": "string", "enum": ["accept", "allow", "remeasure", "withdraw"] },
            "reason": { "type": "string", "minLength": 1, "maxLength": {{LongestReason}}, "description": "Why, in a sentence that stands on slip and scan." },
            "condition": { "type": "string", "minLength": 1, "maxLength": {{LongestCondition}}, "description": "On what condition; for allow alone, which needs it." }
          }
        }
        """);

    private static AskedRuling? Read(byte[] request, List<Fault> faults)
    {
        if (StrictJson.Read(request, faults) is not { } members)
        {
            return null;
        }

        members.Require("decision");
        var decision = members.Choice("decision", Decisions.Words);
        var reason = members.RequiredText("reason", LongestReason);
        var condition = members.Text("condition", LongestCondition);
        if (decision == Decision.Allow && condition is null && !members.Has("condition"))
        {
            members.Refuse("condition", "Say on what condition the ball is allowed, such as \"measured after the block\".");
        }

        if (decision is not null and not Decision.Allow && condition is not null)
        {
            members.Refuse("condition", $"\"{condition}\" has no place here: only a ball that is allowed is allowed on a condition.");
        }

        members.Close();
        return faults.Count == 0 ? new AskedRuling(decision!.Value, reason!.Trim(), condition?.Trim()) : null;
    }

    private sealed record AskedRuling(Decision Decision, string Reason, string? Condition);

    private sealed record AboutRow(string Event, string Entry, string? Ball, string TimeZone);
}
