namespace Inspect.Ledger.Tests;

/// <summary>Both proofs: the published ones, then every one that a tree of up to 64 leaves has, sound and spoiled.</summary>
public sealed class ProofsTests
{
    private const int Largest = 64;

    [Fact]
    public void Inclusion_FirstOfEightKnownLeaves_IsThePublishedProof()
    {
        var proof = Proofs.Inclusion(0, 8, RootOf(TreeVectors.Leaves));

        Assert.Equal(
            [
                "96a296d224f285c67bee93c30f8a309157f0daa35dc5b87e410b78630a09cfc7",
                "5f083f0a1a33ca076a95279832580db3e0ef4584bdff1f54c8a360f50de3031e",
                "6b47aaf29ee3c2af9af889bc1fb9254dabd31177f16232dd6aab035ca39bf6e4",
            ],
            proof.Select(hash => hash.ToString()));
    }

    [Fact]
    public void Consistency_SixToEightKnownLeaves_IsThePublishedProof()
    {
        var proof = Proofs.Consistency(6, 8, RootOf(TreeVectors.Leaves));

        Assert.Equal(
            [
                "0ebc5d3437fbe2db158b9f126a1d118e308181031d0a949f8dededebc558ef6a",
                "ca854ea128ed050b41b35ffc1b87b8eb2bde461e9e3b5596ece6b9d5975a0ae0",
                "d37ee418976dd95753c1c73862b9398fa2a2cf9b4ff0fdfe8b30cd95209614b7",
            ],
            proof.Select(hash => hash.ToString()));
    }

    [Fact]
    public void CheckInclusion_EveryLeafOfEveryTree_HoldsAndNoSpoiledProofDoes()
    {
        var leaves = TreeVectors.Counted(Largest);
        for (var size = 1; size <= Largest; size++)
        {
            var root = TreeVectors.RootByDefinition(leaves.AsSpan(0, size));
            for (var index = 0; index < size; index++)
            {
                var proof = Proofs.Inclusion(index, size, RootOf(leaves));

                Assert.True(Proofs.CheckInclusion(leaves[index], index, size, root, proof), $"{index} of {size}");
                Assert.False(Proofs.CheckInclusion(TreeVectors.Altered(leaves[index]), index, size, root, proof));
                Assert.False(Proofs.CheckInclusion(leaves[index], index, size, TreeVectors.Altered(root), proof));
                Assert.All(Spoiled(proof), spoiled => Assert.False(Proofs.CheckInclusion(leaves[index], index, size, root, spoiled)));
                Assert.All(
                    Enumerable.Range(-1, size + 2).Where(other => other != index),
                    other => Assert.False(Proofs.CheckInclusion(leaves[index], other, size, root, proof)));
            }
        }
    }

    [Fact]
    public void CheckConsistency_EveryPairOfSizes_HoldsAndNoSpoiledProofDoes()
    {
        var leaves = TreeVectors.Counted(Largest);
        var roots = Enumerable.Range(0, Largest + 1).Select(size => TreeVectors.RootByDefinition(leaves.AsSpan(0, size))).ToArray();
        for (var second = 0; second <= Largest; second++)
        {
            for (var first = 0; first <= second; first++)
            {
                var proof = Proofs.Consistency(first, second, RootOf(leaves));

                Assert.True(Proofs.CheckConsistency(first, roots[first], second, roots[second], proof), $"{first} to {second}");
                Assert.False(Proofs.CheckConsistency(first, TreeVectors.Altered(roots[first]), second, roots[second], proof));
                Assert.All(
                    Spoiled(proof), spoiled => Assert.False(Proofs.CheckConsistency(first, roots[first], second, roots[second], spoiled)));
                if (first > 0)
                {
                    Assert.False(Proofs.CheckConsistency(first, roots[first], second, TreeVectors.Altered(roots[second]), proof));
                }

                if (first < second)
                {
                    Assert.False(Proofs.CheckConsistency(second, roots[second], first, roots[first], proof));
                }
            }
        }
    }

    [Fact]
    public void CheckConsistency_TreeWithAnEarlierLeafChanged_IsRefused()
    {
        var leaves = TreeVectors.Counted(40);
        var firstRoot = TreeVectors.RootByDefinition(leaves.AsSpan(0, 21));
        for (var changed = 0; changed < 21; changed++)
        {
            TreeHash[] rewritten = [.. leaves];
            rewritten[changed] = TreeVectors.Altered(rewritten[changed]);

            var proof = Proofs.Consistency(21, 40, RootOf(rewritten));

            Assert.False(Proofs.CheckConsistency(21, firstRoot, 40, TreeVectors.RootByDefinition(rewritten), proof));
        }
    }

    [Theory]
    [InlineData(-1, 8)]
    [InlineData(8, 8)]
    [InlineData(0, 0)]
    public void Inclusion_LeafThatIsNotThere_Throws(long index, long size) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Proofs.Inclusion(index, size, RootOf(TreeVectors.Leaves)));

    [Theory]
    [InlineData(-1, 8)]
    [InlineData(9, 8)]
    public void Consistency_WithALaterTreeThatIsSmaller_Throws(long first, long second) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Proofs.Consistency(first, second, RootOf(TreeVectors.Leaves)));

    private static Func<long, long, TreeHash> RootOf(TreeHash[] leaves) =>
        (start, count) => TreeVectors.RootByDefinition(leaves.AsSpan((int)start, (int)count));

    // Each hash altered, each left out, one repeated at either end, two neighbours exchanged.
    private static IEnumerable<List<TreeHash>> Spoiled(IReadOnlyList<TreeHash> proof)
    {
        yield return [.. proof, TreeVectors.Leaves[3]];
        yield return [TreeVectors.Leaves[3], .. proof];
        for (var i = 0; i < proof.Count; i++)
        {
            yield return [.. proof.Take(i), TreeVectors.Altered(proof[i]), .. proof.Skip(i + 1)];
            yield return [.. proof.Take(i), .. proof.Skip(i + 1)];
            if (i > 0)
            {
                yield return [.. proof.Take(i - 1), proof[i], proof[i - 1], .. proof.Skip(i + 1)];
            }
        }
    }
}
