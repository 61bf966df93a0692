using System.Security.Cryptography;
using System.Text;

namespace Inspect.Ledger.Tests;

/// <summary>Proofs as texts: the forms of the C2SP specifications tlog-proof (v1) and tlog-witness
/// (add-checkpoint), over RFC 6962 trees.</summary>
public sealed class ProofFileTests : IDisposable
{
    private const string Origin = "station.example/register";

    private readonly ECDsa _key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
    private readonly byte[][] _bodies = [.. Enumerable.Range(0, 64).Select(i => Encoding.UTF8.GetBytes($"entry {i}"))];

    private KeyChain Key => KeyChain.Of(PublicKey.Of(_key, Origin));

    public void Dispose() => _key.Dispose();

    // The public leaves of RFC 6962 test trees; the path of leaf 0 of 8 as published with them (certificate-transparency test data).
    [Fact]
    public void Text_LeafZeroOfThePublicTree_HasTheFormOfTheSpecification()
    {
        var leaves = TreeVectors.Leaves.ToList();
        var note = new Checkpoint(Origin, 8, MerkleTree.Root(leaves)).Sign(_key);
        var proof = new EntryProof(
            0, Proofs.Inclusion(0, 8, (start, count) => MerkleTree.Root(leaves.Skip((int)start).Take((int)count))), note);

        var lines = proof.Text.Split('\n');

        Assert.Equal("c2sp.org/tlog-proof@v1", lines[0]);
        Assert.Equal("index 0", lines[1]);
        Assert.Equal(
            [
                "96a296d224f285c67bee93c30f8a309157f0daa35dc5b87e410b78630a09cfc7",
                "5f083f0a1a33ca076a95279832580db3e0ef4584bdff1f54c8a360f50de3031e",
                "6b47aaf29ee3c2af9af889bc1fb9254dabd31177f16232dd6aab035ca39bf6e4",
            ],
            lines[2..5].Select(line => Convert.ToHexStringLower(Convert.FromBase64String(line))));
        Assert.Equal("", lines[5]);
        Assert.Equal(note, string.Join('\n', lines[6..]));
        Assert.Null(proof.Check([], Key));
    }

    [Fact]
    public void Check_EveryEntryOfEverySizeUpTo64_IsProvedAndNoOtherBody()
    {
        for (var size = 1; size <= 64; size++)
        {
            var note = Note(size);
            for (var index = 0; index < size; index++)
            {
                Assert.True(EntryProof.TryParse(new EntryProof(index, Proofs.Inclusion(index, size, RootOf), note).Text, out var proof));
                Assert.Null(proof.Check(_bodies[index], Key));
                Assert.NotNull(proof.Check([.. _bodies[index], 0x20], Key));
            }
        }
    }

    [Fact]
    public void Check_GrowthFromEverySizeToEverySizeUpTo64_IsProvedAndNotFromAnotherTree()
    {
        for (var size = 1; size <= 64; size++)
        {
            var note = Note(size);
            for (var old = 1; old <= size; old++)
            {
                Assert.True(GrowthProof.TryParse(new GrowthProof(old, Proofs.Consistency(old, size, RootOf), note).Text, out var proof));
                Assert.Null(proof.Check(Note(old), Key));
                var other = new Checkpoint(Origin, old, MerkleTree.LeafHash(_bodies[0].Reverse().ToArray())).Sign(_key);
                Assert.NotNull(proof.Check(other, Key));
            }
        }
    }

    [Fact]
    public void Check_AnotherKey_SaysSo()
    {
        using var stranger = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var proof = new EntryProof(2, Proofs.Inclusion(2, 5, RootOf), Note(5));
        var growth = new GrowthProof(3, Proofs.Consistency(3, 5, RootOf), Note(5));

        var known = KeyChain.Of(PublicKey.Of(stranger, Origin));

        Assert.StartsWith(
            "The checkpoint in the proof is not signed by the key you gave", proof.Check(_bodies[2], known), StringComparison.Ordinal);
        Assert.StartsWith(
            "The earlier checkpoint is not signed by the key you gave", growth.Check(Note(3), known), StringComparison.Ordinal);
    }

    // Whatever byte is turned over, the text is unreadable or proves nothing: never another truth.
    [Fact]
    public void Check_AnyByteOfTheProofFlipped_IsNeverBelieved()
    {
        var text = Encoding.UTF8.GetBytes(new EntryProof(5, Proofs.Inclusion(5, 11, RootOf), Note(11)).Text);
        for (var i = 0; i < text.Length; i++)
        {
            var flipped = (byte[])text.Clone();
            flipped[i] ^= 0x01;
            Assert.True(!EntryProof.TryParse(Encoding.UTF8.GetString(flipped), out var proof) || proof.Check(
                _bodies[5], Key) is not null, $"byte {i}");
        }
    }

    [Theory]
    [InlineData("")]
    [InlineData("c2sp.org/tlog-proof@v1\nindex 00\n\nx")]
    [InlineData("c2sp.org/tlog-proof@v1\nindex -1\n\nx")]
    [InlineData("c2sp.org/tlog-proof@v1\nindex 1\nnot base64\n\nx")]
    [InlineData("c2sp.org/tlog-proof@v1\nindex 1\nAAAA\n\nx")]
    [InlineData("c2sp.org/tlog-proof@v2\nindex 1\n\nx")]
    public void TryParse_OtherText_IsRefused(string text) => Assert.False(EntryProof.TryParse(text, out _));

    private TreeHash RootOf(long start, long count) =>
        MerkleTree.Root(_bodies.Skip((int)start).Take((int)count).Select(body => MerkleTree.LeafHash(body)));

    private string Note(int size) => new Checkpoint(Origin, size, RootOf(0, size)).Sign(_key);
}
