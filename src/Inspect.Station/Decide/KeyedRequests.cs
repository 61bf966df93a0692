using System.Text;
using Inspect.Sheets.Json;
using Inspect.Station.Access;
using Inspect.Station.Record;
using Inspect.Station.Storage;
using Inspect.Station.Web;

namespace Inspect.Station.Decide;

/// <summary>A request about a recorded inspection.</summary>
/// <param name="What">What each key is for, such as <c>ruling</c>.</param>
/// <param name="By">Who asks.</param>
/// <param name="Number">The inspection.</param>
/// <param name="Key">The request's Idempotency-Key.</param>
/// <param name="Body">The request's bytes.</param>
public sealed record KeyedRequest(string What, SignedIn By, InspectionNumber Number, string Key, byte[] Body);

/// <summary>The turn in which such a request is carried out.</summary>
/// <param name="Write">The turn at the write gate.</param>
/// <param name="Found">The inspection as it stands.</param>
/// <param name="At">The time.</param>
public sealed record DecideTurn(WriteTransaction Write, FoundInspection Found, DateTimeOffset At);

/// <summary>Carries out requests about recorded inspections, each once for its key.</summary>
public sealed class KeyedRequests(WriteGate gate, TimeProvider time, ILogger<KeyedRequests> log)
{
    /// <summary>Carries a request out, or answers as before where the key was used for the same one.</summary>
    /// <param name="asked">The request.</param>
    /// <param name="faults">What is wrong with its bytes.</param>
    /// <param name="carryOut">Appends the entry and returns the answer; null where it added to the faults.</param>
    public Task<DecideResult> Once(KeyedRequest asked, IReadOnlyList<Fault> faults, Func<DecideTurn, Faults, byte[]?> carryOut)
    {
        var (person, hash) = (
            asked.By.Person.ToString(), Idempotency.HashOf([.. Encoding.UTF8.GetBytes($"{asked.Number}\n"), .. asked.Body]));
        return gate.Run<DecideResult>(write =>
        {
            switch (Idempotency.Find(write.Connection, write.Transaction, person, asked.Key, hash))
            {
                case (SeenBefore.SameRequest, { } kept):
                    return new DecideResult.Recorded(kept.Body!, IsNew: false);
                case (SeenBefore.AnotherRequest, _):
                    Idempotency.LogConflict(log, asked.What);
                    return new DecideResult.KeyUsedOtherwise();
                default:
                    break;
            }

            if (InspectionLookup.Find(write.Connection, asked.Number, write.Transaction) is not { } found)
            {
                return new DecideResult.NoSuchInspection();
            }

            var (refusals, at) = (Faults.Of(faults), time.GetUtcNow());
            if (carryOut(new DecideTurn(write, found, at), refusals) is not { } answer)
            {
                return new DecideResult.Refused(refusals);
            }

            Idempotency.Keep(write, person, asked.Key, hash, new KeptAnswer(StatusCodes.Status201Created, answer), at);
            return new DecideResult.Recorded(answer, IsNew: true);
        });
    }
}

/// <summary>The result of a request about a recorded inspection.</summary>
public abstract record DecideResult
{
    private DecideResult()
    {
    }

    /// <summary>It is recorded, now or before under the same key.</summary>
    public sealed record Recorded(byte[] Answer, bool IsNew) : DecideResult;

    /// <summary>The key was used for another request.</summary>
    public sealed record KeyUsedOtherwise : DecideResult;

    /// <summary>There is no such inspection here.</summary>
    public sealed record NoSuchInspection : DecideResult;

    /// <summary>It cannot be used, and nothing was recorded.</summary>
    public sealed record Refused(Faults Faults) : DecideResult;
}
