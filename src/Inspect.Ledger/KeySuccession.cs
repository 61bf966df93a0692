using System.Diagnostics.CodeAnalysis;
using System.Security.Cryptography;

namespace Inspect.Ledger;

/// <summary>A signed note in which a station's old key vouches for its new one, so that anyone who
/// knows the old key can trust the new.</summary>
/// <param name="Old">The key that was trusted until now, and that signs the statement.</param>
/// <param name="New">The key that signs from now on, under the same name.</param>
public sealed record KeySuccession(PublicKey Old, PublicKey New)
{
    /// <summary>The first line. A checkpoint's second line is a number, so the two cannot be confused.</summary>
    private const string Heading = "The key of this register changes from the first to the second.";

    // Heading, two keys, the empty line, the signature.
    private const int StatementLines = 5;

    private string Text => $"{Heading}\n{Old.Text}\n{New.Text}\n";

    /// <summary>Writes the statement, signed with the old key.</summary>
    /// <exception cref="ArgumentException"><paramref name="oldKey"/> is not <see cref="Old"/>,
    /// or the two keys have different names.</exception>
    public string Sign(ECDsa oldKey)
    {
        if (PublicKey.Of(oldKey, Old.Name) != Old || Old.Name != New.Name)
        {
            throw new ArgumentException(
                "Only the key that is replaced can vouch for its successor, which takes over its name.", nameof(oldKey));
        }

        return SignedNote.Sign(Text, Old.Name, oldKey);
    }

    /// <summary>Several signed statements as one text, with an empty line between them.</summary>
    public static string Join(IEnumerable<string> statements) => string.Join('\n', statements);

    /// <summary>Reads what <see cref="Join"/> wrote. One statement that cannot be read makes it refuse the whole text.</summary>
    public static bool TryParseAll(string text, [NotNullWhen(true)] out IReadOnlyList<KeySuccession>? successions)
    {
        successions = null;
        var lines = text.Split('\n');
        if (lines.Length % (StatementLines + 1) != 0)
        {
            return false;
        }

        var read = new List<KeySuccession>();
        foreach (var statement in lines.Chunk(StatementLines + 1))
        {
            if (statement[^1].Length > 0 || !TryParse(string.Join('\n', statement), out var succession))
            {
                return false;
            }

            read.Add(succession);
        }

        successions = read;
        return true;
    }

    /// <summary>Reads a statement, and refuses one that its old key did not sign.</summary>
    public static bool TryParse(string note, [NotNullWhen(true)] out KeySuccession? succession)
    {
        succession = null;
        if (!SignedNote.TryParse(note, out var signed)
            || signed is not { Signatures: 1 }
            || signed.Text.Split('\n') is not [Heading, var oldText, var newText, ""]
            || !PublicKey.TryParse(oldText, out var oldKey)
            || !PublicKey.TryParse(newText, out var newKey)
            || oldKey.Name != newKey.Name
            || !signed.IsSignedBy(oldKey))
        {
            return false;
        }

        succession = new KeySuccession(oldKey, newKey);
        return true;
    }
}
