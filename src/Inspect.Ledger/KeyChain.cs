namespace Inspect.Ledger;

/// <summary>A key that somebody knows from elsewhere, and every later key that it leads to. Each key vouches for the next.</summary>
/// <remarks>
/// The chain leads forward only: somebody who knows the new key cannot check the old one with it. A statement may come from anywhere,
/// because the key that it replaces has signed it.
/// </remarks>
public sealed class KeyChain
{
    private readonly List<PublicKey> _keys;

    private KeyChain(List<PublicKey> keys) => _keys = keys;

    /// <summary>The key that was given.</summary>
    public PublicKey Given => _keys[0];

    /// <summary>The key that was given, and the keys that it leads to.</summary>
    public IReadOnlyList<PublicKey> Keys => _keys;

    /// <summary>A chain of the key that was given alone.</summary>
    public static KeyChain Of(PublicKey trusted) => new([trusted]);

    /// <summary>The key that was given, and every key that the statements lead to from it. Other statements are ignored.</summary>
    public static KeyChain Of(PublicKey trusted, IEnumerable<KeySuccession> statements)
    {
        var chain = new List<PublicKey> { trusted };
        var open = statements.ToList();
        for (var i = 0; i < chain.Count; i++)
        {
            chain.AddRange(
                open.Where(statement => statement.Old == chain[i]).Select(statement => statement.New)
                    .Where(key => !chain.Contains(key)).Distinct().ToList());
        }

        return new KeyChain(chain);
    }

    /// <summary>The key of the chain that signed a note, or null when none did.</summary>
    public PublicKey? SignerOf(SignedNote note) => _keys.Find(note.IsSignedBy);
}
