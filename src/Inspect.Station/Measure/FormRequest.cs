using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using Inspect.Sheets.Form;
using Inspect.Station.Instruments;

namespace Inspect.Station.Measure;

/// <summary>Turns a measuring form into the request that a program would send to record the same.</summary>
internal static class FormRequest
{
    /// <summary>The field of the reason for saying otherwise than the list of approved balls.</summary>
    public const string ListedReason = "ball.listed.reason";

    /// <summary>The request as the bytes of its JSON.</summary>
    /// <param name="form">The form.</param>
    /// <param name="typed">What was typed; a time on paper that cannot be is added to its faults.</param>
    /// <param name="kept">The unfinished sheet of the form, or null.</param>
    /// <param name="now">The present instant.</param>
    public static byte[] Of(OpenForm form, MeasureForm typed, UnfinishedSheet? kept, DateTimeOffset now)
    {
        var request = new JsonObject { ["event"] = form.Held.Id, ["entry"] = form.Entry.Number, ["sheet"] = typed.Sheet.DeepClone() };
        if (form.Supersedes is { } supersedes)
        {
            request["supersedes"] = supersedes;
        }

        if (form.Ball is { } ball)
        {
            request["ball"] = ball;
        }

        if (typed.LeftOut.Count > 0)
        {
            request["notMeasured"] = new JsonArray(
                [.. typed.LeftOut.Select(left => new JsonObject { ["path"] = typed.PathOf(left.Field), ["reason"] = left.Reason })]);
        }

        if (typed.Several.Count > 0)
        {
            request["observations"] = new JsonArray([.. typed.Several.SelectMany(
                several => several.Readings.Select(reading => Observation(typed.PathOf(several.Field), reading)))]);
        }

        if (typed.Confirmed.Count > 0)
        {
            var paths = typed.Confirmed.Select(reading => typed.PathOf(FormFields.FirstOf(reading.Field))).Distinct();
            request["confirmed"] = new JsonArray([.. paths.Select(path => (JsonNode)path)]);
        }

        InUse.Name(request, (path, kind) =>
        {
            var (field, use) = (typed.FieldOf(path), InUse.Field(kind));
            return kept?.UseOf(field, typed.Fields.Several(field), use) ?? typed.Typed(use);
        });
        foreach (var member in new[] { "tag", "workDone" }.Where(name => typed.Typed(name).Length > 0))
        {
            request[member] = typed.Typed(member);
        }

        if (typed.Typed(ListedReason) is { Length: > 0 } reason)
        {
            request["listedReason"] = reason;
        }

        if (PaperTime.Read(form.Held, typed, now) is { } measured)
        {
            request["measuredAt"] = measured.ToString("yyyy-MM-dd'T'HH:mm:sszzz", CultureInfo.InvariantCulture);
        }

        return Encoding.UTF8.GetBytes(request.ToJsonString());
    }

    private static JsonObject Observation(string path, SingleReading reading)
    {
        var observation = new JsonObject { ["path"] = path, ["text"] = reading.Text, ["trial"] = reading.Trial };
        if (reading.Turned is { } turned)
        {
            observation["turned"] = turned;
        }

        return observation;
    }
}
