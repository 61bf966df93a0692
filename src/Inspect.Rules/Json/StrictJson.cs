using System.Globalization;
using System.Text.Json;
using Inspect.Rules.Readings;

namespace Inspect.Rules.Json;

/// <summary>Reads a JSON document member by member and collects every fault with its path, instead of stopping at the first.</summary>
public static class StrictJson
{
    /// <summary>The path of the document itself.</summary>
    public const string Root = "$";

    private static readonly JsonDocumentOptions Options = new() { MaxDepth = 16 };

    /// <summary>The document's outermost object, or null with the fault added.</summary>
    public static StrictObject? Read(ReadOnlyMemory<byte> utf8, List<Fault> faults)
    {
        try
        {
            using var document = JsonDocument.Parse(utf8, Options);
            if (!TextsAreWhole(utf8.Span))
            {
                faults.Add(new Fault(Root, "A text or a name in it holds half a character or bytes that are not UTF-8; write it again in UTF-8."));
                return null;
            }

            return StrictObject.From(document.RootElement.Clone(), Root, faults);
        }
        catch (JsonException broken)
        {
            var place = broken.LineNumber is { } line
                ? string.Create(CultureInfo.InvariantCulture, $" at line {line + 1}, byte {(broken.BytePositionInLine ?? 0) + 1}")
                : "";
            faults.Add(new Fault(Root, $"This is not well-formed JSON{place}."));
            return null;
        }
    }

    /// <summary>Whether every text and name can be read: an unpaired surrogate or a broken byte passes as JSON and no text can be made of it.</summary>
    private static bool TextsAreWhole(ReadOnlySpan<byte> utf8)
    {
        var reader = new Utf8JsonReader(utf8, new JsonReaderOptions { MaxDepth = Options.MaxDepth });
        try
        {
            while (reader.Read())
            {
                if (reader.TokenType is JsonTokenType.String or JsonTokenType.PropertyName)
                {
                    reader.GetString();
                }
            }

            return true;
        }
        catch (InvalidOperationException)
        {
            return false;
        }
    }

    internal static string Kind(JsonElement element) => element.ValueKind switch
    {
        JsonValueKind.Object => "an object",
        JsonValueKind.Array => "a list",
        JsonValueKind.String => "a text",
        JsonValueKind.Number => "a number",
        JsonValueKind.True or JsonValueKind.False => "true or false",
        _ => "null",
    };

    internal static string Shown(JsonElement element) => element.ValueKind switch
    {
        JsonValueKind.String or JsonValueKind.Number or JsonValueKind.True or JsonValueKind.False => Cut(element.GetRawText()),
        _ => Kind(element),
    };

    /// <summary>A text in quotes for a message, cut where it is long.</summary>
    internal static string Quoted(string text) => $"\"{(text.Length > 60 ? text[..60] + "…" : text)}\"";

    private static string Cut(string raw) => raw.Length > 62 ? raw[..61] + "…\"" : raw;
}

/// <summary>One JSON object being read: asks for its members by name, and says at the end which ones it never asked for.</summary>
public sealed class StrictObject
{
    private readonly Dictionary<string, JsonElement> _members = new(StringComparer.Ordinal);
    private readonly HashSet<string> _asked = new(StringComparer.Ordinal);
    private readonly List<Fault> _faults;

    private StrictObject(string path, List<Fault> faults) => (Path, _faults) = (path, faults);

    /// <summary>Where this object stands in the document.</summary>
    public string Path { get; }

    /// <summary>The names of its members, in the order written.</summary>
    public IEnumerable<string> Names => _members.Keys;

    internal static StrictObject? From(JsonElement element, string path, List<Fault> faults)
    {
        if (element.ValueKind != JsonValueKind.Object)
        {
            faults.Add(new Fault(path, $"This is {StrictJson.Kind(element)}; an object is wanted here."));
            return null;
        }

        var read = new StrictObject(path, faults);
        foreach (var member in element.EnumerateObject())
        {
            if (!read._members.TryAdd(member.Name, member.Value))
            {
                read.Refuse(member.Name, "This member is written twice; write it once.");
            }
        }

        return read;
    }

    /// <summary>The path of a member of this object.</summary>
    public string PathOf(string name) => Path == StrictJson.Root ? name : $"{Path}.{name}";

    /// <summary>Adds a fault at one member.</summary>
    public void Refuse(string name, string message) => _faults.Add(new Fault(PathOf(name), message));

    /// <summary>Whether the member is written, even as null.</summary>
    public bool Has(string name) => _members.ContainsKey(name);

    /// <summary>Whether the member is written as null, for the few members where null has a meaning.</summary>
    public bool IsNull(string name)
    {
        _asked.Add(name);
        return _members.TryGetValue(name, out var element) && element.ValueKind == JsonValueKind.Null;
    }

    /// <summary>A text, or null when absent or refused.</summary>
    /// <param name="name">The member.</param>
    /// <param name="longest">The most characters accepted.</param>
    public string? Text(string name, int longest = 120)
    {
        if (Find(name, JsonValueKind.String, "a text in quotes") is not { } element)
        {
            return null;
        }

        var text = element.GetString()!;
        if (text.Length > longest)
        {
            Refuse(name, $"{StrictJson.Quoted(text)} is {text.Length} characters long; at most {longest} are kept.");
            return null;
        }

        if (text.Trim().Length == 0)
        {
            Refuse(name, "This is empty; leave the member out when there is nothing to say.");
            return null;
        }

        if (text.Any(char.IsControl))
        {
            Refuse(name, $"{StrictJson.Quoted(text)} has a line break or another control character; write one plain line.");
            return null;
        }

        return text;
    }

