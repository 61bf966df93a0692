using System.Security.Cryptography;

namespace Inspect.Ledger.Tests;

/// <summary>Signed checkpoints, against two that public logs signed with ECDSA keys and against our own with every part spoiled.</summary>
public sealed class CheckpointTests : IDisposable
{
    // Published test data of the transparency-dev "formats" library for notes: the keys and a checkpoint of two public logs.
    private const string RekorKey =
        "rekor.sigstore.dev+c0d23d6a+"
        + "AjBZMBMGByqGSM49AgEGCCqGSM49AwEHA0IABNhtmPtrWm3U1eQXBogSMdGvXwBcK5AW5i0hrZLOC96l+smGNM7nwZ4QvFK/4sueRoVj//QP22Ni4Qt9DPfkWLc=";

    private const string RekorNote =
        "Rekor\n798034\nf+7CoKgXKE/tNys9TTXcr/ad6U/K3xvznmzew9y6SP0=\n\n"
        + "\u2014 rekor.sigstore.dev "
        + "wNI9ajBEAiARInWIWyCdyG27CO6LPnPekyw20qO0YJfoaPaowGp/XgIgc+qEHS3+GKVClgqq20uDLet7MCoTURUCRdxwWBHHufk=\n";

    private const string PixelKey =
        "pixel6_transparency_log+91c16e30+"
        + "AjBZMBMGByqGSM49AgEGCCqGSM49AwEHA0IABN+4x0Jk1yTwvLFI9A4NDdGZcX0aiWVdWM5XJVy0M4VWD3AvyW5Q6Hs9A0mcDkpUoYgn+KKPNzFC0H3nN3q6JQ8=";

    private const string PixelNote =
        "DEFAULT\n10\nbsWRucJU5xJPHb5eBdOm6+DM+VelCZBuvtI3sHERJ9Y=\n\n"
        + "\u2014 pixel6_transparency_log "
        + "kcFuMDBFAiEAhqMAP8P6qf6QxtUJhzMhbN+MbZ9dwfUHzGQJmffJHtoCIGD0cNe47dHWBoPwYdgBCepB06/+g5O1FmYjXl06owL4\n";

    private const string Origin = "station.example/register";

    private readonly ECDsa _key = ECDsa.Create(ECCurve.NamedCurves.nistP256);

    private string Note => new Checkpoint(Origin, 8, MerkleTree.Root(TreeVectors.Leaves)).Sign(_key);

    public void Dispose() => _key.Dispose();

    [Theory]
    [InlineData(RekorKey, RekorNote, 798034)]
    [InlineData(PixelKey, PixelNote, 10)]
    public void IsSignedBy_CheckpointOfAPublicLog_IsTrueForItsKey(string keyText, string note, long size)
    {
        Assert.True(PublicKey.TryParse(keyText, out var key));
        Assert.True(Checkpoint.TryParse(note, out var checkpoint, out var signed));

        Assert.Equal(size, checkpoint.Size);
        Assert.True(signed.IsSignedBy(key));
        Assert.Equal(keyText, key.Text);
    }

    [Fact]
    public void IsSignedBy_KeyOfAnotherNameOrAnotherKey_IsFalse()
    {
        Assert.True(Checkpoint.TryParse(RekorNote, out _, out var signed));
        Assert.True(PublicKey.TryParse(RekorKey.Replace("rekor.sigstore.dev", "other.example", StringComparison.Ordinal), out var renamed));
        Assert.True(PublicKey.TryParse(PixelKey, out var other));

        Assert.False(signed.IsSignedBy(renamed));
        Assert.False(signed.IsSignedBy(other));
    }

    [Fact]
    public void Sign_ThenParse_GivesTheSameCheckpoint()
    {
        Assert.True(Checkpoint.TryParse(Note, out var checkpoint, out var signed));

        Assert.Equal(new Checkpoint(Origin, 8, MerkleTree.Root(TreeVectors.Leaves)), checkpoint);
        Assert.Equal($"{Origin}\n8\nXcnaeacGWamtVZy3Ad7ZoqudgjqtL0lgz+Nw7/RgQyg=\n", signed.Text);
        Assert.True(signed.IsSignedBy(PublicKey.Of(_key, Origin)));
    }

    [Fact]
    public void IsSignedBy_NoteWithOneCharacterChanged_IsFalseOrUnreadable()
    {
        var note = Note;
        var key = PublicKey.Of(_key, Origin);
        for (var i = 0; i < note.Length; i++)
        {
            foreach (var other in new[] { (char)(note[i] ^ 1), (char)(note[i] ^ 0x20), '\n', '=', 'A' }.Where(other => other != note[i]))
            {
                var altered = note[..i] + other + note[(i + 1)..];

                Assert.False(
                    Checkpoint.TryParse(altered, out _, out var signed) && signed.IsSignedBy(key),
                    $"Character {i} changed to U+{(int)other:X4} went unnoticed.");
            }
        }
    }

