namespace Inspect.Station.Storage;

/// <summary>The station must not start on this machine or with this data folder. The message says why and what to do, in
/// one sentence for people.</summary>
public sealed class CannotStartException(string message) : Exception(message);
