using System.Text;

namespace Inspect.Sheets.Json;

/// <summary>What a text of one line may have in it, and how any text is normalised.</summary>
/// <remarks>Refused are control characters, noncharacters (The Unicode Standard, 23.7), halves of surrogate pairs, and the characters that
/// embed, override or isolate a direction of writing (UAX 9, 2.1 to 2.5), with which a text can show something else than it is.</remarks>
public static class PlainText
{
    /// <summary>Whether every character of a text may stand in one plain line.</summary>
    public static bool IsLine(string text)
    {
        for (var i = 0; i < text.Length; i++)
        {
            if (!Rune.TryGetRuneAt(text, i, out var rune) || !IsPlain(rune))
            {
                return false;
            }

            i += rune.Utf16SequenceLength - 1;
        }

        return true;
    }

    /// <summary>The normal form of any text. What cannot be normalised, in texts that were recorded before it was refused, becomes a
    /// replacement character.</summary>
    public static string Normalized(string text, NormalizationForm form) =>
        (text.AsSpan().IndexOfAnyInRange('\uD800', '\uDFFF') < 0 && !text.Contains('\uFFFE') ? text : WellFormed(text)).Normalize(form);

    private static bool IsPlain(Rune rune) => !Rune.IsControl(rune) && !IsNoncharacter(rune)
        && rune.Value is not ((>= 0x202A and <= 0x202E) or (>= 0x2066 and <= 0x2069));

    private static bool IsNoncharacter(Rune rune) => (rune.Value & 0xFFFE) == 0xFFFE || rune.Value is >= 0xFDD0 and <= 0xFDEF;

    // A half of a surrogate pair is enumerated as the replacement character.
    private static string WellFormed(string text)
    {
        var whole = new StringBuilder(text.Length);
        foreach (var rune in text.EnumerateRunes())
        {
            whole.Append(IsNoncharacter(rune) ? Rune.ReplacementChar.ToString() : rune.ToString());
        }

        return whole.ToString();
    }
}
