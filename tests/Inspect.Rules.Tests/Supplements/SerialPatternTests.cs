using Inspect.Rules.Rulesets;

namespace Inspect.Rules.Tests.Supplements;

/// <summary>The shape of barred serials is defined by this project.</summary>
public class SerialPatternTests
{
    [Theory]
    [InlineData("6*", "61234", "6")]
    [InlineData("6*", "6", "6")]
    [InlineData("6*", "16", null)]
    [InlineData("7k#*", "7K2M0419", "7K2")]
    [InlineData("7k#*", "7KAM0419", null)]
    [InlineData("?7##", "A 712", "A712")]
    [InlineData("?7##", "A7123", null)]
    [InlineData("?7##", "A71", null)]
    [InlineData("AB-#", "ab-5", "ab-5")]
    [InlineData("7#*", "7\u0664", null)]
    public void MatchIn_Serial_GivesTheCharactersBeforeTheRest(string pattern, string serial, string? matched) =>
        Assert.Equal(matched, SerialPattern.Of(pattern)!.MatchIn(serial));

    [Theory]
    [InlineData("*")]
    [InlineData("??*")]
    [InlineData("6*7")]
    [InlineData("6**")]
    [InlineData("[67]*")]
    [InlineData("")]
    public void Of_WhatIsNoPattern_IsNull(string text) => Assert.Null(SerialPattern.Of(text));

    [Theory]
    [InlineData("Möwenwerk", "MÖWENWERK", true)]
    [InlineData("Möwenwerk", "mowenwerk", true)]
    [InlineData("Tide Runner", "  tide\t runner ", true)]
    [InlineData("Tide Runner", "TideRunner", false)]
    [InlineData("Tide Runner", "Tide Runner 2", false)]
    public void Is_NameOnABall_IsComparedAsPeopleReadIt(string name, string onBall, bool same) =>
        Assert.Equal(same, new BallName(name).Is(onBall));
}
