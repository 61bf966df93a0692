using System.Globalization;
using System.Text.Json;
using System.Text.Unicode;

namespace Inspect.Sheets.Json;

/// <summary>Reads a JSON document member by member. It collects every fault with its path and does not stop at the first.</summary>
public static class StrictJson
{
    /// <summary>The path of the document itself.</summary>
    public const string Root = "$";

    private const int Deepest = 16;
    private const int LongestShown = 60;

    private static readonly JsonDocumentOptions Options = new() { MaxDepth = Deepest };

    /// <summary>The document's outermost object, or null with a fault added.</summary>
    public static StrictObject? Read(ReadOnlyMemory<byte> utf8, List<Fault> faults)
    {
        if (utf8.Span.StartsWith("\uFEFF"u8))
        {
            faults.Add(new Fault(Root, "This begins with a byte order mark; save it as UTF-8 without one."));
            return null;
        }

        if (!Utf8.IsValid(utf8.Span))
        {
            faults.Add(new Fault(Root, "This is not UTF-8 text; save it in that encoding."));
            return null;
        }

        try
        {
            using var document = JsonDocument.Parse(utf8, Options);
            return StrictObject.From(document.RootElement.Clone(), Root, faults);
        }
        catch (JsonException broken)
        {
            var place = broken.LineNumber is { } line
                ? string.Create(CultureInfo.InvariantCulture, $" at line {line + 1}, byte {(broken.BytePositionInLine ?? 0) + 1}")
                : "";
            faults.Add(new Fault(Root, $"This is not well-formed JSON{place}, or it is nested deeper than {Deepest} levels."));
            return null;
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

    /// <summary>A text in quotes for a message, cut when it is long.</summary>
    public static string Quoted(string text) => $"\"{Cut(text)}\"";

    /// <summary>The beginning of a long text. It never ends in half a character.</summary>
    public static string Cut(string text) => text.Length <= LongestShown ? text
        : text[..(char.IsHighSurrogate(text[LongestShown - 1]) ? LongestShown - 1 : LongestShown)] + "…";

    /// <summary>The text of an element, or null when an escape in it is half a character.</summary>
    internal static string? TextOf(JsonElement element)
    {
        try
        {
            return element.GetString();
        }
        catch (InvalidOperationException)
        {
            return null;
        }
    }

    /// <summary>The name of a member, or null when an escape in it is half a character.</summary>
    internal static string? NameOf(JsonProperty member)
    {
        try
        {
            return member.Name;
        }
        catch (InvalidOperationException)
        {
            return null;
        }
    }
}
