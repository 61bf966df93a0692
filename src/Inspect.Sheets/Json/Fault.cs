namespace Inspect.Sheets.Json;

/// <summary>One fault in a document: where it is, and one sentence that says what is wrong and what would be right.</summary>
/// <param name="Path">JSON path without a leading root sign, as in <c>holes[0].depth</c>; <c>$</c> is the document itself.</param>
/// <param name="Message">The sentence.</param>
public sealed record Fault(string Path, string Message);
