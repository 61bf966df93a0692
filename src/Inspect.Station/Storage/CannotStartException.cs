namespace Inspect.Station.Storage;

/// <summary>The station must not start on this machine or this data folder; the message says why, and what to do, in a sentence for
/// people.</summary>
public sealed class CannotStartException(string message) : Exception(message);
