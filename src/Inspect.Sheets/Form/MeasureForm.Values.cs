using System.Globalization;
using System.Text.Json.Nodes;
using Inspect.Sheets.Readings;

namespace Inspect.Sheets.Form;

/// <content>How a field becomes a member of the sheet: texts, answers, counts, and readings with unit, side and second reading.</content>
public sealed partial class MeasureForm
{
    private void Put(SheetMember member)
    {
        switch (member.Kind)
        {
            case MemberKind.Reading when member.IsList:
                PutList(member.Path, member.FieldNames.Select(field => Measured(field, member)).OfType<string>());
                break;
            case MemberKind.Reading:
                Put(member.Path, member.Sides is null ? Measured(member.Path, member) : Sided(member.Path, member, member.Sides));
                break;
            case MemberKind.Flag when Typed(member.Path) is "yes" or "no":
                Put(member.Path, JsonValue.Create(Typed(member.Path) == "yes"));
                break;
            case MemberKind.Flag:
                break;
            case MemberKind.Count:
                PutCount(member.Path);
                break;
            case MemberKind.Word when member.IsList:
                // In the catalogue's order: a browser sends the boxes as they stand on the page, a program as it likes.
                PutList(member.Path, Fields.Several(member.Path).OrderBy(word => member.Words.TakeWhile(known => known != word).Count()));
                break;
            default:
                Put(member.Path, Typed(member.Path));
                break;
        }
    }

    private string? Sided(string path, SheetMember member, Sides sides)
    {
        return Together(path, Read(path), Read($"{path}.turned"), Read($"{path}.again"));

        Reading? Read(string name) => Signed(
            name,
            member.Quantity!.Value,
            member.Unit!.Value,
            sides,
            $"Choose which side is heavier: {sides.Positive} or {sides.Negative}.",
            member.Usual);
    }

    /// <summary>A reading with the sign of its side, or null when nothing was typed or it was refused.</summary>
    private Reading? Signed(string name, Quantity quantity, Unit unit, Sides sides, string askWhich, UsualRange? usual = null)
    {
        if (Read(name, quantity, unit, usual) is not { } reading)
        {
            return null;
        }

        var side = Typed($"{name}.side");
        if (reading.Text.StartsWith('-') || reading.Text.StartsWith('\u2212'))
        {
            Refuse(name, $"\"{Typed(name)}\" has a minus sign; write the size and choose {sides.Positive} or {sides.Negative}.");
            return null;
        }

        if (side != sides.Positive && side != sides.Negative && reading.Value != 0)
        {
            Refuse(name, askWhich);
            return null;
        }

        return side == sides.Negative ? ReadingParser.Parse($"-{reading.Text}", quantity).Reading : reading;
    }

    /// <summary>The text of one reading, or of the value computed from several.</summary>
    private string? Together(string field, Reading? first, Reading? turned, Reading? again)
    {
        var last = again is not null ? $"{field}.again" : $"{field}.turned";
        if (first is null || (turned is null && again is null))
        {
            if (first is null && (turned ?? again) is not null && Typed(field).Length == 0)
            {
                Refuse(last, $"\"{Typed(last)}\" is a second reading, and the first is missing; enter the first reading as well.");
            }

            return first?.Text;
        }

        var (worked, refusal) = SeveralReadings.Of(field, first, turned, again);
        if (worked is null)
        {
            Refuse(last, refusal!);
            return null;
        }

        _several.Add(worked);
        return worked.Value;
    }

    /// <summary>The reading's text with its unit, or null when nothing was typed or it was refused.</summary>
    private string? Measured(string name, SheetMember member)
    {
        var (quantity, unit) = (member.Quantity!.Value, member.Unit!.Value);
        return Together(
            name, Read(name, quantity, unit, member.Usual), null,
            FormFields.CanRepeat(name) ? Read($"{name}.again", quantity, unit, member.Usual) : null);
    }

    private Reading? Read(string name, Quantity quantity, Unit unit, UsualRange? usual = null)
    {
        if (Typed(name) is not { Length: > 0 } typed)
        {
            return null;
        }

        var result = ReadingParser.Parse(typed, quantity, unit);
        if (result.Refusal is { } refusal)
        {
            // On the form an imbalance and a pitch have a side and no sign, unlike in a sheet that a program sends.
            Refuse(
                name,
                refusal.Replace(", -0.5 oz or", " or", StringComparison.Ordinal)
                    .Replace(", -1/4 in or", " or", StringComparison.Ordinal));
        }

        return result.Reading is { } reading && IsBelieved(name, reading, usual) ? reading : null;
    }

    // No ball has more plus marks than this; common practice, no source.
    private const int MostMarks = 3;

    private void PutCount(string path)
    {
        if (Typed(path) is not { Length: > 0 } typed)
        {
            return;
        }

        if (int.TryParse(typed, NumberStyles.None, CultureInfo.InvariantCulture, out var count))
        {
            if (count <= MostMarks || IsConfirmed(path, typed, $"at most {MostMarks}"))
            {
                Put(path, JsonValue.Create(count));
            }
        }
        else
        {
            Refuse(path, $"\"{typed}\" is not a whole number; write 0, 1 or 2.");
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

    private void Put(string path, string? text)
    {
        if (!string.IsNullOrEmpty(text))
        {
            Put(path, JsonValue.Create(text));
        }
    }

    private void Put(string path, JsonNode value)
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
