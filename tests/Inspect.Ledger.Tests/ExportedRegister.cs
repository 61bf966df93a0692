using System.Security.Cryptography;
using System.Text.Json.Nodes;

namespace Inspect.Ledger.Tests;

/// <summary>A small exported register to be spoiled: entries as bytes, then the last line.</summary>
internal sealed class ExportedRegister : IDisposable
{
    public const string Origin = "station.example/register";

    private readonly ECDsa _key = ECDsa.Create(ECCurve.NamedCurves.nistP256);

    public ExportedRegister(int entries)
    {
        var head = RegisterHead.Empty;
        for (var i = 1; i <= entries; i++)
        {
            var sheet = new JsonObject { ["gross"] = "15 lb 1½ oz" };
            var body = head.Next.Stamp(new JsonObject { ["kind"] = "inspection", ["number"] = $"OPEN-{i:0000}", ["sheet"] = sheet });
            Lines.Add(body);
            head = head.Append(MerkleTree.LeafHash(body));
        }

        Head = head;
        Key = PublicKey.Of(_key, Origin);
        Lines.Add(Closing(_key, []));
    }

    public PublicKey Key { get; }

    public RegisterHead Head { get; }

    /// <summary>The entries and the last line, without newlines.</summary>
    public List<byte[]> Lines { get; } = [];

    public int Entries => Lines.Count - 1;

    public byte[] Bytes => Join(Lines);

    public static byte[] Join(IEnumerable<byte[]> lines) => [.. lines.SelectMany(line => line.Append((byte)'\n'))];

    /// <summary>The last line, signed with a key of the test's choice.</summary>
    public byte[] Closing(ECDsa key, IReadOnlyList<string> successions) => new RegisterClosing(
        new Checkpoint(Origin, Head.Size, Head.Edge.Root).Sign(key), PublicKey.Of(key, Origin), Head.Next.Prior, successions).ToBytes();

    /// <summary>The statement by which this register's key hands over to another.</summary>
    public string HandOverTo(ECDsa key) => new KeySuccession(Key, PublicKey.Of(key, Origin)).Sign(_key);

    public void Dispose() => _key.Dispose();
}