    [Theory]
    [InlineData("o\n08\n{0}\n")]
    [InlineData("o\n+8\n{0}\n")]
    [InlineData("o\n-8\n{0}\n")]
    [InlineData("o\n 8\n{0}\n")]
    [InlineData("o\n9223372036854775808\n{0}\n")]
    [InlineData("\n8\n{0}\n")]
    [InlineData("o\n8\n{0}\nmore\n")]
    [InlineData("o\n8\n{0}\n\n")]
    [InlineData("o\n8\nXcnaeacGWamtVZy3Ad7ZoqudgjqtL0lgz+Nw7/RgQyh=\n")]
    [InlineData("o\n8\nXcnaeacGWamtVZy3Ad7Zoqudgjqt\n")]
    [InlineData("o\n8\n")]
    public void TryParse_TextThatIsNoCheckpoint_IsRefusedThoughSigned(string text)
    {
        var root = Convert.ToBase64String(MerkleTree.Root(TreeVectors.Leaves).ToArray());
        var note = SignedNote.Sign(text.Replace("{0}", root, StringComparison.Ordinal), "o", _key);

        Assert.False(Checkpoint.TryParse(note, out _, out _));
    }

    [Theory]
    [InlineData("")]
    [InlineData("a b")]
    [InlineData("a+b")]
    [InlineData("a\u2003b")]
    [InlineData("a\nb")]
    public void Of_NameThatTheFormForbids_Throws(string name) => Assert.Throws<ArgumentException>(() => PublicKey.Of(_key, name));

    [Fact]
    public void Of_KeyOnAnotherCurve_Throws()
    {
        using var key = ECDsa.Create(ECCurve.NamedCurves.nistP384);

        Assert.Throws<ArgumentException>(() => PublicKey.Of(key, Origin));
    }

    [Fact]
    public void TryParse_KeyTextWithOneCharacterChanged_IsAnotherKeyOrNone()
    {
        var key = PublicKey.Of(_key, "s");
        for (var i = 1; i < key.Text.Length; i++)
        {
            var altered = key.Text[..i] + (char)(key.Text[i] ^ 0x20) + key.Text[(i + 1)..];

            Assert.False(PublicKey.TryParse(altered, out _), altered);
        }
    }

    [Fact]
    public void Fingerprint_OfAPublicLogsKey_IsTheHashOfItsKey()
    {
        // The id of this kind of key is the beginning of the same hash: c0d23d6a in the published text.
        Assert.True(PublicKey.TryParse(RekorKey, out var key));

        Assert.StartsWith("c0d2 3d6a ", key.Fingerprint, StringComparison.Ordinal);
        Assert.Equal(16, key.Fingerprint.Split(' ').Length);
    }

    [Fact]
    public void KeySuccession_SignedByTheOldKey_NamesBoth()
    {
        using var newKey = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var succession = new KeySuccession(PublicKey.Of(_key, Origin), PublicKey.Of(newKey, Origin));

        Assert.True(KeySuccession.TryParse(succession.Sign(_key), out var read));
        Assert.Equal(succession, read);
    }

    [Fact]
    public void KeySuccession_SignedByTheNewKey_IsRefused()
    {
        using var newKey = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var succession = new KeySuccession(PublicKey.Of(_key, Origin), PublicKey.Of(newKey, Origin));
        var statement = SignedNote.Sign(succession.Sign(_key).Split("\n\n")[0] + "\n", Origin, newKey);

        Assert.False(KeySuccession.TryParse(statement, out _));
        Assert.Throws<ArgumentException>(() => succession.Sign(newKey));
    }

    [Fact]
    public void KeyChain_OfStatements_LeadsForwardOnlyAndPastStrangers()
    {
        using var second = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        using var third = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        using var stranger = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var keys = new[] { _key, second, third, stranger }.Select(key => PublicKey.Of(key, Origin)).ToList();
        string[] statements =
        [
            new KeySuccession(keys[0], keys[1]).Sign(_key), new KeySuccession(keys[1], keys[2]).Sign(second),
            new KeySuccession(keys[3], keys[0]).Sign(stranger),
        ];

        Assert.True(KeySuccession.TryParseAll(KeySuccession.Join(statements), out var read));
        Assert.Equal(keys[..3], KeyChain.Of(keys[0], read).Keys);
        Assert.Equal(keys[1..3], KeyChain.Of(keys[1], read.Reverse()).Keys);
        Assert.Equal([keys[2]], KeyChain.Of(keys[2], read).Keys);
        Assert.Equal([keys[3], keys[0], keys[1], keys[2]], KeyChain.Of(keys[3], read).Keys);
    }

    [Fact]
    public void KeySuccessions_CutOrJoinedOtherwise_AreRefused()
    {
        using var second = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var statement = new KeySuccession(PublicKey.Of(_key, Origin), PublicKey.Of(second, Origin)).Sign(_key);
        var both = KeySuccession.Join([statement, statement]);

        Assert.True(KeySuccession.TryParseAll(both, out _));
        Assert.All(
            ["", "\n", statement + "\n", statement + statement, both[..^1], both[3..], "\n" + both],
            text => Assert.False(KeySuccession.TryParseAll(text, out _), text));
    }
}
