using System.Globalization;
using System.Text.Json.Nodes;
using Inspect.Sheets.Readings;

namespace Inspect.Station.Measure;

/// <content>How a field becomes a member of the sheet: texts, answers, counts, and readings with their unit, their side and their second looks.</content>
public sealed partial class MeasureForm
{
    private void PutImbalance(string path, string positive, string negative)
    {
        var (first, turned, again) = (Imbalance(path), Imbalance($"{path}.turned"), Imbalance($"{path}.again"));
        if (Together(path, first, turned, again) is { } text)
        {
            Put(path, JsonValue.Create(text));
        }

        Reading? Imbalance(string name) => Signed(name, Quantity.Imbalance, Unit.Ounce, (positive, negative), $"Choose which side is heavier: {positive} or {negative}.");
    }

    /// <summary>A reading with the sign of its side, or null when nothing was typed or it was refused.</summary>
    private Reading? Signed(string name, Quantity quantity, Unit unit, (string Positive, string Negative) sides, string askWhich)
    {
        if (Read(name, quantity, unit) is not { } reading)
        {
            return null;
        }

        var side = Typed($"{name}.side");
        if (reading.Text.StartsWith('-') || reading.Text.StartsWith('\u2212'))
        {
            Faults.Add(name, $"\"{Typed(name)}\" has a minus sign; write the size and choose {sides.Positive} or {sides.Negative}.");
            return null;
        }

        if (side != sides.Positive && side != sides.Negative && reading.Value != 0)
        {
            Faults.Add(name, askWhich);
            return null;
        }

        return side == sides.Negative ? ReadingParser.Parse($"-{reading.Text}", quantity).Reading : reading;
    }

    /// <summary>The text of one reading, or of the value worked out of several.</summary>
    private string? Together(string field, Reading? first, Reading? turned, Reading? again)
    {
        var last = again is not null ? $"{field}.again" : $"{field}.turned";
        if (first is null || (turned is null && again is null))
        {
            if (first is null && (turned ?? again) is not null && Typed(field).Length == 0)
            {
                Faults.Add(last, $"\"{Typed(last)}\" is a second look, and the first is missing; type the first reading as well.");
            }

            return first?.Text;
        }

        var (worked, refusal) = SeveralReadings.Of(field, first, turned, again);
        if (worked is null)
        {
            Faults.Add(last, refusal!);
            return null;
        }

        _several.Add(worked);
        return worked.Value;
    }

    private void PutReadings(string path, int fields, Quantity quantity, Unit unit)
    {
        var texts = Enumerable.Range(0, fields)
            .Select(i => Measured(FormattableString.Invariant($"{path}[{i}]"), quantity, unit))
            .OfType<string>();
        PutList(path, texts);
    }

    private void PutReading(string path, Quantity quantity, Unit unit)
    {
        if (Measured(path, quantity, unit) is { } text)
        {
            Put(path, JsonValue.Create(text));
        }
    }

    /// <summary>The reading's text with its unit, or null when nothing was typed or it was refused.</summary>
    private string? Measured(string name, Quantity quantity, Unit unit) =>
        Together(name, Read(name, quantity, unit), null, FormFields.CanRepeat(name) ? Read($"{name}.again", quantity, unit) : null);

    private Reading? Read(string name, Quantity quantity, Unit unit)
    {
        if (Typed(name) is not { Length: > 0 } typed)
        {
            return null;
        }

        var result = ReadingParser.Parse(typed, quantity, unit);
        if (result.Refusal is { } refusal)
        {
            // An imbalance and a pitch have their side and no sign here, unlike in a sheet that a program sends.
            Faults.Add(name, refusal.Replace(", -0.5 oz or", " or", StringComparison.Ordinal).Replace(", -1/4 in or", " or", StringComparison.Ordinal));
        }

        return result.Reading;
    }

    private void PutText(string path)
    {
        if (Typed(path) is { Length: > 0 } text)
        {
            Put(path, JsonValue.Create(text));
        }
    }

    private void PutFlag(string path)
    {
        if (Typed(path) is "yes" or "no")
        {
            Put(path, JsonValue.Create(Typed(path) == "yes"));
        }
    }

    private void PutCount(string path)
    {
        if (Typed(path) is not { Length: > 0 } typed)
        {
            return;
        }

        if (int.TryParse(typed, NumberStyles.None, CultureInfo.InvariantCulture, out var count))
        {
            Put(path, JsonValue.Create(count));
        }
        else
        {
            Faults.Add(path, $"\"{typed}\" is not a whole number; write 0, 1 or 2.");
        }
    }

    private void PutList(string path, IEnumerable<string> texts)
    {
        var list = texts.ToList();
        if (list.Count > 0)
        {
            Put(path, new JsonArray([.. list.Select(text => JsonValue.Create(text))]));
        }
    }

    private static void Add(JsonObject hole, string name, string? text)
    {
        if (!string.IsNullOrEmpty(text))
        {
            hole[name] = text;
        }
    }

    private void Put(string path, JsonNode? value)
    {
        var steps = path.Split('.');
        var place = Sheet;
        foreach (var step in steps[..^1])
        {
            if (place[step] is not JsonObject inner)
            {
                place[step] = inner = [];
            }

            place = inner;
        }

        place[steps[^1]] = value;
    }
}
