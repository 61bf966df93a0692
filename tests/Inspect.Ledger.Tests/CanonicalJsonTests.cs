using System.Text;
using System.Text.Json.Nodes;

namespace Inspect.Ledger.Tests;

/// <summary>Canonical JSON against the samples of RFC 8785 and its published test data.</summary>
public sealed class CanonicalJsonTests
{
    [Fact]
    public void Write_StringSampleOfRfc8785_GivesItsBytes()
    {
        // RFC 8785 section 3.2.2, member "string" of the sample; its bytes stand in section 3.2.4.
        var value = JsonNode.Parse("""{"string":"\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/"}""")!;

        var written = CanonicalJson.Write(value);

        Assert.Equal(
            "7b22737472696e67223a22e282ac245c75303030665c6e412742" + "5c225c5c5c5c5c222f227d",
            Convert.ToHexStringLower(written));
    }

    [Fact]
    public void Write_SortingSampleOfRfc8785_OrdersByUtf16CodeUnits()
    {
        // RFC 8785 section 3.2.3: the pair D83D DE00 sorts before FB33 although its code point is the larger.
        var value = JsonNode.Parse(
            """
            {"\u20ac":"Euro Sign","\r":"Carriage Return","\ufb33":"Hebrew Letter Dalet With Dagesh","1":"One",
             "\ud83d\ude00":"Emoji: Grinning Face","\u0080":"Control","\u00f6":"Latin Small Letter O With Diaeresis"}
            """)!;

        var written = JsonNode.Parse(CanonicalJson.Write(value))!.AsObject();

        Assert.Equal(
            [
                "Carriage Return", "One", "Control", "Latin Small Letter O With Diaeresis", "Euro Sign", "Emoji: Grinning Face",
                "Hebrew Letter Dalet With Dagesh",
            ],
            written.Select(member => member.Value!.GetValue<string>()));
    }

    [Theory]
    [InlineData('\b', "\\b")]
    [InlineData('\t', "\\t")]
    [InlineData('\n', "\\n")]
    [InlineData('\f', "\\f")]
    [InlineData('\r', "\\r")]
    [InlineData('"', "\\\"")]
    [InlineData('\\', "\\\\")]
    [InlineData('\u0000', "\\u0000")]
    [InlineData('\u001f', "\\u001f")]
    [InlineData('\u007f', "\u007f")]
    [InlineData('\u2028', "\u2028")]
    [InlineData('/', "/")]
    [InlineData('<', "<")]
    public void Write_Character_IsEscapedAsRfc8785Section3222Says(char character, string expected)
    {
        var written = CanonicalJson.Write(JsonValue.Create($"a{character}b"));

        Assert.Equal($"\"a{expected}b\"", Encoding.UTF8.GetString(written));
    }

    [Theory]
    [InlineData("0")]
    [InlineData("-1")]
    [InlineData("9007199254740991")]
    [InlineData("-9007199254740991")]
    [InlineData("true")]
    [InlineData("false")]
    [InlineData("\"\"")]
    [InlineData("[]")]
    [InlineData("{}")]
    [InlineData("""{"a":[1,{"b":"ö"}],"b":false}""")]
    public void IsCanonical_OneSpelling_IsAccepted(string text) => Assert.True(CanonicalJson.IsCanonical(Encoding.UTF8.GetBytes(text)));

    [Theory]
    [InlineData("null")]
    [InlineData("{\"a\":null}")]
    [InlineData("1.0")]
    [InlineData("1.5")]
    [InlineData("1e3")]
    [InlineData("-0")]
    [InlineData("01")]
    [InlineData("9007199254740992")]
    [InlineData("-9007199254740992")]
    [InlineData("99999999999999999999")]
    [InlineData(" {}")]
    [InlineData("{}\n")]
    [InlineData("{ }")]
    [InlineData("[1, 2]")]
    [InlineData("{\"b\":1,\"a\":2}")]
    [InlineData("{\"a\":1,\"a\":1}")]
    [InlineData("\"\\u0041\"")]
    [InlineData("\"\\/\"")]
    [InlineData("\"\\u001F\"")]
    [InlineData("\"\\ud800\"")]
    [InlineData("{\"\\ud800\":1}")]
    [InlineData("{\"a\":1,}")]
    [InlineData("[1]//")]
    [InlineData("")]
    [InlineData("{")]
    public void IsCanonical_AnotherSpelling_IsRefused(string text) => Assert.False(CanonicalJson.IsCanonical(Encoding.UTF8.GetBytes(text)));

