namespace Inspect.Ledger;

/// <summary>A key that someone knows from elsewhere, and every later key to which it leads, each vouched for by the one before.</summary>
/// <remarks>
/// It only leads forward: whoever knows the new key learns nothing of the old one from it. Where a statement came from does not matter, since
/// it is signed with the key that it replaces.
/// </remarks>
public sealed class KeyChain
{
    private readonly List<PublicKey> _keys;

    private KeyChain(List<PublicKey> keys) => _keys = keys;

    /// <summary>The key that was given.</summary>
    public PublicKey Given => _keys[0];

    /// <summary>The key that was given, and those that it leads to.</summary>
    public IReadOnlyList<PublicKey> Keys => _keys;

    /// <summary>The key that was given, alone.</summary>
    public static KeyChain Of(PublicKey trusted) => new([trusted]);

    /// <summary>The key that was given, and every one that statements lead to from it; a statement that does not belong to them is passed over.</summary>
    public static KeyChain Of(PublicKey trusted, IEnumerable<KeySuccession> statements)
    {
        var chain = new List<PublicKey> { trusted };
        var open = statements.ToList();
        for (var i = 0; i < chain.Count; i++)
        {
            chain.AddRange(open.Where(statement => statement.Old == chain[i]).Select(statement => statement.New).Where(key => !chain.Contains(key)).Distinct().ToList());
        }

        return new KeyChain(chain);
    }

    /// <summary>Which of the keys signed a note; null where none did.</summary>
    public PublicKey? SignerOf(SignedNote note) => _keys.Find(note.IsSignedBy);
}
