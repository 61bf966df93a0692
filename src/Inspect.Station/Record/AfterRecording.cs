using Inspect.Station.Access;
using Inspect.Station.Storage;

namespace Inspect.Station.Record;

/// <summary>What a step does once an inspection is recorded, in the same turn at the gate: either both happen or neither.</summary>
/// <remarks>A step that wants to know registers one with its services; the recorder runs them in that order and knows none of them.</remarks>
public sealed record AfterRecording(Action<WriteTransaction, RecordedJustNow> Do);

/// <summary>An inspection that was recorded a moment ago, in the turn at the gate that is still open.</summary>
/// <param name="Event">The event's short name.</param>
/// <param name="Entry">The bowler's number.</param>
/// <param name="By">Who recorded it.</param>
/// <param name="At">When.</param>
/// <param name="Form">The key of the measuring form that it was typed into; null where a program recorded it.</param>
public sealed record RecordedJustNow(string Event, string Entry, PersonId By, DateTimeOffset At, string? Form);
