using System.Text.Json.Nodes;
using System.Text.RegularExpressions;

namespace Inspect.Rules.Tests.Rulesets;

/// <summary>Makes a case's sheet out of the common one: each changed member by its path, null takes it
/// out, one past the end is added.</summary>
internal static partial class SheetChange
{
    public static JsonObject Apply(JsonObject sheet, JsonObject changes)
    {
        var changed = (JsonObject)sheet.DeepClone();
        foreach (var (path, value) in changes)
        {
            Set(changed, path, value?.DeepClone());
        }

        return changed;
    }

    private static void Set(JsonObject root, string path, JsonNode? value)
    {
        var steps = Steps().Matches(path).Select(step => step.Value.Trim('[', ']')).ToList();
        JsonNode at = root;
        foreach (var step in steps.SkipLast(1))
        {
            at = at is JsonArray list ? list[Index(step)]! : at[step] ?? throw new InvalidDataException($"The path {path} leads nowhere.");
        }

        if (at is JsonArray items)
        {
            SetItem(items, Index(steps[^1]), value, path);
        }
        else if (value is null)
        {
            Assert.True(((JsonObject)at).Remove(steps[^1]), $"The path {path} takes out what is not there.");
        }
        else
        {
            at[steps[^1]] = value;
        }
    }

    private static void SetItem(JsonArray items, int index, JsonNode? value, string path)
    {
        if (value is null)
        {
            items.RemoveAt(index);
        }
        else if (index == items.Count)
        {
            items.Add(value);
        }
        else if (index < items.Count)
        {
            items[index] = value;
        }
        else
        {
            throw new InvalidDataException($"The path {path} lies beyond the end.");
        }
    }

    private static int Index(string step) => int.Parse(step, System.Globalization.CultureInfo.InvariantCulture);

    [GeneratedRegex(@"[^.\[\]]+")]
    private static partial Regex Steps();
}
