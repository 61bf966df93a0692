using System.Buffers.Binary;
using System.Diagnostics.CodeAnalysis;
using System.Security.Cryptography;
using System.Text;

namespace Inspect.Ledger;

/// <summary>A text and the signatures under it, in the form of the C2SP signed-note specification.</summary>
/// <remarks>
/// The text ends in a newline, and an empty line separates it from the signatures. A signature line is an em dash, the key's name, and
/// base64 of the key's id with the signature. Use the text only after <see cref="IsSignedBy"/> has said yes.
/// </remarks>
public sealed record SignedNote
{
    /// <summary>How many signatures are read at most; the specification asks for room for 16.</summary>
    private const int MostSignatures = 16;

    private const string Dash = "\u2014 ";

    private readonly IReadOnlyList<NoteSignature> _signatures;

    private SignedNote(string text, IReadOnlyList<NoteSignature> signatures)
    {
        Text = text;
        _signatures = signatures;
    }

    /// <summary>The signed text, with its last newline.</summary>
    public string Text { get; }

    /// <summary>How many signature lines follow the text.</summary>
    public int Signatures => _signatures.Count;

    /// <summary>Signs a text with a key and gives the whole note.</summary>
    /// <param name="text">The text; it ends in a newline and has no other control character.</param>
    /// <param name="name">The name of the key.</param>
    /// <param name="key">A key on P-256 with its private half.</param>
    public static string Sign(string text, string name, ECDsa key)
    {
        if (!IsText(text))
        {
            throw new ArgumentException("A note's text must end in a newline and have no other control character.", nameof(text));
        }

        var id = new byte[4];
        BinaryPrimitives.WriteUInt32BigEndian(id, PublicKey.Of(key, name).Id);
        var signature = key.SignData(Encoding.UTF8.GetBytes(text), HashAlgorithmName.SHA256, DSASignatureFormat.Rfc3279DerSequence);
        return $"{text}\n{Dash}{name} {Convert.ToBase64String([.. id, .. signature])}\n";
    }

    /// <summary>Reads a note. It does not check its signatures: <see cref="IsSignedBy"/> does.</summary>
    public static bool TryParse(string note, [NotNullWhen(true)] out SignedNote? parsed)
    {
        parsed = null;
        // The text may have empty lines of its own, so the last one separates it from the signatures.
        var gap = note.LastIndexOf("\n\n", StringComparison.Ordinal);
        if (gap < 0 || !IsText(note) || !IsText(note[..(gap + 1)]))
        {
            return false;
        }

        var lines = note[(gap + 2)..].Split('\n');
        var signatures = new List<NoteSignature>();
        foreach (var line in lines.SkipLast(1))
        {
            if (!TryParseSignature(line, out var signature) || signatures.Count == MostSignatures)
            {
                return false;
            }

            signatures.Add(signature);
        }

        parsed = signatures.Count > 0 ? new SignedNote(note[..(gap + 1)], signatures) : null;
        return parsed is not null;
    }

    /// <summary>Whether the note has a signature by this key, and every signature that names this key is good.
    /// Signatures by other keys are ignored.</summary>
    public bool IsSignedBy(PublicKey key)
    {
        var named = _signatures.Where(signature => signature.Name == key.Name && signature.KeyId == key.Id).ToList();
        return named.Count > 0 && named.TrueForAll(signature => key.Verify(Text, signature.Bytes));
    }

    private static bool IsText(string text) =>
        text.EndsWith('\n') && !text.Any(character => character < ' ' && character != '\n') && IsUnicode(text);

    // Half a surrogate pair cannot be written as UTF-8 and would come back as a replacement character.
    private static bool IsUnicode(string text) => Encoding.UTF8.GetString(Encoding.UTF8.GetBytes(text)) == text;

    private static bool TryParseSignature(string line, [NotNullWhen(true)] out NoteSignature? signature)
    {
        signature = null;
        if (!line.StartsWith(Dash, StringComparison.Ordinal)
            || line[Dash.Length..].Split(' ') is not [var name, var encoded]
            || !PublicKey.IsName(name)
            || !Base64.TryDecode(encoded, out var bytes)
            || bytes.Length <= 4)
        {
            return false;
        }

        signature = new NoteSignature(name, BinaryPrimitives.ReadUInt32BigEndian(bytes), bytes[4..]);
        return true;
    }

    private sealed record NoteSignature(string Name, uint KeyId, byte[] Bytes);
}
