using System.Text;
using Inspect.Ledger;
using Inspect.Station.CommandLine;

namespace Inspect.Station.Tests.CommandLine;

public sealed class JsonSequenceTests
{
    [Theory]
    [InlineData("{}\n{}", 3)]
    [InlineData("{}\n\n {}\n", 0)]
    [InlineData("{\n{}", 0)]
    [InlineData("{\n}\r\n \n{", 7)]
    [InlineData("{}\n{}\nhello\n{}", 3)]
    [InlineData("{}", 0)]
    [InlineData("", 0)]
    public void AfterLast_IsWhereAValueSurelyBegins(string text, int expected) =>
        Assert.Equal(expected, JsonSequence.AfterLast(Encoding.UTF8.GetBytes(text)));

    /// <summary>Cut where a value surely begins, a text has the values of the whole, whatever is in it.</summary>
    [Fact]
    public void Of_TextCutInTwo_HasTheValuesOfTheWhole()
    {
        var random = new Random(20270314);
        string[] parts =
        [
            "{", "}", "[", "]", "\n", "\n", "\n{", "}\n{", "{}", "{\"a\":1}", ",", "\"", " ", "  {}", "\r\n", "x",
            "{\n  \"a\": [\n    {}\n  ]\n}\n",
        ];
        var cuts = 0;
        for (var i = 0; i < 20_000; i++)
        {
            var drawn = Enumerable.Range(0, random.Next(12)).Select(_ => parts[random.Next(parts.Length)]);
            var text = Encoding.UTF8.GetBytes(string.Concat(drawn));
            var cut = JsonSequence.AfterLast(text);
            cuts += cut > 0 ? 1 : 0;

            Assert.Equal(Values(text), [.. Values(text.AsMemory(0, cut)), .. Values(text.AsMemory(cut))]);
        }

        Assert.InRange(cuts, 2_000, 18_000);
    }

    [Fact]
    public void Of_SheetsPrintedOverLines_AreWholeInTheirPieces()
    {
        var sheet = "{\n  \"weights\": {\n    \"gross\": \"15 lb\"\n  },\n  \"holes\": [\n    {\n    }\n  ]\n}\n";
        var text = string.Concat(Enumerable.Repeat(sheet, 5_000));

        var pieces = WholeLines.Of(new MemoryStream(Encoding.UTF8.GetBytes(text)), JsonSequence.AfterLast).ToList();

        Assert.InRange(pieces.Count, 5, 20);
        Assert.Equal(Enumerable.Repeat(sheet.TrimEnd(), 5_000), pieces.SelectMany(piece => Values(piece.Bytes)));
    }

    private static List<string> Values(ReadOnlyMemory<byte> text) =>
        JsonSequence.Of(text).Select(value => Encoding.UTF8.GetString(value.Span).TrimEnd()).ToList();
}
