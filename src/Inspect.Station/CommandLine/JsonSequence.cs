using System.Text.Json;

namespace Inspect.Station.CommandLine;

/// <summary>Cuts a text into its JSON values, on one line or over several; a broken one is cut out and the rest goes on.</summary>
/// <remarks>A brace never follows a brace inside a value, so a line that begins with one behind a closing brace begins a value, whatever
/// was before. There a long text is cut into pieces (<see cref="AfterLast"/>), which have the values of the whole text.</remarks>
internal static class JsonSequence
{
    private static readonly JsonReaderOptions Several = new() { AllowMultipleValues = true };

    /// <summary>Each value's bytes in order; a broken one up to where the next begins.</summary>
    public static IEnumerable<ReadOnlyMemory<byte>> Of(ReadOnlyMemory<byte> utf8)
    {
        var at = utf8.Span.StartsWith("\uFEFF"u8) ? 3 : 0;
        while (true)
        {
            at = AfterSpace(utf8.Span, at);
            if (at == utf8.Length)
            {
                yield break;
            }

            var end = EndOfValue(utf8.Span, at) ?? EndOfBroken(utf8.Span, at);
            yield return utf8[at..end];
            at = end;
        }
    }

    /// <summary>Where the last line begins that surely begins a value; 0 when there is none.</summary>
    public static int AfterLast(ReadOnlySpan<byte> utf8)
    {
        for (var at = utf8.LastIndexOf("\n{"u8); at >= 0; at = utf8[..at].LastIndexOf("\n{"u8))
        {
            if (utf8[..at].TrimEnd(" \t\r\n"u8).EndsWith("}"u8))
            {
                return at + 1;
            }
        }

        return 0;
    }

    /// <summary>Where the value ends, or null when it is broken or something other than a next object follows on its line.</summary>
    private static int? EndOfValue(ReadOnlySpan<byte> utf8, int start)
    {
        var reader = new Utf8JsonReader(utf8[start..], Several);
        try
        {
            reader.Read();
            reader.Skip();
        }
        catch (JsonException)
        {
            return null;
        }

        var end = start + (int)reader.BytesConsumed;
        var rest = utf8[end..EndOfLine(utf8, end)].TrimStart(" \t\r"u8);
        return rest.IsEmpty || rest[0] == '{' ? end : null;
    }

    /// <summary>
    /// A broken object goes on over the lines of a printed sheet, which are indented, closing or empty, so that every other line has an
    /// answer of its own. Anything else is broken to the end of its line.
    /// </summary>
    private static int EndOfBroken(ReadOnlySpan<byte> utf8, int start)
    {
        var end = EndOfLine(utf8, start);
        while (utf8[start] == '{' && end + 1 < utf8.Length && " \t\r\n}]"u8.Contains(utf8[end + 1]))
        {
            end = EndOfLine(utf8, end + 1);
        }

        return end;
    }

    private static int EndOfLine(ReadOnlySpan<byte> utf8, int from)
    {
        var length = utf8[from..].IndexOf((byte)'\n');
        return length < 0 ? utf8.Length : from + length;
    }

    private static int AfterSpace(ReadOnlySpan<byte> utf8, int from)
    {
        var length = utf8[from..].IndexOfAnyExcept(" \t\r\n"u8);
        return length < 0 ? utf8.Length : from + length;
    }
}
