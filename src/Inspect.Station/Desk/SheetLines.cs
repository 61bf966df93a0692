using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Inspect.Sheets;
using Inspect.Sheets.Form;

namespace Inspect.Station.Desk;

/// <summary>One member of a sheet, in words.</summary>
/// <param name="Path">The member's path; for readings in a list, the path of the list.</param>
/// <param name="Label">What an inspector calls it; the same for the same hole at any place in the list.</param>
/// <param name="Text">As typed, yes or no, or several readings with commas between them.</param>
public sealed record SheetLine(string Path, string Label, string Text);

/// <summary>A sheet as lines of text, so that two sheets can be compared.</summary>
public static partial class SheetLines
{
    /// <summary>The members of the sheet, in its order, without those that the event sets: authority, edition and plan.</summary>
    public static IReadOnlyList<SheetLine> Of(Sheet sheet)
    {
        var lines = new List<SheetLine>();
        foreach (var (name, value) in SheetJson.Write(sheet)
            .Where(member => member.Key is not ("authority" or "edition" or "plan" or "holes")))
        {
            Add(lines, name, value, LabelOf);
        }

        var written = (SheetJson.Write(sheet)["holes"] as JsonArray ?? []).OfType<JsonObject>();
        foreach (var ((index, hole), members) in (sheet.Holes ?? []).Index().Zip(written))
        {
            var subject = Subject(sheet.Holes!, hole, index);
            foreach (var (name, value) in members.Where(member => member.Key is not ("kind" or "digit" or "in" or "pitch" or "pieces")))
            {
                Add(lines, $"holes[{index}].{name}", value, _ => $"{subject}: {(name == "depthTo" ? "depth read from" : Spaced(name))}");
            }

            if (PitchSides.Text(hole, sheet.Grip?.Hand) is { } pitch)
            {
                lines.Add(new SheetLine($"holes[{index}].pitch", $"{subject}: pitch", pitch));
            }

            foreach (var (piece, value) in (members["pieces"] as JsonArray ?? []).Index())
            {
                var gauged = Words.Piece(subject, piece);
                Add(lines, $"holes[{index}].pieces[{piece}]", value, path => $"{gauged}: {path[(path.LastIndexOf('.') + 1)..]}");
            }
        }

        return lines;
    }

    /// <summary>What an inspector calls a member that is not in a hole.</summary>
    public static string LabelOf(string path) =>
        (Catalogue.At(path) ?? Catalogue.At($"{path}.arc"))?.Line ?? Spaced(path[(path.IndexOf('.', StringComparison.Ordinal) + 1)..]);

    /// <summary>What differs from an earlier sheet: label, value then and value now; null when it was not given.</summary>
    public static IReadOnlyList<(string Label, string? Then, string? Now)> Changes(Sheet then, Sheet now)
    {
        var (before, after) = (Of(then), Of(now));
        var old = before.ToLookup(line => line.Label, line => line.Text);
        var current = after.ToLookup(line => line.Label, line => line.Text);
        return [.. after.Concat(before).Select(line => line.Label).Distinct(StringComparer.Ordinal)
            .Select(label => (label, old[label].FirstOrDefault(), current[label].FirstOrDefault()))
            .Where(change => change.Item2 != change.Item3)];
    }

    private static void Add(List<SheetLine> lines, string path, JsonNode? value, Func<string, string> label)
    {
        switch (value)
        {
            case JsonObject place when place.ContainsKey("arc") || place.ContainsKey("angle") || place.ContainsKey("azimuth"):
                lines.Add(new SheetLine(path, label(path), string.Join(" at ", place.Select(member => Text(member.Value)))));
                break;
            case JsonObject members:
                members.ToList().ForEach(member => Add(lines, $"{path}.{member.Key}", member.Value, label));
                break;
            case JsonArray list:
                lines.Add(new SheetLine(path, label(path), string.Join(", ", list.Select(Text))));
                break;
            case not null:
                lines.Add(new SheetLine(path, label(path), Text(value)));
                break;
        }
    }

    private static string Text(JsonNode? value) => value?.GetValueKind() switch
    {
        System.Text.Json.JsonValueKind.True => "yes",
        System.Text.Json.JsonValueKind.False => "no",
        System.Text.Json.JsonValueKind.String => value.GetValue<string>(),
        _ => value?.ToJsonString() ?? "",
    };

    // Two holes of the same name get numbers, in the order of the list.
    private static string Subject(IReadOnlyList<Hole> holes, Hole hole, int index)
    {
        var subject = Words.Subject(hole, index);
        var same = holes.Index().Where(other => Words.Subject(other.Item, other.Index) == subject).ToList();
        return same.Count == 1 ? subject : $"{subject} {same.FindIndex(other => other.Index == index) + 1}";
    }

    // secondaryHole becomes "secondary hole".
    private static string Spaced(string path) => Capital().Replace(path.Replace('.', ' '), match => $" {match.Value.ToLowerInvariant()}");

    [GeneratedRegex("[A-Z]", RegexOptions.CultureInvariant)]
    private static partial Regex Capital();
}
