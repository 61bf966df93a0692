using System.Diagnostics.CodeAnalysis;
using System.Globalization;

namespace Inspect.Ledger;

/// <summary>The form that both proofs share: a word and a number, one base64 hash a line, an empty line, and a checkpoint.</summary>
internal static class ProofLines
{
    // A path in a tree of 2^63 leaves is no longer than this.
    private const int MostHashes = 63;

    public static string Write(string word, long number, IReadOnlyList<TreeHash> path, string checkpoint) => string.Create(
        CultureInfo.InvariantCulture,
        $"{word} {number}\n{string.Concat(path.Select(hash => Convert.ToBase64String(hash.ToArray()) + "\n"))}\n{checkpoint}");

    public static bool TryRead(
        string text,
        string word,
        out long number,
        [NotNullWhen(true)] out IReadOnlyList<TreeHash>? path,
        [NotNullWhen(true)] out string? checkpoint)
    {
        (number, path, checkpoint) = (0, null, null);
        var gap = text.IndexOf("\n\n", StringComparison.Ordinal);
        if (gap < 0 || text[..gap].Split('\n') is not [var first, .. var lines] || lines.Length > MostHashes
            || !first.StartsWith(word + " ", StringComparison.Ordinal)
            || !long.TryParse(first[(word.Length + 1)..], NumberStyles.None, CultureInfo.InvariantCulture, out number))
        {
            return false;
        }

        var hashes = new List<TreeHash>();
        foreach (var line in lines)
        {
            if (!Base64.TryDecode(line, out var bytes) || bytes.Length != TreeHash.Length)
            {
                return false;
            }

            hashes.Add(new TreeHash(bytes));
        }

        (path, checkpoint) = (hashes, text[(gap + 2)..]);
        // Written again and compared, so that a number with a leading zero is refused.
        return Write(word, number, path, checkpoint) == text;
    }
}
