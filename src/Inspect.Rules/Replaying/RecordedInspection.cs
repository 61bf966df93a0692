using Inspect.Rules.Judging;
using Inspect.Sheets;

namespace Inspect.Rules.Replaying;

/// <summary>An inspection as it was recorded: its sheet and its verdict.</summary>
/// <param name="Number">What people call it, such as <c>LANTERN-0417</c>.</param>
/// <param name="Sheet">The sheet as recorded.</param>
/// <param name="Verdict">The verdict as recorded.</param>
/// <param name="Version">The version of the record, where the bytes of the verdict are to be compared too.</param>
public sealed record RecordedInspection(string Number, Sheet Sheet, Verdict Verdict, int? Version = null);
