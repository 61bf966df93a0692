using System.Data.Common;
using Inspect.Rules.Judging;
using Inspect.Rules.Rulesets;
using Inspect.Sheets;
using Inspect.Sheets.Json;
using Inspect.Station.Access;
using Inspect.Station.Instruments;
using Inspect.Station.ModelLists;
using Inspect.Station.Prepare;
using Inspect.Station.Storage;
using Inspect.Station.Web;

namespace Inspect.Station.Record;

/// <summary>Records inspections: judges them again from the readings, and appends them to the register.</summary>
public sealed class Inspections(
    Database database, WriteGate gate, EditionLibrary editions, TimeProvider time, IEnumerable<AfterRecording> after,
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
        RecordRequest? read;
        Prepared prepared;
        var changes = gate.Changes;
        using (var connection = database.OpenForReading())
        {
            if (Kept(connection, null, by, key, hash) is { } kept)
            {
                return kept;
            }

            var faults = new List<Fault>();
            read = RecordRequest.Read(request, connection, time, faults);
            if (read is null)
            {
                return new RecordResult.Refused(Faults.Of(faults));
            }

            prepared = Prepare(connection, null, by, read, changes);
        }

        var asked = new Asked(by, key, hash, read, isForm);
        var (recorded, other) = await gate.Run(
            write => (Kept(write.Connection, write.Transaction, by, key, hash) ?? (isForm ? RecordedForm(write, key) : null)) is { } kept
                ? (null, kept)
                : Append(write, asked, prepared),
            isRecording: true);
        return recorded is null ? other! : new RecordResult.Recorded(recorded.Number, Answer(recorded));
    }

    /// <summary>All that takes long is done before the turn at the gate, from what the store holds
    /// after <paramref name="changes"/>.</summary>
    private Prepared Prepare(DbConnection connection, DbTransaction? transaction, SignedIn by, RecordRequest request, long changes)
    {
        var faults = new List<Fault>();
        var ball = new PresentedBall(
            request.Event, request.Entry, request.Sheet, BallOf(connection, transaction, request, new Faults()), time.GetUtcNow());
        var (sheet, terms, verdict, lists) = SheetOfEvent.Judge(connection, transaction, editions, ball, faults);
        if (lists?.Approved is { } approved && lists.IsOtherwise(request.Sheet.Ball?.Listed) && request.ListedReason is null)
        {
            faults.Add(new Fault("ball.listed", $"{approved.Sentence} Give the reason for saying otherwise in listedReason."));
        }

        RuleErrorLog.Write(log, verdict?.RuleErrors ?? []);
        return new Prepared(
            changes, sheet, terms, verdict, verdict is null ? null : BodyParts.Of(sheet, verdict),
            Sealed(connection, transaction, request.Entry.Person),
            Sealed(connection, transaction, by.Person), lists, faults);
    }

    // What was read before this turn is used only if no other turn has changed any of it meanwhile; else the sheet is judged again, here.
    private Prepared AsOfNow(WriteTransaction write, Asked asked, Prepared prepared, PresentedBall ball) =>
        prepared.Changes == write.Changes && (prepared.Sheet.Circumstances is not { } known
            || known == SheetOfEvent.CircumstancesOf(write.Connection, write.Transaction, ball, prepared.Terms.FreezeMinutes))
        ? prepared
        : Prepare(write.Connection, write.Transaction, asked.By, asked.Request, write.Changes);

    // Several people may have one form open: the first to send it records it for all.
    private static RecordResult.RecordedBefore? RecordedForm(WriteTransaction write, string key) =>
        Idempotency.FindOfAnyone(write.Connection, write.Transaction, key) is { } kept
            ? new RecordResult.RecordedBefore(AnswerOf(write.Connection, write.Transaction, kept))
            : null;

    private (Inspection? Recorded, RecordResult? Other) Append(WriteTransaction write, Asked asked, Prepared before)
    {
        var (by, request) = (asked.By, asked.Request);
        var faults = new Faults();
        var ball = BallOf(write.Connection, write.Transaction, request, faults);
        if (request.Tag is { } tag && Tags.Taken(write.Connection, write.Transaction, request.Event.Id, tag, ball) is { } taken)
        {
            faults.Add("tag", taken);
        }

        if (before.Changes != write.Changes
            && Events.FindEntry(write.Connection, request.Event.Id, request.Entry.Number, write.Transaction) is var now
            && now is not { IsWithdrawn: false })
        {
            faults.Add("entry", now?.Refusal ?? $"There is no entry \"{request.Entry.Number}\" in {request.Event.Id} any more.");
        }

        var at = time.GetUtcNow();
        NamedInstruments.Check(write, request.Event, request.Observations, (request.MeasuredAt ?? at, at), faults);
        var judged = AsOfNow(write, asked, before, new PresentedBall(request.Event, request.Entry, request.Sheet, ball, at));
        judged.Faults.ForEach(fault => faults.Add($"sheet.{fault.Path}", fault.Message));
        if (!faults.AreNone || judged.Parts is not { } parts)
        {
            return (null, new RecordResult.Refused(faults));
        }

        var inspection = new Inspection
        {
            Number = new InspectionNumber(request.Event.Id, InspectionIndex.NextRunning(write, request.Event.Id)),
            Code = SlipCode.Draw(),
            At = at,
            Event = request.Event.Id,
            Entry = request.Entry.Number,
            Bowler = judged.Bowler,
            Ball = ball ?? BallId.New(),
            Supersedes = request.Supersedes,
            By = judged.By,
            MeasuredAt = request.MeasuredAt,
            Sheet = judged.Sheet,
            Terms = judged.Terms.Judging,
            Observations = request.Observations,
            Confirmed = request.Confirmed,
            NotMeasured = [.. request.NotMeasured.Select(
                left => new LeftUnmeasured(left.Path, Remarks.Seal(write, by.Person, left.Reason)))],
            Tag = request.Tag,
            List = ListOf(write, by.Person, request, judged.Lists),
            WorkDoneHash = request.WorkDone is { } work ? Remarks.Seal(write, by.Person, work) : null,
            Engine = Engine,
            Verdict = judged.Verdict!,
        };
        var offset = TimeZoneInfo.FindSystemTimeZoneById(request.Event.TimeZone).GetUtcOffset(at);
        var entry = Register.Append(
            write, InspectionBody.Kind, InspectionBody.Version, place => InspectionBody.Write(inspection, parts, offset, place),
            IndexedInspection.Of(inspection));
        var justNow = new RecordedJustNow(
            request.Event.Id, request.Entry.Number, by.Person, at, asked.IsForm ? asked.Key : null, inspection,
            SheetOfEvent.IsFrozen(request.Event, request.Entry, request.MeasuredAt ?? at, judged.Terms.FreezeMinutes) == true);
        foreach (var step in after)
        {
            step.Do(write, justNow);
        }

        var kept = new KeptAnswer(StatusCodes.Status201Created, null, entry.Seq);
        Idempotency.Keep(write, by.Person.ToString(), asked.Key, asked.Hash, kept, at);
        return (inspection, null);
    }

    private static ListRead? ListOf(WriteTransaction write, PersonId by, RecordRequest request, ListAnswers? lists) =>
        lists?.Approved is not { } list ? null : new ListRead(
            list.Read.List.Name, list.Version.Sha256, list.Says,
            lists.IsOtherwise(request.Sheet.Ball?.Listed) ? Remarks.Seal(write, by, request.ListedReason!) : null);

    /// <summary>The ball's id: that of the inspection superseded, or the one given; null for a ball not seen yet.</summary>
    private static string? BallOf(DbConnection connection, DbTransaction? transaction, RecordRequest request, Faults faults)
    {
        if (request.Supersedes is { } number)
        {
            var earlier = InspectionLookup.Row(connection, number, transaction);
            if (earlier is null || earlier.Event != request.Event.Id || (earlier.Entry != request.Entry.Number && earlier.Stands
                && !InspectionLookup.IsMerged(connection, transaction, earlier, request.Entry.Number)))
            {
                // A record that was withdrawn may have been made for the wrong bowler.
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
                RefuseSameInstrument(connection, transaction, request, number, faults);
            }

            return earlier?.Ball ?? "";
        }

        if (request.Ball is not { } ball)
        {
            return null;
        }

        if (InspectionLookup.LatestNumberOf(connection, ball, request.Entry.Person, transaction) is null)
        {
            faults.Add("ball", $"The bowler of entry {request.Entry.Number} has no ball \"{ball}\" here; "
                + "leave it out for a ball not seen yet.");
        }

        return ball;
    }

    /// <summary>A second measurement that a director ordered is made on other instruments than the first.</summary>
    private static void RefuseSameInstrument(
        DbConnection connection, DbTransaction? transaction, RecordRequest request, InspectionNumber number, Faults faults)
    {
        if (InspectionLookup.Find(connection, number, transaction) is not { Ruling.Decision: Decision.Remeasure } ordered)
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

    private static SealedName Sealed(DbConnection connection, DbTransaction? transaction, PersonId person) =>
        new(person, People.PseudonymOfName(connection, transaction, person));

    /// <summary>Where a recorded inspection is found.</summary>
    internal static InspectionLinks Links(Inspection inspection) => new(
        $"/api/inspections/{inspection.Number}", $"/api/inspections/{inspection.Number}/slip.pdf", $"/s/{inspection.Code}");

    /// <summary>The answer to a recorded inspection, made of its record.</summary>
    internal static byte[] Answer(Inspection inspection) => JsonAnswer.Bytes(
        new InspectionRecorded(inspection.Number.ToString(), inspection.Code.ToString(), inspection.Verdict, Links(inspection)));

    // Records keep their words, so the answer made again is the one that was sent.
    private static byte[] AnswerOf(DbConnection connection, DbTransaction? transaction, KeptAnswer kept) =>
        kept.Body ?? Answer(InspectionBody.Read(Register.BodyOf(connection, kept.Entry!.Value, transaction)!));

    private RecordResult? Kept(DbConnection connection, DbTransaction? transaction, SignedIn by, string key, byte[] hash)
    {
        switch (Idempotency.Find(connection, transaction, by.Person.ToString(), key, hash))
        {
            case (SeenBefore.SameRequest, { } kept):
                return new RecordResult.RecordedBefore(AnswerOf(connection, transaction, kept));
            case (SeenBefore.AnotherRequest, _):
                Idempotency.LogConflict(log, "inspection");
                return new RecordResult.KeyUsedOtherwise();
            default:
                return null;
        }
    }

    /// <summary>Who asked for what, under which key.</summary>
    private sealed record Asked(SignedIn By, string Key, byte[] Hash, RecordRequest Request, bool IsForm);

    /// <summary>What was judged and written before the turn at the gate.</summary>
    /// <param name="Changes">The gate's count before anything of it was read.</param>
    /// <param name="Sheet">The sheet, completed by the event and the station.</param>
    /// <param name="Terms">The event's terms.</param>
    /// <param name="Verdict">The verdict; null when there is a fault.</param>
    /// <param name="Parts">Both as bytes.</param>
    /// <param name="Bowler">The bowler.</param>
    /// <param name="By">Who records.</param>
    /// <param name="Lists">What the event's lists of models say.</param>
    /// <param name="Faults">The faults of the sheet.</param>
    private sealed record Prepared(
        long Changes, Sheet Sheet, TermsOfEvent Terms, Verdict? Verdict, BodyParts? Parts, SealedName Bowler, SealedName By,
        ListAnswers? Lists, List<Fault> Faults);
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
