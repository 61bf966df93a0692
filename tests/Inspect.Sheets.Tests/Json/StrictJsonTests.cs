using System.Text;
using Inspect.Sheets.Json;
using Inspect.Sheets.Readings;

namespace Inspect.Sheets.Tests.Json;

/// <summary>Strictness beyond RFC 8259 is defined by this project.</summary>
public class StrictJsonTests
{
    [Theory]
    [InlineData("")]
    [InlineData("{")]
    [InlineData("{\"a\":1} x")]
    [InlineData("{\"a\":1}{\"a\":1}")]
    [InlineData("{\"a\":01}")]
    [InlineData("{\"a\":NaN}")]
    [InlineData("{\"a\":1,}")]
    [InlineData("{/* no */}")]
    [InlineData("{'a':1}")]
    public void Read_MalformedText_IsOneFaultAtTheRoot(string text)
    {
        var fault = Assert.Single(Faults(Encoding.UTF8.GetBytes(text)));
        Assert.Equal(StrictJson.Root, fault.Path);
        Assert.StartsWith("This is not well-formed JSON at line 1, byte ", fault.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("[]", "a list")]
    [InlineData("null", "null")]
    [InlineData("\"x\"", "a text")]
    [InlineData("1e999", "a number")]
    public void Read_AnythingButAnObject_IsRefused(string text, string kind) =>
        Assert.Equal(new Fault("$", $"This is {kind}; an object is wanted here."), Assert.Single(Faults(Encoding.UTF8.GetBytes(text))));

    [Fact]
    public void Read_DeepNesting_IsRefused() => Assert.Contains("deeper", Assert.Single(Faults(
        Encoding.UTF8.GetBytes(string.Concat(Enumerable.Repeat("{\"a\":", 5000)) + "1" + new string('}', 5000)))).Message,
        StringComparison.Ordinal);

    [Fact]
    public void Read_ByteOrderMark_IsRefused() =>
        Assert.Contains(
            "byte order mark", Assert.Single(Faults([0xEF, 0xBB, 0xBF, (byte)'{', (byte)'}'])).Message, StringComparison.Ordinal);

    [Fact]
    public void Read_InvalidUtf8_IsRefused() =>
        Assert.Contains("not UTF-8", Assert.Single(Faults([.. "{\"a\":\""u8, 0xC3, 0x28, .. "\"}"u8])).Message, StringComparison.Ordinal);

    [Fact]
    public void Text_HalfACharacter_IsRefusedAtItsPath()
    {
        var faults = new List<Fault>();
        var members = StrictJson.Read("""{"a":"\ud83c","b":["x","\udfb3"],"c\ud83c":1}"""u8.ToArray(), faults)!;
        Assert.Null(members.Text("a"));
        Assert.Null(members.Texts("b", 4));
        members.Close();
        Assert.Equal(["$", "a", "b[1]"], faults.Select(fault => fault.Path));
    }

    [Fact]
    public void Close_UnknownAndDuplicateMembers_AreEachNamed()
    {
        var faults = new List<Fault>();
        var members = StrictJson.Read("""{"a":"x","a":"y","b":{"c":1,"\u0063":2,"d":null}}"""u8.ToArray(), faults)!;
        Assert.Equal("x", members.Text("a"));
        var inner = members.Object("b")!;
        Assert.Equal(1, inner.Whole("c", 0, 9));
        inner.Close();
        members.Close();
        Assert.Equal(["a", "b.c", "b.d"], faults.Select(fault => fault.Path));
    }

    [Theory]
    [InlineData("1e400")]
    [InlineData("1.0")]
    [InlineData("-1")]
    [InlineData("10")]
    [InlineData("99999999999999999999999999999999999999999999999999999999999999999999999999999999999999")]
    [InlineData("\"1\"")]
    [InlineData("null")]
    public void Whole_AnythingButAWholeNumberInRange_IsRefused(string value)
    {
        var faults = new List<Fault>();
        Assert.Null(StrictJson.Read(Encoding.UTF8.GetBytes($"{{\"a\":{value}}}"), faults)!.Whole("a", 0, 9));
        Assert.Equal("a", Assert.Single(faults).Path);
        Assert.True(faults[0].Message.Length < 140);
    }

    [Fact]
    public void Readings_SeveralFaults_AreAllReported()
    {
        var faults = new List<Fault>();
        Assert.Null(StrictJson.Read("""{"a":["8.5 in",8.5,"8,5 in",null,"8.5"]}"""u8.ToArray(), faults)!.Readings("a", Quantity.Length, 9));
        Assert.Equal(["a[1]", "a[2]", "a[3]", "a[4]"], faults.Select(fault => fault.Path));
    }

    [Theory]
    [InlineData("\"a\\nb\"")]
    [InlineData("\"\\u0000\"")]
    [InlineData("\"\"")]
    [InlineData("\"   \"")]
    [InlineData("true")]
    public void Text_EmptyOrWithControls_IsRefused(string value)
    {
        var faults = new List<Fault>();
        Assert.Null(StrictJson.Read(Encoding.UTF8.GetBytes($"{{\"a\":{value}}}"), faults)!.Text("a"));
        Assert.Equal("a", Assert.Single(faults).Path);
    }

    private static List<Fault> Faults(byte[] utf8)
    {
        var faults = new List<Fault>();
        Assert.Null(StrictJson.Read(utf8, faults));
        return faults;
    }
}