    /// <summary>A text that must be there.</summary>
    public string? RequiredText(string name, int longest = 120)
    {
        Require(name);
        return Text(name, longest);
    }

    /// <summary>True or false, or null when absent or refused.</summary>
    public bool? Flag(string name)
    {
        if (!Ask(name, out var element))
        {
            return null;
        }

        if (element.ValueKind is JsonValueKind.True or JsonValueKind.False)
        {
            return element.GetBoolean();
        }

        Mistyped(name, element, "true or false");
        return null;
    }

    /// <summary>A whole number within a range, or null when absent or refused.</summary>
    public int? Whole(string name, int least, int most)
    {
        if (Find(name, JsonValueKind.Number, "a whole number") is not { } element)
        {
            return null;
        }

        if (element.TryGetInt32(out var number) && number >= least && number <= most)
        {
            return number;
        }

        Refuse(name, $"{StrictJson.Shown(element)} is not a whole number from {least} to {most}.");
        return null;
    }

    /// <summary>A day written yyyy-mm-dd, or null when absent or refused.</summary>
    public DateOnly? Day(string name)
    {
        if (Text(name) is not { } text)
        {
            return null;
        }

        if (DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day))
        {
            return day;
        }

        Refuse(name, $"{StrictJson.Quoted(text)} is not a day; write it as 2027-03-14.");
        return null;
    }

    /// <summary>One of a closed list of words, or null when absent or refused.</summary>
    public T? Choice<T>(string name, IReadOnlyDictionary<string, T> words)
        where T : struct
    {
        if (Text(name) is not { } text)
        {
            return null;
        }

        if (words.TryGetValue(text, out var choice))
        {
            return choice;
        }

        Refuse(name, $"{StrictJson.Quoted(text)} is not known here; write {OneOf(words.Keys)}.");
        return null;
    }

    /// <summary>A measured value with its unit, or null when absent or refused.</summary>
    public Reading? Reading(string name, Quantity quantity) => Text(name) is { } text ? Parsed(PathOf(name), text, quantity) : null;

    /// <summary>A list of measured values, or null when absent or refused.</summary>
    public IReadOnlyList<Reading>? Readings(string name, Quantity quantity, int most)
    {
        if (Texts(name, most) is not { } texts)
        {
            return null;
        }

        var readings = new List<Reading>();
        for (var i = 0; i < texts.Count; i++)
        {
            if (Parsed($"{PathOf(name)}[{i}]", texts[i], quantity) is { } reading)
            {
                readings.Add(reading);
            }
        }

        return readings.Count == texts.Count ? readings : null;
    }

    /// <summary>A list of texts, or null when absent or refused.</summary>
    public IReadOnlyList<string>? Texts(string name, int most)
    {
        if (Elements(name, most) is not { } elements)
        {
            return null;
        }

        var texts = new List<string>();
        foreach (var (element, path) in elements)
        {
            if (element.ValueKind == JsonValueKind.String && element.GetString() is { Length: > 0 and <= 120 } text && !text.Any(char.IsControl))
            {
                texts.Add(text);
            }
            else
            {
                _faults.Add(new Fault(path, $"This is {StrictJson.Shown(element)}; a short text in quotes is wanted here."));
            }
        }

        return texts.Count == elements.Count ? texts : null;
    }

    /// <summary>An inner object, or null when absent or refused.</summary>
    public StrictObject? Object(string name) => Ask(name, out var element) ? From(element, PathOf(name), _faults) : null;

    /// <summary>A list of objects, or null when absent; refused elements are left out and their faults noted.</summary>
    public IReadOnlyList<StrictObject>? Objects(string name, int most) => Elements(name, most)?
        .Select(e => From(e.Element, e.Path, _faults)).OfType<StrictObject>().ToList();

    /// <summary>Adds a fault when the member is absent.</summary>
    public bool Require(string name)
    {
        if (Has(name))
        {
            return true;
        }

        Refuse(name, "This member is missing and must be given.");
        return false;
    }

    /// <summary>What kind of value a member is, for members that may be written in several ways; undefined when absent.</summary>
    public JsonValueKind KindOf(string name) => _members.TryGetValue(name, out var element) ? element.ValueKind : JsonValueKind.Undefined;

    /// <summary>Adds a fault for every member that was never asked for; call it once all known members were.</summary>
    public void Close()
    {
        foreach (var name in _members.Keys.Where(name => !_asked.Contains(name)))
        {
            Refuse(name, $"{StrictJson.Quoted(name)} is not a member known here; those are {List(_asked)}.");
        }
    }

    internal static string OneOf(IEnumerable<string> words) => string.Join(", ", words.SkipLast(1)) is { Length: > 0 } first
        ? $"{first} or {words.Last()}"
        : words.Last();

    private static string List(IEnumerable<string> words) => string.Join(", ", words);

    private Reading? Parsed(string path, string text, Quantity quantity)
    {
        var result = ReadingParser.Parse(text, quantity);
        if (result.Refusal is { } refusal)
        {
            _faults.Add(new Fault(path, refusal));
        }

        return result.Reading;
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

    private JsonElement? Find(string name, JsonValueKind kind, string wanted)
    {
        if (!Ask(name, out var element))
        {
            return null;
        }

        if (element.ValueKind == kind)
        {
            return element;
        }

        Mistyped(name, element, wanted);
        return null;
    }

    private bool Ask(string name, out JsonElement element)
    {
        _asked.Add(name);
        return _members.TryGetValue(name, out element);
    }

    private void Mistyped(string name, JsonElement element, string wanted) => Refuse(name, element.ValueKind == JsonValueKind.Null
        ? "This is null; leave the member out when it was not measured."
        : $"This is {StrictJson.Shown(element)}; {wanted} is wanted here.");
}
