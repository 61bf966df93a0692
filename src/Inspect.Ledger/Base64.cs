using System.Diagnostics.CodeAnalysis;

namespace Inspect.Ledger;

/// <summary>Base64 of RFC 4648 section 4, with one spelling for each value.</summary>
/// <remarks>The framework's decoder ignores white space and stray trailing bits, so two different texts could give one signature.</remarks>
internal static class Base64
{
    public static bool TryDecode(string text, [NotNullWhen(true)] out byte[]? bytes)
    {
        var buffer = new byte[text.Length];
        bytes = Convert.TryFromBase64String(text, buffer, out var length) && Convert.ToBase64String(buffer, 0, length) == text
            ? buffer[..length]
            : null;
        return bytes is not null;
    }
}
