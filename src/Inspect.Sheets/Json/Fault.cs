namespace Inspect.Sheets.Json;

/// <summary>One thing wrong with a document: where, and one sentence that says what and what would be right.</summary>
/// <param name="Path">JSON path without a leading root sign, as in <c>holes[0].depth</c>; <c>$</c> for the document itself.</param>
/// <param name="Message">The sentence.</param>
public sealed record Fault(string Path, string Message);
