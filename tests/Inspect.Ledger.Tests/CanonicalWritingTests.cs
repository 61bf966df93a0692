using System.Text.Json.Nodes;

namespace Inspect.Ledger.Tests;

/// <summary>What is written member by member has the bytes that the same value has as a tree (RFC
/// 8785, sections 3.2.2.2 and 3.2.3).</summary>
public class CanonicalWritingTests
{
    [Fact]
    public void Bytes_EveryCharacter_IsWrittenAsInATree()
    {
        // Every character of the basic plane but the halves of pairs, and one of each further plane that has letters or signs.
        var characters = Enumerable.Range(0, 0x10000)
            .Where(code => code is < 0xD800 or > 0xDFFF).Concat([0x1F3B3, 0x20000, 0xE0100, 0x10FFFD]);
        foreach (var chunk in characters.Chunk(64))
        {
            var text = string.Concat(chunk.Select(char.ConvertFromUtf32));

            var written = CanonicalWriting.Bytes(text, (to, value) =>
            {
                to.WriteStartObject();
                to.WriteString("a"u8, value);
                to.WriteEndObject();
            });

            Assert.Equal(CanonicalJson.Write(new JsonObject { ["a"] = text }), written.ToArray());
        }
    }
}
