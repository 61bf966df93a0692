using System.Text.Json;
using Inspect.Sheets.Readings;

namespace Inspect.Sheets.Json;

/// <content>Members that are lists.</content>
public sealed partial class StrictObject
{
    private const int LongestItem = 120;

    /// <summary>A list of measured values, or null when absent or refused.</summary>
    public IReadOnlyList<Reading>? Readings(string name, Quantity quantity, int most) =>
        Items(name, most, (path, text) => Parsed(path, text, quantity));

    /// <summary>A list of texts, or null when absent or refused.</summary>
    public IReadOnlyList<string>? Texts(string name, int most, int longest = LongestItem) => Items(name, most, (_, text) => text, longest);

    /// <summary>A list of words from a closed list, or null when absent or refused.</summary>
    public IReadOnlyList<T>? Choices<T>(string name, IReadOnlyDictionary<string, T> words, int most)
        where T : struct => Items(name, most, (path, text) => words.ContainsKey(text) ? text : Refused(path, text, words.Keys))?
        .Select(word => words[word]).ToList();

    /// <summary>A list of objects, or null when absent. Refused elements are left out and their faults added.</summary>
    public IReadOnlyList<StrictObject>? Objects(string name, int most) => Elements(name, most)?
        .Select(e => From(e.Element, e.Path, _faults)).OfType<StrictObject>().ToList();

    /// <summary>Every item of a list of texts as <paramref name="read"/> returns it; null
    /// when absent or when any item was refused.</summary>
    private List<T>? Items<T>(string name, int most, Func<string, string, T?> read, int longest = LongestItem)
        where T : class
    {
        if (Elements(name, most) is not { } elements)
        {
            return null;
        }

        var items = new List<T>();
        foreach (var (element, path) in elements)
        {
            var text = element.ValueKind == JsonValueKind.String ? StrictJson.TextOf(element) : null;
            if (text is not { Length: > 0 } || text.Length > longest || !PlainText.IsLine(text))
            {
                _faults.Add(new Fault(path, $"This is {StrictJson.Shown(element)}; a short text in quotes is wanted here."));
            }
            else if (read(path, text) is { } item)
            {
                items.Add(item);
            }
        }

        return items.Count == elements.Count ? items : null;
    }

    private List<(JsonElement Element, string Path)>? Elements(string name, int most)
    {
        if (Find(name, JsonValueKind.Array, "a list") is not { } element)
        {
            return null;
        }

        if (element.GetArrayLength() > most)
        {
            Refuse(name, $"This list has {element.GetArrayLength()} items; at most {most} are read.");
            return null;
        }

        return element.EnumerateArray().Select((item, i) => (item, $"{PathOf(name)}[{i}]")).ToList();
    }
}
