namespace Inspect.Sheets;

/// <summary>One reading as the instrument showed it.</summary>
/// <param name="Path">The member of the sheet it belongs to.</param>
/// <param name="Text">As typed.</param>
/// <param name="Instrument">The instrument's name at this station.</param>
/// <param name="Turned">Whether the ball was turned by half a turn.</param>
/// <param name="Trial">The number of the trial, from 1.</param>
public sealed record Observation(string Path, string Text, string? Instrument, bool? Turned, int? Trial);
