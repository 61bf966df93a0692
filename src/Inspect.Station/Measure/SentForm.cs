using System.Security.Cryptography;
using Inspect.Advice;
using Inspect.Rules.Judging;
using Inspect.Sheets.Form;
using Inspect.Station.Prepare;
using Inspect.Station.Record;
using Inspect.Station.Web;

namespace Inspect.Station.Measure;

/// <summary>A measuring form as a browser sent it, with the request it would record and the verdict
/// that recording would reach now.</summary>
/// <param name="Form">The form as it stands.</param>
/// <param name="Typed">What was typed, and what is wrong with it.</param>
/// <param name="Request">What would be recorded.</param>
/// <param name="Preview">The verdict on all that could be read; null when no verdict can be reached on it.</param>
public sealed record SentForm(OpenForm Form, MeasureForm Typed, byte[] Request, PreviewedInspection? Preview)
{
    public Event Held => Form.Held;

    public Entry Entry => Form.Entry;

    public string Key => Form.Key;

    public string? Supersedes => Form.Supersedes;

    public string? Ball => Form.Ball;

    /// <summary>What the same ball's inspection before this one read.</summary>
    public EarlierInspection? Earlier { get; init; }

    /// <summary>The ball's latest inspection, where that was under another entry of the bowler.</summary>
    public InspectionNumber? SeenElsewhere { get; init; }

    /// <summary>The sizes of the holes, by field, when this ball was inspected under another entry: where the gauge shows the same again,
    /// one key says so. Empty for a ball that is measured again because something was wrong.</summary>
    public IReadOnlyDictionary<string, string> LastTime => field ??=
        SeenElsewhere is null || Supersedes is not null || Earlier is not { Sheet: var then }
        ? Nothing
        : SheetFields.Of(then with { Holes = then.Holes?.Where(hole => hole.DepthTo is null).ToList() }, [])
            .Where(each => each.Key.Split('.')[^1] is "diameter" or "depth")
            .ToDictionary(each => each.Key, each => each.Value[0].Replace(" in", "", StringComparison.Ordinal));

    private static readonly Dictionary<string, string> Nothing = [];

    /// <summary>A hash of exactly these readings. Recording needs the hash that came with the verdict shown, so that no other
    /// readings are recorded.</summary>
    public string Seen => field ??= Convert.ToHexStringLower(SHA256.HashData(Request));

    /// <summary>What should be looked at again.</summary>
    public IReadOnlyList<Hint> Hints => field ??= Preview is null ? [] : Plausibility.Hints(Preview.Sheet, Earlier);

    /// <summary>What is wrong with what was typed, by field.</summary>
    public Faults Faults => Faults.Of(Typed.Faults);

    /// <summary>Whether nothing is wrong with any field.</summary>
    public bool IsWhole => Typed.Faults.Count == 0 && Preview is not null;

    /// <summary>The readings that the rules ask for and that are still missing: each with its path in the sheet and its field.</summary>
    public IEnumerable<(string Path, string Field)> Asked =>
        (Preview?.Verdict.Findings ?? []).Where(finding => finding.Cause == HoldCause.NotMeasured)
        .Select(finding => (finding.Path ?? "", finding.Path is { } path ? Typed.FieldOf(path) : ""));

    /// <summary>Whether a field, or one below it, must be shown: it has a value or a fault, or the rules ask for it.</summary>
    public bool Needs(string field) => Typed.Fields.AnyIn(field) || Typed.Faults.Any(fault => TypedFields.IsIn(field, fault.Path))
        || Asked.Any(asked => TypedFields.IsIn(field, asked.Field));

    /// <summary>Whether nothing was measured, answered or left out on purpose, and nothing else decides: then there is no
    /// verdict to show yet.</summary>
    public bool IsUnmeasured => IsWhole && Preview!.Verdict is { Outcome: Outcome.Hold, Findings.Count: > 0 } verdict
        && verdict.Findings.All(finding => finding.Outcome != Outcome.Hold || finding.Cause == HoldCause.NotMeasured)
        && !Typed.Fields.All.Any(typed => FormFields.IsSeenAtTheTable(typed.Key)) && Typed.LeftOut.Count == 0;

    /// <summary>Whether nothing at all was typed but the day, and the grip that the bowler's last ball had.</summary>
    public bool IsBlank =>
        IsUnmeasured && Typed.Fields.All.All(typed => typed.Key == "play"
            || new[] { "use.", "grip." }.Any(known => typed.Key.StartsWith(known, StringComparison.Ordinal)));
}
