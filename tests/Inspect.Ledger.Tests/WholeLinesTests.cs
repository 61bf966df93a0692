using System.Text;

namespace Inspect.Ledger.Tests;

/// <summary>Pieces of a stream. The behaviour is defined by this project.</summary>
public sealed class WholeLinesTests
{
    [Theory]
    [InlineData("", 0)]
    [InlineData("\n", 1)]
    [InlineData("a", 1)]
    [InlineData("a\n\nb\n", 3)]
    [InlineData("a\n\nb", 3)]
    public void Of_ShortText_IsOnePieceOfWholeLines(string text, int lines)
    {
        var pieces = WholeLines.Of(new MemoryStream(Encoding.UTF8.GetBytes(text))).ToList();

        Assert.Equal(text, string.Concat(pieces.Select(piece => Encoding.UTF8.GetString(piece.Bytes.Span))));
        Assert.Equal(lines, pieces.Sum(piece => RegisterLine.In(piece).Count));
    }

    [Fact]
    public void Of_LongText_CutsOnlyBehindNewlinesAndCountsThem()
    {
        var random = new Random(20270314);
        var text = string.Concat(Enumerable.Range(1, 3_000)
            .Select(number => $"{number}{new string('x', random.Next(number % 100 == 0 ? 200_000 : 200))}\n"));

        var pieces = WholeLines.Of(new Trickle(Encoding.UTF8.GetBytes(text), 50_000)).ToList();

        Assert.Equal(text, string.Concat(pieces.Select(piece => Encoding.UTF8.GetString(piece.Bytes.Span))));
        Assert.InRange(pieces.Count, 20, 200);
        Assert.All(pieces, piece => Assert.Equal(piece.First, long.Parse(
            Encoding.UTF8.GetString(piece.Bytes.Span).Split('x', '\n')[0], System.Globalization.CultureInfo.InvariantCulture)));
        Assert.All(pieces, piece => Assert.Equal((byte)'\n', piece.Bytes.Span[^1]));
    }

    [Theory]
    [InlineData(0, false)]
    [InlineData(1, true)]
    public void Of_LongestLine_IsReadAndALongerOneIsNot(int more, bool isEndless)
    {
        var line = new byte[WholeLines.Longest + more + 1];
        line[^1] = (byte)'\n';

        var pieces = WholeLines.Of(new MemoryStream([.. "{}\n"u8, .. line, .. "{}\n"u8])).ToList();

        Assert.Equal(isEndless, pieces.Any(piece => piece.IsEndless));
        Assert.Equal(isEndless ? [1L, 2L] : [1L, 2L, 3L], pieces.SelectMany(RegisterLine.In).Select(read => read.Number));
    }
}
