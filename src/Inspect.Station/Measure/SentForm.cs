using System.Security.Cryptography;
using System.Text;
using Inspect.Advice;
using Inspect.Rules.Judging;
using Inspect.Rules.Rulesets;
using Inspect.Sheets;
using Inspect.Sheets.Form;
using Inspect.Sheets.Json;
using Inspect.Station.Instruments;
using Inspect.Station.Prepare;
using Inspect.Station.Record;
using Inspect.Station.Web;

namespace Inspect.Station.Measure;

/// <summary>A measuring form as a browser sent it, with the request that would be recorded and the verdict it would get now.</summary>
/// <param name="Held">The event.</param>
/// <param name="Entry">The bowler's entry.</param>
/// <param name="Typed">What was typed, and what is wrong with it.</param>
/// <param name="Key">Identifies the form: sent twice with the same key, it is recorded once.</param>
/// <param name="Supersedes">The inspection it replaces.</param>
/// <param name="Ball">A ball that was judged earlier with another grip.</param>
/// <param name="Request">What would be recorded.</param>
/// <param name="Preview">The verdict on all that could be read; null when no verdict can be reached on it.</param>
public sealed record SentForm(
    Event Held, Entry Entry, MeasureForm Typed, string Key, string? Supersedes, string? Ball, byte[] Request, PreviewedInspection? Preview)
{
    /// <summary>The readings of the same ball's inspection before this one.</summary>
    public EarlierInspection? Earlier { get; private init; }

    /// <summary>The ball's latest inspection, where that was under another entry of the bowler.</summary>
    public InspectionNumber? SeenElsewhere { get; private init; }

    /// <summary>A hash of exactly these readings. Recording needs the hash that came with the verdict shown, so that no other
    /// readings are recorded.</summary>
    public string Seen => Convert.ToHexStringLower(SHA256.HashData(Request));

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

    /// <summary>Whether nothing was typed except the day.</summary>
    public bool IsBlank =>
        IsUnmeasured && Typed.Fields.All.All(typed => typed.Key == "play" || typed.Key.StartsWith("use.", StringComparison.Ordinal));

    /// <summary>Reads a form and judges it.</summary>
    public static SentForm Read(
        Event held, Entry entry, IFormCollection form, EditionLibrary editions, InspectionLookup lookup, UnfinishedSheets sheets,
        DateTimeOffset now)
    {
        var key = KeyOf(form);
        var fields = TypedFields.Sent(form.Select(field => KeyValuePair.Create(field.Key, field.Value.OfType<string>().ToArray())));
        return Read(
            held, entry, fields, key, Given(form, "supersedes"), Given(form, "ball"), editions, lookup, sheets.Find(key), now);
    }

    /// <summary>Judges the fields of a form.</summary>
    public static SentForm Read(
        Event held, Entry entry, TypedFields fields, string key, string? supersedes, string? ball, EditionLibrary editions,
        InspectionLookup lookup,
        UnfinishedSheet? kept, DateTimeOffset now)
    {
        var typed = MeasureForm.From(fields);
        if (Catalogue.Imbalances.Select(imbalance => imbalance.Path).FirstOrDefault(path => fields.One(path).Length > 0) is { } weighed)
        {
            // The constant of the scale that the ball was weighed on, which may be at another table.
            typed.PutScaleConstant(
                kept?.UseOf(weighed, fields.Several(weighed), InUse.ScaleConstantField) ?? fields.One(InUse.ScaleConstantField));
        }

        var request = FormRequest.Of(held, entry, typed, supersedes, ball, kept);
        var before = (supersedes ?? (ball is not null && lookup.OfBall(ball) is [.., var last] ? last.Number : null)) is { } number
            && InspectionNumber.TryParse(number, out var earlier) ? lookup.ByNumber(earlier)?.Inspection : null;
        var sameBall = supersedes is null ? ball : before?.Ball;
        var preview = Judged(held, entry, sameBall, typed, editions, lookup, now);
        if (fields.One("tag") is { Length: > 0 } tag && lookup.TagFault(held.Id, tag, sameBall) is { } refusal)
        {
            typed.Refuse("tag", refusal);
        }

        return new SentForm(held, entry, typed, key, supersedes, ball, request, preview)
        {
            Earlier = before is null || preview is null ? null : EarlierInspection.Before(before.Sheet, preview.Sheet),
            SeenElsewhere = before is not null && (before.Event != held.Id || before.Entry != entry.Number) ? before.Number : null,
        };
    }

    /// <summary>A new form's key.</summary>
    public static string FreshKey() => RandomNumberGenerator.GetHexString(32, lowercase: true);

    /// <summary>Whether a text can be the key of a form.</summary>
    public static bool IsKey(string? text) => text is { Length: 32 } && text.All(char.IsAsciiHexDigitLower);

    private static string KeyOf(IFormCollection form) => form["key"].ToString() is var key && IsKey(key) ? key : FreshKey();

    private static string? Given(IFormCollection form, string name) => form[name].ToString() is { Length: > 0 } text ? text : null;

    private static PreviewedInspection? Judged(
        Event held, Entry entry, string? ball, MeasureForm typed, EditionLibrary editions, InspectionLookup lookup, DateTimeOffset now)
    {
        var faults = new List<Fault>();
        var sheet = SheetReader.Read(
            Encoding.UTF8.GetBytes(typed.Sheet.ToJsonString()), faults, new SheetDefaults(held.Authority, held.Edition, held.Plan));
        if (sheet is not null && held.RefusalOf(sheet.Play) is { } refusal)
        {
            faults.Add(new Fault("play", refusal));
        }

        var preview = sheet is null ? null : lookup.Preview(editions, held, entry, sheet, ball, now, faults);
        faults.ForEach(typed.Refuse);
        return faults.Count == 0 ? preview : null;
    }
}
