using System.Text;
using System.Text.Json.Nodes;
using Inspect.Ledger;
using Inspect.Sheets;
using Inspect.Sheets.Form;
using Inspect.Station.Record;

namespace Inspect.Station.Measure;

/// <summary>Turns a recorded sheet back into form fields, for an inspector who took a record back to correct it.</summary>
/// <remarks>This is the only place where measured values are filled in, and only for the inspector who typed them a minute ago.</remarks>
internal static class RecordedFields
{
    /// <summary>The fields, or null where they would not give the same sheet again: a program sent something that the
    /// form has no field for.</summary>
    /// <param name="inspection">What was recorded.</param>
    /// <param name="reasonOf">Finds the reason for leaving out a reading by the reason's hash; null once struck.</param>
    public static TypedFields? Of(Inspection inspection, Func<string, string?> reasonOf)
    {
        var sheet = inspection.Sheet;
        var fields = SheetFields.Of(sheet, inspection.ReadTwice);
        PutLeftOut(fields, inspection, reasonOf);
        foreach (var field in inspection.Confirmed.Select(path => FormFields.FieldOf(path, sheet))
            .SelectMany(field => new[] { field, $"{field}.turned", $"{field}.again" }).Where(fields.ContainsKey))
        {
            fields[MeasureForm.ConfirmedBy(field)] = [TypedFields.Of(fields.AsEnumerable()).One(field)];
        }

        var typed = TypedFields.Of(fields.AsEnumerable());
        var form = MeasureForm.From(typed);
        var recorded = SheetJson.Write(sheet with { Authority = null, Edition = null, Plan = null, Circumstances = null });
        return form.Faults.Count == 0 && Plain(form.Sheet) == Plain(recorded) ? typed : null;
    }

    /// <summary>A sheet as text for comparison: the order of holes and digits and the way signs are written make no difference.</summary>
    private static string Plain(JsonObject sheet)
    {
        var copy = sheet.DeepClone().AsObject();
        Order(copy, "holes");
        Order(copy["grip"] as JsonObject, "digits");
        return Text(copy).Replace('\u2212', '-').Replace("\"+", "\"", StringComparison.Ordinal);

        static void Order(JsonObject? place, string name)
        {
            if (place?[name] is JsonArray list)
            {
                var texts = list.Select(each => Text(each!)).Order(StringComparer.Ordinal);
                place[name] = new JsonArray([.. texts.Select(text => (JsonNode)text)]);
            }
        }

        static string Text(JsonNode node) => Encoding.UTF8.GetString(CanonicalJson.Write(node));
    }

    private static void PutLeftOut(Dictionary<string, string[]> fields, Inspection inspection, Func<string, string?> reasonOf)
    {
        var known = inspection.NotMeasured.Select(
            left => (Field: FormFields.FieldOf(left.Path, inspection.Sheet), Reason: reasonOf(left.ReasonHash)))
            .Where(left => left.Reason is not null && FormFields.Readings.Any(reading => reading.Path == left.Field));
        foreach (var (row, left) in known.Index())
        {
            fields[FormFields.Left(row, "path")] = [left.Field];
            fields[FormFields.Left(row, "reason")] = [left.Reason!];
        }
    }
}
