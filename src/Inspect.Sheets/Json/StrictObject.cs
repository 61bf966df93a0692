using System.Globalization;
using System.Text.Json;
using Inspect.Sheets.Readings;

namespace Inspect.Sheets.Json;

/// <summary>One JSON object being read. Members are read by name; at the end, every member that was never read is a fault.</summary>
public sealed partial class StrictObject
{
    private const string HalfCharacter = "half a character in an escape; write the whole character.";

    private readonly Dictionary<string, JsonElement> _members = new(StringComparer.Ordinal);
    private readonly HashSet<string> _asked = new(StringComparer.Ordinal);
    private readonly List<Fault> _faults;

    private StrictObject(string path, List<Fault> faults) => (Path, _faults) = (path, faults);

    /// <summary>The path of this object in the document.</summary>
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
            if (StrictJson.NameOf(member) is not { } name)
            {
                faults.Add(new Fault(path, $"A member's name here has {HalfCharacter}"));
            }
            else if (!read._members.TryAdd(name, member.Value))
            {
                read.Refuse(name, "This member is written twice; write it once.");
            }
        }

        return read;
    }

    /// <summary>The path of a member of this object.</summary>
    public string PathOf(string name) => Path == StrictJson.Root ? StrictJson.Cut(name) : $"{Path}.{StrictJson.Cut(name)}";

    /// <summary>Adds a fault at one member.</summary>
    public void Refuse(string name, string message) => _faults.Add(new Fault(PathOf(name), message));

    /// <summary>Whether the member is written, even as null.</summary>
    public bool Has(string name) => _members.ContainsKey(name);

    /// <summary>Whether the member is written as null, for the few members where null means something.</summary>
    public bool IsNull(string name)
    {
        _asked.Add(name);
        return _members.TryGetValue(name, out var element) && element.ValueKind == JsonValueKind.Null;
    }

    /// <summary>A text, or null when absent or refused.</summary>
    /// <param name="name">The member.</param>
    /// <param name="longest">The most characters allowed.</param>
    public string? Text(string name, int longest = 120)
    {
        if (Find(name, JsonValueKind.String, "a text in quotes") is not { } element)
        {
            return null;
        }

        if (StrictJson.TextOf(element) is not { } text)
        {
            Refuse(name, $"This text has {HalfCharacter}");
            return null;
        }

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

        if (!PlainText.IsLine(text))
        {
            Refuse(name, $"{StrictJson.Quoted(text)} has a line break or another character that cannot be shown; write one plain line.");
            return null;
        }

        return text;
    }

    /// <summary>A text that must be given.</summary>
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

    /// <summary>One word from a closed list, or null when absent or refused.</summary>
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

        Refused(PathOf(name), text, words.Keys);
        return null;
    }

    /// <summary>A measured value with its unit, or null when absent or refused.</summary>
    public Reading? Reading(string name, Quantity quantity) => Text(name) is { } text ? Parsed(PathOf(name), text, quantity) : null;

    /// <summary>An inner object, or null when absent or refused.</summary>
    public StrictObject? Object(string name) => Ask(name, out var element) ? From(element, PathOf(name), _faults) : null;

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

    /// <summary>The kind of value of a member, for members that may be written in several ways; undefined when absent.</summary>
    public JsonValueKind KindOf(string name) => _members.TryGetValue(name, out var element) ? element.ValueKind : JsonValueKind.Undefined;

    /// <summary>Adds a fault for every member that was never read. Call it after all known members were read.</summary>
    public void Close()
    {
        foreach (var name in _members.Keys.Where(name => !_asked.Contains(name)))
        {
            Refuse(name, $"{StrictJson.Quoted(name)} is not a member known here; those are {string.Join(", ", _asked)}.");
        }
    }

    public static string OneOf(IEnumerable<string> words) => string.Join(", ", words.SkipLast(1)) is { Length: > 0 } first
        ? $"{first} or {words.Last()}"
        : words.Last();

    private string? Refused(string path, string word, IEnumerable<string> known)
    {
        _faults.Add(new Fault(path, $"{StrictJson.Quoted(word)} is not known here; write {OneOf(known)}."));
        return null;
    }

    private Reading? Parsed(string path, string text, Quantity quantity)
    {
        var result = ReadingParser.Parse(text, quantity);
        if (result.Refusal is { } refusal)
        {
            _faults.Add(new Fault(path, refusal));
        }

        return result.Reading;
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
        ? $"This is null; {wanted} is wanted here, and what was not measured is left out."
        : $"This is {StrictJson.Shown(element)}; {wanted} is wanted here.");
}
