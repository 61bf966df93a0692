using Inspect.Station.Access;
using Inspect.Station.Storage;

namespace Inspect.Station.Record;

/// <summary>What a step does when an inspection is recorded. It runs in the same write transaction, so either both are
/// saved or neither is.</summary>
/// <remarks>A step registers its own with its services. The recorder runs them in the order of registration.</remarks>
public sealed record AfterRecording(Action<WriteTransaction, RecordedJustNow> Do);

/// <summary>The inspection that was just recorded, in a write transaction that is still open.</summary>
/// <param name="Event">The event's short name.</param>
/// <param name="Entry">The bowler's number.</param>
/// <param name="By">Who recorded it.</param>
/// <param name="At">When.</param>
/// <param name="Form">The key of the measuring form; null when a program recorded it.</param>
/// <param name="Inspection">What was recorded.</param>
/// <param name="IsFrozen">Whether it was measured when the ball was not to be changed any more.</param>
public sealed record RecordedJustNow(
    string Event, string Entry, PersonId By, DateTimeOffset At, string? Form, Inspection Inspection, bool IsFrozen);
