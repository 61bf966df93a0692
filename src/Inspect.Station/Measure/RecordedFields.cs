using System.Text;
using System.Text.Json.Nodes;
using Inspect.Ledger;
using Inspect.Sheets;
using Inspect.Sheets.Form;
using Inspect.Station.Record;

namespace Inspect.Station.Measure;

/// <summary>A recorded sheet turned back into what would be typed to make it, for an inspector who took a record back to put one thing right.</summary>
/// <remarks>Nothing that is measured is ever filled in beforehand but here, and only for who typed it a minute ago.</remarks>
internal static class RecordedFields
{
    /// <summary>The fields, or null where they would not make this very sheet again: a program sent what the form has no field for.</summary>
    /// <param name="inspection">What was recorded.</param>
    /// <param name="reasonOf">Why a reading was left out, behind the hash of its reason; null once struck.</param>
    public static TypedFields? Of(Inspection inspection, Func<string, string?> reasonOf)
    {
        var sheet = inspection.Sheet;
        var fields = SheetFields.Of(sheet, inspection.ReadTwice);
        PutLeftOut(fields, inspection, reasonOf);
        var typed = TypedFields.Of(fields.AsEnumerable());
        var form = MeasureForm.From(typed);
        var recorded = SheetJson.Write(sheet with { Authority = null, Edition = null, Plan = null, Circumstances = null });
        return form.Faults.Count == 0 && Plain(form.Sheet) == Plain(recorded) ? typed : null;
    }

    /// <summary>A sheet as text that is the same for the same sheet: its holes in any order, its signs written in any way.</summary>
    private static string Plain(JsonObject sheet)
    {
        var copy = sheet.DeepClone().AsObject();
        if (copy["holes"] is JsonArray holes)
        {
            copy["holes"] = new JsonArray([.. holes.Select(hole => Text(hole!)).Order(StringComparer.Ordinal).Select(text => (JsonNode)text)]);
        }

        return Text(copy).Replace('\u2212', '-').Replace("\"+", "\"", StringComparison.Ordinal);

        static string Text(JsonNode node) => Encoding.UTF8.GetString(CanonicalJson.Write(node));
    }

    private static void PutLeftOut(Dictionary<string, string[]> fields, Inspection inspection, Func<string, string?> reasonOf)
    {
        var known = inspection.NotMeasured.Select(left => (Field: FormFields.FieldOf(left.Path, inspection.Sheet), Reason: reasonOf(left.ReasonHash)))
            .Where(left => left.Reason is not null && FormFields.Readings.Any(reading => reading.Path == left.Field));
        foreach (var (row, left) in known.Index())
        {
            fields[FormFields.Left(row, "path")] = [left.Field];
            fields[FormFields.Left(row, "reason")] = [left.Reason!];
        }
    }
}
