using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using System.Security.Cryptography;

namespace Inspect.Ledger;

/// <summary>What a station signs: how many entries its register has, and the root of the tree over them.</summary>
/// <remarks>
/// Written as the C2SP tlog-checkpoint specification says: origin, size in decimal and root in base64, one line each. Its optional
/// extension lines are not written, and a checkpoint that has them is refused, because nobody could audit them. The origin is also the
/// name of the key.
/// </remarks>
/// <param name="Origin">Which register this is; it never changes.</param>
/// <param name="Size">How many entries.</param>
/// <param name="Root">The root of RFC 6962 over their leaf hashes.</param>
public sealed record Checkpoint(string Origin, long Size, TreeHash Root)
{
    /// <summary>The three lines that are signed.</summary>
    public string Text => string.Create(CultureInfo.InvariantCulture, $"{Origin}\n{Size}\n{Convert.ToBase64String(Root.ToArray())}\n");

    /// <summary>The checkpoint as a signed note.</summary>
    public string Sign(ECDsa key) => SignedNote.Sign(Text, Origin, key);

    /// <summary>Reads a signed checkpoint. It does not check the signature: <see cref="SignedNote.IsSignedBy"/> does.</summary>
    public static bool TryParse(string note, [NotNullWhen(true)] out Checkpoint? checkpoint, [NotNullWhen(true)] out SignedNote? signed)
    {
        checkpoint = null;
        if (!SignedNote.TryParse(note, out signed)
            || signed.Text.Split('\n') is not [{ Length: > 0 } origin, var size, var root, ""]
            || !long.TryParse(size, NumberStyles.None, CultureInfo.InvariantCulture, out var leaves)
            || !Base64.TryDecode(root, out var rootBytes)
            || rootBytes.Length != TreeHash.Length)
        {
            return false;
        }

        var read = new Checkpoint(origin, leaves, new TreeHash(rootBytes));
        // Compared as text, so that a leading zero in the size is refused.
        checkpoint = read.Text == signed.Text ? read : null;
        return checkpoint is not null;
    }
}
