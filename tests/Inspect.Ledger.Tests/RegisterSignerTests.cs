using System.Security.Cryptography;
using System.Text.Json.Nodes;
using static Inspect.Ledger.Tests.RegisterChecking;

namespace Inspect.Ledger.Tests;

/// <summary>Who stands behind an exported register: another key, another statement and a rewritten register are found out.</summary>
/// <remarks>
/// The behaviour is defined by this project; the signatures are held to those of public logs in <see cref="CheckpointTests"/>.
/// </remarks>
public sealed class RegisterSignerTests : IDisposable
{
    private readonly ExportedRegister _register = new(6);

    public void Dispose() => _register.Dispose();

    [Fact]
    public void Check_WholeRegisterRewrittenUnderTheOldCheckpoint_SaysSoAndNamesNoEntry()
    {
        using var other = new ExportedRegister(6);
        var head = RegisterHead.Empty;
        List<byte[]> lines = [];
        for (var i = 1; i <= 6; i++)
        {
            lines.Add(head.Next.Stamp(new JsonObject { ["kind"] = "ruling" }));
            head = head.Append(MerkleTree.LeafHash(lines[^1]));
        }

        var closing = JsonNode.Parse(_register.Lines[^1])!.AsObject();
        closing["prior"] = head.Next.Prior.ToString();
        lines.Add(CanonicalJson.Write(closing));

        var finding = CheckLines(lines);

        Assert.Equal((RegisterFault.CheckpointDiffers, null), (finding.Fault, finding.Entry));
    }

    [Fact]
    public void Check_RegisterSignedByAnotherKey_IsRefusedWhenAKeyIsGiven()
    {
        using var stranger = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        List<byte[]> lines = [.. _register.Lines[..^1], _register.Closing(stranger, [])];

        Assert.Equal(RegisterFault.WrongSigner, CheckLines(lines, _register.Key).Fault);
        Assert.False(CheckLines(lines).IsSignerProven);
    }

    [Fact]
    public void Check_KeyOfTheFileReplacedByAnother_FindsTheSignatureWrong()
    {
        using var stranger = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var closing = JsonNode.Parse(_register.Lines[^1])!.AsObject();
        closing["publicKey"] = PublicKey.Of(stranger, ExportedRegister.Origin).Text;

        var finding = CheckLines([.. _register.Lines[..^1], CanonicalJson.Write(closing)]);

        Assert.Equal((RegisterFault.WrongSignature, null), (finding.Fault, finding.Entry));
    }

    [Fact]
    public void Check_NewKeyThatTheOldOneVouchesFor_IsProvenByTheOldKey()
    {
        using var newKey = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        List<byte[]> lines = [.. _register.Lines[..^1], _register.Closing(newKey, [_register.HandOverTo(newKey)])];

        Assert.True(CheckLines(lines, _register.Key).IsSignerProven);
        Assert.True(CheckLines(lines, PublicKey.Of(newKey, ExportedRegister.Origin)).IsSignerProven);
    }

    [Fact]
    public void Check_StatementForAnotherKey_IsRefused()
    {
        using var newKey = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        using var stranger = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        List<byte[]> lines = [.. _register.Lines[..^1], _register.Closing(stranger, [_register.HandOverTo(newKey)])];

        Assert.False(CheckLines(lines, _register.Key).IsSound);
    }

    [Fact]
    public void Check_AnySingleByteOfALineWithASuccessionFlipped_IsFound()
    {
        using var newKey = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var closing = _register.Closing(newKey, [_register.HandOverTo(newKey)]);
        for (var i = 0; i < closing.Length; i++)
        {
            byte[] altered = [.. closing];
            altered[i] ^= 1;

            var finding = CheckLines([.. _register.Lines[..^1], altered]);

            Assert.True(finding.Line == 7, $"Byte {i}: {finding.Sentence}");
        }
    }
}
