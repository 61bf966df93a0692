using System.Text;
using Inspect.Sheets.Json;

namespace Inspect.Sheets.Tests;

/// <summary>Which characters a line may have: The Unicode Standard 16.0, 23.7 (noncharacters) and 23.1 (control codes); UAX 9, 2.1 to 2.5
/// (embeddings, overrides and isolates).</summary>
public sealed class PlainTextTests
{
    [Theory]
    [InlineData("Zsófia Kőhalmos", true)]
    [InlineData("山田太郎", true)]
    [InlineData("محمد علي", true)]
    [InlineData("left\u200eto right mark", true)]
    [InlineData("😀", true)]
    [InlineData("", true)]
    [InlineData("two\nlines", false)]
    [InlineData("\u0085", false)]
    [InlineData("A\ufffeB", false)]
    [InlineData("A\uffffB", false)]
    [InlineData("\ufdd0", false)]
    [InlineData("\ufdef", false)]
    [InlineData("\U0001FFFE", false)]
    [InlineData("abc\u202edef", false)]
    [InlineData("\u2066abc\u2069", false)]
    public void IsLine_AText_IsWhetherEveryCharacterCanStandInIt(string text, bool isLine) => Assert.Equal(isLine, PlainText.IsLine(text));

    // Not theory data: half a surrogate pair does not come through a runner whole.
    [Fact]
    public void IsLine_HalfASurrogatePair_IsNone()
    {
        Assert.False(PlainText.IsLine("A\ud83d"));
        Assert.False(PlainText.IsLine("\ude00A"));
    }

    [Fact]
    public void Normalized_WhatCannotBe_IsReplacedAndTheRestIsNormalised()
    {
        Assert.Equal("e\u0301\ufffd", PlainText.Normalized("\u00e9\ufffe", NormalizationForm.FormD));
        Assert.Equal("\u00e9\ufffd", PlainText.Normalized("e\u0301\ud83d", NormalizationForm.FormC));
        Assert.Equal("\u00e9😀", PlainText.Normalized("e\u0301😀", NormalizationForm.FormC));
    }
}
