using Dapper;
using Inspect.Rules.Judging;
using Inspect.Rules.Rulesets;
using Inspect.Sheets.Json;
using Inspect.Station.Access;
using Inspect.Station.Instruments;
using Inspect.Station.Prepare;
using Inspect.Station.Storage;
using Inspect.Station.Web;

namespace Inspect.Station.Record;

/// <summary>Records inspections: judges them again from the readings, and appends them to the register.</summary>
public sealed class Inspections(
    Database database, WriteGate gate, Events events, EditionLibrary editions, TimeProvider time, IEnumerable<AfterRecording> after,
    ILogger<Inspections> log)
{
    private static readonly string Engine = typeof(Rules.Judging.Judge).Assembly.GetName().Version!.ToString(3);

    /// <summary>Records the inspection of a request, once: the same request with the same key gets the same answer again.</summary>
    /// <param name="by">Who records.</param>
    /// <param name="key">The request's Idempotency-Key.</param>
    /// <param name="request">The request's body as sent.</param>
    /// <param name="isForm">Whether the key is that of a measuring form. Several people may have the form open; it is recorded once
    /// for all of them.</param>
    public async Task<RecordResult> Record(SignedIn by, string key, byte[] request, bool isForm = false)
    {
        var hash = Idempotency.HashOf(request);
        if (FindKept(by, key, hash) is { } kept)
        {
            return kept;
        }

        var faults = new List<Fault>();
        var read = RecordRequest.Read(request, events, time, faults);
        if (read is null)
        {
            return new RecordResult.Refused(Faults.Of(faults));
        }

        return await gate.Run(write => FindKept(write, by, key, hash) ?? (isForm ? RecordedForm(write, key) : null)
            ?? Append(write, by, key, hash, read, isForm));
    }

    // Several people may have one form open: the first to send it records it for all.
    private static RecordResult.RecordedBefore? RecordedForm(WriteTransaction write, string key) =>
        write.Connection.QueryFirstOrDefault<byte[]>("SELECT body FROM idempotency WHERE key = @key", new { key },
            write.Transaction) is { } answer
            ? new RecordResult.RecordedBefore(answer)
            : null;

    private RecordResult Append(WriteTransaction write, SignedIn by, string key, byte[] hash, RecordRequest request, bool isForm)
    {
        var faults = new Faults();
        var ball = BallOf(write, request, faults);
        if (request.Tag is { } tag && Tags.Taken(write.Connection, write.Transaction, request.Event.Id, tag, ball) is { } taken)
        {
            faults.Add("tag", taken);
        }

        var at = time.GetUtcNow();
        NamedInstruments.Check(write, request.Event, request.Observations, at, faults);
        var sheetFaults = new List<Fault>();
        var (sheet, terms, verdict) = SheetOfEvent.Judge(
            write.Connection, write.Transaction, editions, new PresentedBall(request.Event, request.Entry, request.Sheet, ball, at),
            sheetFaults);
        RuleErrorLog.Write(log, verdict?.RuleErrors ?? []);
        sheetFaults.ForEach(fault => faults.Add($"sheet.{fault.Path}", fault.Message));
        if (!faults.AreNone || verdict is null)
        {
            return new RecordResult.Refused(faults);
        }

        var inspection = new Inspection
        {
            Number = new InspectionNumber(request.Event.Id, InspectionIndex.NextRunning(write, request.Event.Id)),
            Code = FreshCode(write),
            At = at,
            Event = request.Event.Id,
            Entry = request.Entry.Number,
            Bowler = Sealed(write, request.Entry.Person),
            Ball = ball,
            Supersedes = request.Supersedes,
            By = Sealed(write, by.Person),
            MeasuredAt = request.MeasuredAt,
            Sheet = sheet,
            Terms = terms,
            Observations = request.Observations,
            NotMeasured = [.. request.NotMeasured.Select(
                left => new LeftUnmeasured(left.Path, Remarks.Seal(write, by.Person, left.Reason)))],
            Tag = request.Tag,
            WorkDoneHash = request.WorkDone is { } work ? Remarks.Seal(write, by.Person, work) : null,
            Engine = Engine,
            Verdict = verdict,
        };
        var offset = TimeZoneInfo.FindSystemTimeZoneById(request.Event.TimeZone).GetUtcOffset(at);
        Register.Append(write, InspectionBody.Kind, InspectionBody.Version, InspectionBody.Write(inspection, offset));
        var justNow = new RecordedJustNow(request.Event.Id, request.Entry.Number, by.Person, at, isForm ? key : null);
        foreach (var step in after)
        {
            step.Do(write, justNow);
        }

        var answer = JsonAnswer.Bytes(
            new InspectionRecorded(inspection.Number.ToString(), inspection.Code.ToString(), verdict, Links(inspection)));
        Idempotency.Keep(write, by.Person.ToString(), key, hash, new KeptAnswer(StatusCodes.Status201Created, answer), at);
        return new RecordResult.Recorded(inspection.Number, answer);
    }

    /// <summary>The ball's id: that of the inspection superseded, the one given, or a new one.</summary>
    private static string BallOf(WriteTransaction write, RecordRequest request, Faults faults)
    {
        if (request.Supersedes is { } number)
        {
            var earlier = InspectionLookup.Row(write.Connection, number, write.Transaction);
            if (earlier is null || earlier.Event != request.Event.Id || earlier.Entry != request.Entry.Number)
            {
                faults.Add("supersedes", $"{number} is not an inspection of entry {request.Entry.Number} in this event.");
            }
            else if (earlier.SupersededBy is { } later)
            {
                faults.Add("supersedes", $"{number} was already replaced by {later}; name that one.");
            }
            else if (request.Ball is { } named && named != earlier.Ball)
            {
                faults.Add("ball", $"\"{named}\" is not the ball of {number}; leave the ball out.");
            }
            else
            {
                RefuseSameInstrument(write, request, number, faults);
            }

            return earlier?.Ball ?? "";
        }

        if (request.Ball is not { } ball)
        {
            return BallId.New();
        }

        if (InspectionLookup.LatestNumberOf(write.Connection, ball, request.Entry.Person, write.Transaction) is null)
        {
            faults.Add("ball", $"The bowler of entry {request.Entry.Number} has no ball \"{ball}\" here; "
                + "leave it out for a ball not seen yet.");
        }

        return ball;
    }

    /// <summary>A second measurement that a director ordered is made on other instruments than the first.</summary>
    private static void RefuseSameInstrument(WriteTransaction write, RecordRequest request, InspectionNumber number, Faults faults)
    {
        if (InspectionLookup.Find(write.Connection, number, write.Transaction) is not { Ruling.Decision: Decision.Remeasure } ordered)
        {
            return;
        }

        foreach (var (i, observed) in request.Observations.Index())
        {
            if (observed.Instrument is { } instrument
                && ordered.Inspection.Observations.Any(first => first.Path == observed.Path && first.Instrument == instrument))
            {
                faults.Add(FormattableString.Invariant($"observations[{i}].instrument"),
                    $"\"{instrument}\" measured this the first time; "
                    + $"the second measurement that was ordered on {number} is made on another instrument.");
            }
        }
    }

    private static SlipCode FreshCode(WriteTransaction write)
    {
        while (true)
        {
            var code = SlipCode.Draw();
            if (write.Connection.ExecuteScalar<long>(
                "SELECT EXISTS (SELECT 1 FROM inspection_index WHERE code = @code)", new { code = code.ToString() },
                write.Transaction) == 0)
            {
                return code;
            }
        }
    }

    private static SealedName Sealed(WriteTransaction write, PersonId person) => new(person, People.PseudonymOfName(write, person));

    /// <summary>Where a recorded inspection is found.</summary>
    internal static InspectionLinks Links(Inspection inspection) => new(
        $"/api/inspections/{inspection.Number}", $"/api/inspections/{inspection.Number}/slip.pdf", $"/s/{inspection.Code}");

    private RecordResult? FindKept(SignedIn by, string key, byte[] hash)
    {
        using var connection = database.OpenForReading();
        return Kept(Idempotency.Find(connection, null, by.Person.ToString(), key, hash));
    }

    private RecordResult? FindKept(WriteTransaction write, SignedIn by, string key, byte[] hash) =>
        Kept(Idempotency.Find(write.Connection, write.Transaction, by.Person.ToString(), key, hash));

    private RecordResult? Kept((SeenBefore Seen, KeptAnswer? Answer) found)
    {
        switch (found.Seen)
        {
            case SeenBefore.SameRequest:
                return new RecordResult.RecordedBefore(found.Answer!.Body);
            case SeenBefore.AnotherRequest:
                Idempotency.LogConflict(log, "inspection");
                return new RecordResult.KeyUsedOtherwise();
            default:
                return null;
        }
    }
}

/// <summary>The answer to a recorded inspection.</summary>
/// <param name="Number">What people call it.</param>
/// <param name="Code">What the slip's QR code carries.</param>
/// <param name="Verdict">The verdict as recorded.</param>
/// <param name="Links">Where it is found.</param>
public sealed record InspectionRecorded(string Number, string Code, Verdict Verdict, InspectionLinks Links);

/// <summary>Where a recorded inspection is found.</summary>
public sealed record InspectionLinks(string Self, string Slip, string Scan);

/// <summary>What came of a request to record; a closed family.</summary>
public abstract record RecordResult
{
    private RecordResult()
    {
    }

    /// <summary>It is recorded and on the disk.</summary>
    public sealed record Recorded(InspectionNumber Number, byte[] Answer) : RecordResult;

    /// <summary>The same request was recorded before; this is that answer.</summary>
    public sealed record RecordedBefore(byte[] Answer) : RecordResult;

    /// <summary>The key was used for another request.</summary>
    public sealed record KeyUsedOtherwise : RecordResult;

    /// <summary>The request cannot be used, and nothing was recorded.</summary>
    public sealed record Refused(Faults Faults) : RecordResult;
}
