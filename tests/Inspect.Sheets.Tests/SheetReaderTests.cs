using System.Text;
using System.Text.Json.Nodes;
using Inspect.Sheets.Json;

namespace Inspect.Sheets.Tests;

/// <summary>The sheet's members are defined by this project.</summary>
public class SheetReaderTests
{
    /// <summary>The path of every member and list item of the full sheet.</summary>
    public static TheoryData<string> Paths()
    {
        var paths = new TheoryData<string>();
        foreach (var path in Places(JsonNode.Parse(FullSheet.Json)!).Select(place => place.Path))
        {
            paths.Add(path);
        }

        return paths;
    }

    [Fact]
    public void Read_FullSheet_HasNoFault() => Assert.Empty(Faults(JsonNode.Parse(FullSheet.Json)!));

    [Theory]
    [MemberData(nameof(Paths))]
    public void Read_OneMemberMistyped_GivesExactlyItsPath(string path)
    {
        var sheet = JsonNode.Parse(FullSheet.Json)!;
        Places(sheet).Single(place => place.Path == path).Node.ReplaceWith(JsonValue.Create(1.5));
        Assert.Equal(path, Assert.Single(Faults(sheet)).Path);
    }

    [Fact]
    public void Read_SeveralFaults_GivesThemAll()
    {
        var faults = Faults(JsonNode.Parse("""
            {"play":"14.3.2027","grip":{"digits":["toe","thumb",3,"heel"]},"marks":{"colour":"red"},
            "size":{"diameters":["8,5 in","8.5"]},"holes":[{"kind":"vent","device":"none"},{"depth":"2 ft"}]}
            """)!);
        Assert.Equal(
            ["authority", "grip.digits[0]", "grip.digits[2]", "grip.digits[3]", "holes[0].device", "holes[1].depth", "holes[1].kind",
            "marks.colour", "play", "size.diameters[0]", "size.diameters[1]"],
            faults.Select(fault => fault.Path).Order(StringComparer.Ordinal));
    }

    [Theory]
    [InlineData("""{"play":"2027-03-14"}""", "authority")]
    [InlineData("""{"authority":"us-national"}""", "play")]
    [InlineData("""{"play":"2027-02-29","authority":"x"}""", "play")]
    [InlineData("""{"play":"2027-03-14","authority":"x","edition":"y/2020-08-01"}""", "edition")]
    [InlineData("""{"play":"2027-03-14","authority":"x","plan":[]}""", "plan")]
    [InlineData("""{"play":"2027-03-14","authority":"x","plan":["a","a"]}""", "plan")]
    [InlineData("""{"play":"2027-03-14","authority":"x","grip":{"digits":["thumb","thumb"]}}""", "grip.digits[1]")]
    [InlineData("""{"play":"2027-03-14","authority":"x","grip":null}""", "grip")]
    [InlineData("""{"play":"2027-03-14","authority":"x","ball":{"made":"24-05"}}""", "ball.made")]
    [InlineData("""{"play":"2027-03-14","authority":"x","holes":[{"kind":"grip","in":"thumb"}]}""", "holes[0].in")]
    [InlineData("""{"play":"2027-03-14","authority":"x","holes":[{"kind":"grip","depth":"-2 in"}]}""", "holes[0].depth")]
    [InlineData(
        """{"play":"2027-03-14","authority":"x","holes":[{"kind":"grip","position":{"arc":"1 in","angle":"9 deg"}}]}""",
        "holes[0].position.angle")]
    [InlineData("""{"play":"2027-03-14","authority":"x","holes":[{"kind":"grip","position":{"arc":"-1 in"}}]}""", "holes[0].position.arc")]
    [InlineData("""{"play":"2027-03-14","authority":"x","holes":[{"kind":"grip","depthTo":"surface"}]}""", "holes[0].depthTo")]
    [InlineData("""{"play":"2027-03-14","authority":"x","holes":[{"kind":"grip","pitch":{"north":"1/8 in"}}]}""", "holes[0].pitch.north")]
    [InlineData("""{"play":"2027-03-14","authority":"x","weights":{"scaleConstant":"4"}}""", "weights.scaleConstant")]
    [InlineData("""{"play":"2027-03-14","authority":"x","ball":{"pin":{"arc":"1 oz"}}}""", "ball.pin.arc")]
    public void Read_OneFault_NamesItsPath(string json, string path) =>
        Assert.Equal(path, Assert.Single(Faults(JsonNode.Parse(json)!)).Path);

    [Fact]
    public void Read_EventLaysDownAuthority_MayBeLeftOutAndMustNotDiffer()
    {
        var expected = new SheetDefaults("us-national", null, ["gross-weight"]);
        var faults = new List<Fault>();
        var sheet = SheetReader.Read("""{"play":"2027-03-14"}"""u8.ToArray(), faults, expected);
        Assert.Equal(("us-national", "gross-weight"), (sheet!.Authority, Assert.Single(sheet.Plan!)));
        Assert.Null(SheetReader.Read("""{"play":"2027-03-14","authority":"canada","plan":["hardness"]}"""u8.ToArray(), faults, expected));
        Assert.Equal(["authority", "plan"], faults.Select(fault => fault.Path));
    }

    private static List<Fault> Faults(JsonNode sheet)
    {
        var faults = new List<Fault>();
        var read = SheetReader.Read(Encoding.UTF8.GetBytes(sheet.ToJsonString()), faults);
        Assert.Equal(faults.Count > 0, read is null);
        return faults;
    }

    private static List<(string Path, JsonNode Node)> Places(JsonNode node)
    {
        var inner = node switch
        {
            JsonObject members => members.Select(member => member.Value!),
            JsonArray items => items.Select(item => item!),
            _ => [],
        };
        return inner.SelectMany(child => Places(child).Prepend((child.GetPath()[2..], child))).ToList();
    }
}
