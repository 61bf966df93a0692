using System.Text;
using Inspect.Advice;
using Inspect.Rules.Rulesets;
using Inspect.Sheets;
using Inspect.Sheets.Form;
using Inspect.Sheets.Json;
using Inspect.Station.Instruments;
using Inspect.Station.Prepare;
using Inspect.Station.Record;

namespace Inspect.Station.Measure;

/// <summary>Judges what stands in a measuring form as recording it now would; nothing is kept.</summary>
public sealed class FormJudge(EditionLibrary editions, InspectionLookup lookup, UnfinishedSheets sheets, TimeProvider time)
{
    /// <summary>The form with the request it would record and the verdict on it.</summary>
    public SentForm Judge(OpenForm form) => Judge(form, sheets.Find(form.Key));

    /// <summary>The same, where the unfinished sheet of the form's key is known already.</summary>
    public SentForm Judge(OpenForm form, UnfinishedSheet? kept)
    {
        var (held, entry, fields) = (form.Held, form.Entry, form.Fields);
        var typed = MeasureForm.From(fields);
        if (Catalogue.Imbalances.Select(imbalance => imbalance.Path).FirstOrDefault(path => fields.One(path).Length > 0) is { } weighed)
        {
            // The constant of the scale it was weighed on, which may stand at another table.
            typed.PutScaleConstant(
                kept?.UseOf(weighed, fields.Several(weighed), InUse.ScaleConstantField) ?? fields.One(InUse.ScaleConstantField));
        }

        var request = FormRequest.Of(form, typed, kept, time.GetUtcNow());
        var before =
            (form.Supersedes ?? (form.Ball is not null && lookup.OfBall(form.Ball) is [.., var last] ? last.Number : null)) is { } number
            && InspectionNumber.TryParse(number, out var earlier) ? lookup.ByNumber(earlier)?.Inspection : null;
        var sameBall = form.Supersedes is null ? form.Ball : before?.Ball;
        var preview = Preview(held, entry, sameBall, typed);
        if (fields.One("tag") is { Length: > 0 } tag && lookup.TagFault(held.Id, tag, sameBall) is { } refusal)
        {
            typed.Refuse("tag", refusal);
        }

        if (preview is { IsOtherwise: true } && typed.Typed(FormRequest.ListedReason).Length == 0)
        {
            typed.Refuse(
                FormRequest.ListedReason,
                $"{preview.Lists!.Approved!.Sentence} Write why this ball is otherwise, or leave the answer to the list.");
        }

        return new SentForm(form, typed, request, preview)
        {
            Earlier = before is null || preview is null ? null : EarlierInspection.Before(before.Sheet, preview.Sheet),
            SeenElsewhere = before is not null && (before.Event != held.Id || before.Entry != entry.Number) ? before.Number : null,
        };
    }

    private PreviewedInspection? Preview(Event held, Entry entry, string? ball, MeasureForm typed)
    {
        var faults = new List<Fault>();
        var sheet = SheetReader.Read(
            Encoding.UTF8.GetBytes(typed.Sheet.ToJsonString()), faults, new SheetDefaults(held.Authority, held.Edition, held.Plan));
        if (sheet is not null && held.RefusalOf(sheet.Play) is { } refusal)
        {
            faults.Add(new Fault("play", refusal));
        }

        var preview =
            sheet is null ? null : lookup.Preview(editions, new PresentedBall(held, entry, sheet, ball, time.GetUtcNow()), faults);
        faults.ForEach(typed.Refuse);
        return faults.Count == 0 ? preview : null;
    }
}
