using System.Text;
using System.Text.Json.Nodes;
using CsCheck;
using Inspect.Sheets.Json;

namespace Inspect.Sheets.Tests;

/// <summary>A sheet written back is the sheet as typed; defined by this project.</summary>
public class SheetJsonTests
{
    [Fact]
    public void Write_FullSheet_IsTheDocumentAsTyped() => RoundTrips(JsonNode.Parse(FullSheet.Json)!);

    /// <summary>Any members but play, authority and a hole's kind may be absent.</summary>
    [Fact]
    public void Write_AnyPartOfASheet_IsTheDocumentAsTyped() => Gen.Bool.Array[80].Sample(kept =>
    {
        var sheet = JsonNode.Parse(FullSheet.Json)!;
        var asked = 0;
        Thin(sheet, () => kept[asked++ % kept.Length]);
        RoundTrips(sheet);
    }, iter: 500);

    private static void Thin(JsonNode node, Func<bool> keep)
    {
        if (node is JsonObject members)
        {
            foreach (var name in members.Select(member => member.Key).Where(
                name => name is not ("play" or "authority" or "kind") && !keep()).ToList())
            {
                members.Remove(name);
            }
        }

        var inner =
            node is JsonObject left ? left.Select(member => member.Value!) : node is JsonArray items ? items.Select(item => item!) : [];
        foreach (var child in inner.ToList())
        {
            Thin(child, keep);
        }
    }

    private static void RoundTrips(JsonNode typed)
    {
        var faults = new List<Fault>();
        var sheet = SheetReader.Read(Encoding.UTF8.GetBytes(typed.ToJsonString()), faults);
        Assert.Empty(faults);
        var written = SheetJson.Write(sheet!);
        Assert.Equal(typed.ToJsonString(), written.ToJsonString());
        var again = SheetReader.Read(Encoding.UTF8.GetBytes(written.ToJsonString()), faults);
        Assert.Equivalent(sheet, again, strict: true);
    }
}