    [Fact]
    public void IsCanonical_BytesThatAreNoUtf8_AreRefused()
    {
        Assert.False(CanonicalJson.IsCanonical([.. "\""u8, 0xff, .. "\""u8]));
        Assert.False(CanonicalJson.IsCanonical([0xef, 0xbb, 0xbf, .. "{}"u8]));
    }

    [Theory]
    [InlineData(1.5)]
    [InlineData(1e300)]
    public void Write_NumberThatIsNoInteger_Throws(double number)
    {
        var error = Assert.Throws<ArgumentException>(() => CanonicalJson.Write(new JsonObject { ["weight"] = number }));

        Assert.Contains("write it as text", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Write_NullMember_Throws() =>
        Assert.Throws<ArgumentException>(() => CanonicalJson.Write(new JsonObject { ["ball"] = null }));

    [Fact]
    public void Write_HalfSurrogatePair_Throws() =>
        Assert.ThrowsAny<ArgumentException>(() => CanonicalJson.Write(JsonValue.Create("\ud800")));

    [Fact]
    public void Write_Integers_OfEveryWidthAreWrittenAlike() =>
        Assert.Equal("[7,7,7]", Encoding.UTF8.GetString(CanonicalJson.Write(new JsonArray(7, 7L, (short)7))));

    /// <summary>Reading what is canonical against writing it: two ways that must agree, over values and over their damaged bytes.</summary>
    [Fact]
    public void IsCanonical_DrawnBytes_AreAcceptedOnlyIfWrittenAnewTheyAreTheSame()
    {
        var random = new Random(8785);
        var accepted = 0;
        for (var i = 0; i < 20_000; i++)
        {
            var bytes = Encoding.UTF8.GetBytes(Drawn(random, 4));
            for (var changes = random.Next(3); changes > 0 && bytes.Length > 0; changes--)
            {
                bytes[random.Next(bytes.Length)] = (byte)"{}[]\",:\\ \t0-1eu/\u007f\u0001"[random.Next(18)];
            }

            var same = IsTheSameWrittenAnew(bytes);
            Assert.True(same == CanonicalJson.IsCanonical(bytes), Encoding.UTF8.GetString(bytes));
            accepted += same ? 1 : 0;
        }

        Assert.InRange(accepted, 4_000, 16_000);
    }

    private static bool IsTheSameWrittenAnew(byte[] bytes)
    {
        try
        {
            return JsonNode.Parse(bytes, documentOptions: new() { AllowDuplicateProperties = false }) is { } value
                && bytes.AsSpan().SequenceEqual(CanonicalJson.Write(value));
        }
        catch (Exception refused) when (refused is System.Text.Json.JsonException or ArgumentException or InvalidOperationException)
        {
            return false;
        }
    }

    private static string Drawn(Random random, int deepest) => random.Next(deepest > 0 ? 7 : 4) switch
    {
        0 => random.Next(4) == 0 ? "null" : random.Next(2) == 0 ? "true" : "false",
        1 => (random.NextInt64(1L << 54) >> random.Next(54)).ToString(System.Globalization.CultureInfo.InvariantCulture),
        2 or 3 => DrawnText(random),
        4 => $"[{string.Join(',', Enumerable.Range(0, random.Next(4)).Select(_ => Drawn(random, deepest - 1)))}]",
        _ => $"{{{string.Join(',', DrawnNames(random).Select(name => $"{name}:{Drawn(random, deepest - 1)}"))}}}",
    };

    private static IEnumerable<string> DrawnNames(Random random)
    {
        var names = Enumerable.Range(0, random.Next(4)).Select(_ => DrawnText(random)).ToList();
        return random.Next(4) == 0
            ? names
            : names.Distinct().OrderBy(name => JsonNode.Parse(name)!.GetValue<string>(), StringComparer.Ordinal);
    }

    private static string DrawnText(Random random)
    {
        string[] parts = ["a", "b", "z", "\\n", "\\\"", "\\u0001", "ö", "\uFB33", "\U0001F600", "\u20AC", "\u007f"];
        return $"\"{string.Concat(Enumerable.Range(0, random.Next(3)).Select(_ => parts[random.Next(parts.Length)]))}\"";
    }
}
