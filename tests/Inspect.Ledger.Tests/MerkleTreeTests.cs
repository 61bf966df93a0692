namespace Inspect.Ledger.Tests;

/// <summary>The tree of RFC 6962, section 2.1: published roots, and the definition worked anew for every size.</summary>
public sealed class MerkleTreeTests
{
    [Theory]
    [InlineData(0, "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855")]
    [InlineData(1, "6e340b9cffb37a989ca544e6bb780a2c78901d3fb33738768511a30617afa01d")]
    [InlineData(2, "fac54203e7cc696cf0dfcb42c92a1d9dbaf70ad9e621f4bd8d98662f00e3c125")]
    [InlineData(3, "aeb6bcfe274b70a14fb067a5e5578264db0fa9b51af5e0ba159158f329e06e77")]
    [InlineData(4, "d37ee418976dd95753c1c73862b9398fa2a2cf9b4ff0fdfe8b30cd95209614b7")]
    [InlineData(5, "4e3bbb1f7b478dcfe71fb631631519a3bca12c9aefca1612bfce4c13a86264d4")]
    [InlineData(6, "76e67dadbcdf1e10e1b74ddc608abd2f98dfb16fbce75277b5232a127f2087ef")]
    [InlineData(7, "ddb89be403809e325750d3d263cd78929c2942b7942a34b77e122c9594a74c8c")]
    [InlineData(8, "5dc9da79a70659a9ad559cb701ded9a2ab9d823aad2f4960cfe370eff4604328")]
    public void Root_KnownLeaves_IsThePublishedRoot(int size, string root) =>
        Assert.Equal(root, MerkleTree.Root(TreeVectors.Leaves.Take(size)).ToString());

    [Fact]
    public void Append_EverySizeTo300_GivesTheRootByDefinition()
    {
        var leaves = TreeVectors.Counted(300);
        var edge = TreeEdge.Empty;
        for (var size = 0; size <= leaves.Length; size++)
        {
            Assert.Equal(size, edge.Size);
            Assert.Equal(TreeVectors.RootByDefinition(leaves.AsSpan(0, size)), edge.Root);
            edge = size < leaves.Length ? edge.Append(leaves[size]) : edge;
        }
    }

    [Fact]
    public void Append_OneEdgeTwice_LeavesItAsItWas()
    {
        var leaves = TreeVectors.Counted(9);
        var edge = leaves.Take(7).Aggregate(TreeEdge.Empty, (grown, leaf) => grown.Append(leaf));
        var root = edge.Root;

        Assert.NotEqual(edge.Append(leaves[7]).Root, edge.Append(leaves[8]).Root);
        Assert.Equal((7, root), (edge.Size, edge.Root));
    }

    [Theory]
    [InlineData(null)]
    [InlineData("")]
    [InlineData("E3B0C44298FC1C149AFBF4C8996FB92427AE41E4649B934CA495991B7852B855")]
    [InlineData("e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b8")]
    [InlineData(" e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b85")]
    public void TryParseHex_AnotherSpelling_IsRefused(string? text) => Assert.False(TreeHash.TryParseHex(text, out _));

    [Theory]
    [InlineData(31)]
    [InlineData(33)]
    public void TreeHash_OfAnotherLength_Throws(int length) => Assert.Throws<ArgumentException>(() => new TreeHash(new byte[length]));
}
