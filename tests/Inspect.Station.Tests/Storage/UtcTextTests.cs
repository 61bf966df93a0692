using Inspect.Station.Storage;

namespace Inspect.Station.Tests.Storage;

public sealed class UtcTextTests
{
    [Fact]
    public void Of_InstantWithAnOffset_IsWrittenInUtcAndReadBack()
    {
        var instant = new DateTimeOffset(2027, 3, 14, 23, 30, 15, 7, TimeSpan.FromHours(-5));

        Assert.Equal("2027-03-15T04:30:15.007Z", UtcText.Of(instant));
        Assert.Equal(instant, UtcText.Parse("2027-03-15T04:30:15.007Z"));
        Assert.Equal(TimeSpan.Zero, UtcText.Parse("2027-03-15T04:30:15.007Z").Offset);
    }

    [Theory]
    [InlineData("2027-03-15")]
    [InlineData("2027-03-15T04:30:15Z")]
    [InlineData("2027-03-15T04:30:15.007+00:00")]
    public void Parse_AnotherSpelling_Throws(string text) => Assert.Throws<FormatException>(() => UtcText.Parse(text));
}
