using Inspect.Station.Record;

namespace Inspect.Station.Tests.Slip;

/// <summary>The code of a slip: Crockford's alphabet, an ISO 7064 check character. What is forgiven in typing
/// is common practice, no source.</summary>
public class SlipCodeTests
{
    private static readonly string[] Drawn = [.. Enumerable.Range(0, 300).Select(_ => SlipCode.Draw().ToString())];

    [Fact]
    public void Alphabet_Is_CrockfordsInOrder()
    {
        // Crockford's own example: 1234 = 1 x 1024 + 6 x 32 + 18 is written 16J.
        Assert.Equal("16J", $"{SlipCode.Alphabet[1]}{SlipCode.Alphabet[6]}{SlipCode.Alphabet[18]}");
        Assert.Equal(1234, (1 * 1024) + (6 * 32) + 18);
        Assert.Equal(32, SlipCode.Alphabet.Distinct().Count());
        Assert.DoesNotContain(SlipCode.Alphabet, letter => "ILOU".Contains(letter));
    }

    [Fact]
    public void Draw_Always_GivesFourteenCharactersOfTheAlphabetThatCheck()
    {
        Assert.All(Drawn, code =>
        {
            Assert.Equal(SlipCode.Length, code.Length);
            Assert.All(code, letter => Assert.Contains(letter, SlipCode.Alphabet));
            Assert.True(SlipCode.TryParse(code, out var read));
            Assert.Equal(code, read.ToString());
        });
        Assert.Equal(Drawn.Length, Drawn.Distinct().Count());
    }

    [Fact]
    public void Draw_ManyTimes_UsesEveryCharacterAboutEquallyOften()
    {
        var counts = SlipCode.Alphabet.ToDictionary(letter => letter, _ => 0);
        const int Codes = 4000;
        for (var i = 0; i < Codes; i++)
        {
            foreach (var letter in SlipCode.Draw().ToString()[..13])
            {
                counts[letter]++;
            }
        }

        // Chi squared with 31 degrees of freedom: 100 is passed by chance once in about 200 million runs (Wilson and Hilferty 1931).
        var expected = Codes * 13 / 32.0;
        Assert.InRange(counts.Values.Sum(count => (count - expected) * (count - expected) / expected), 0, 100);
    }

    [Fact]
    public void TryParse_EverySubstitution_IsRefused()
    {
        foreach (var code in Drawn)
        {
            for (var i = 0; i < code.Length; i++)
            {
                foreach (var wrong in SlipCode.Alphabet.Where(letter => letter != code[i]))
                {
                    Assert.False(SlipCode.TryParse($"{code[..i]}{wrong}{code[(i + 1)..]}", out _));
                }
            }
        }
    }

    [Fact]
    public void TryParse_EverySwapOfDifferentNeighbours_IsRefused()
    {
        foreach (var code in Drawn)
        {
            for (var i = 0; i + 1 < code.Length; i++)
            {
                if (code[i] != code[i + 1])
                {
                    Assert.False(SlipCode.TryParse($"{code[..i]}{code[i + 1]}{code[i]}{code[(i + 2)..]}", out _));
                }
            }
        }
    }

    [Fact]
    public void TryParse_AsPeopleTypeIt_ForgivesCaseSpacesDashesAndLookAlikes()
    {
        var code = Drawn.First(candidate => candidate.Contains('0') && candidate.Contains('1'));
        Assert.True(SlipCode.TryParse(code, out var exact));
        string[] typed =
        [
            exact.Grouped, code.ToLowerInvariant(), $"  {code[..7]} {code[7..]} ",
            code.Replace('0', 'O').Replace('1', 'I'), code.ToLowerInvariant().Replace('0', 'o').Replace('1', 'l'),
        ];
        Assert.All(typed, text =>
        {
            Assert.True(SlipCode.TryParse(text, out var read), text);
            Assert.Equal(exact, read);
        });
    }

    [Theory]
    [InlineData(null)]
    [InlineData("")]
    [InlineData("7K2M")]
    [InlineData("7K2M0419XQ3PAU")]
    [InlineData("7K2M0419XQ3PA\u0662")]
    [InlineData("7K2M_0419_XQ3PA_D")]
    public void TryParse_NoCode_IsRefused(string? typed) => Assert.False(SlipCode.TryParse(typed, out _));

    [Fact]
    public void TryParse_OneCharacterTooMany_IsRefused() => Assert.False(SlipCode.TryParse(Drawn[0] + "0", out _));

    [Fact]
    public void Grouped_Always_PutsTheCheckCharacterAlone()
    {
        Assert.True(SlipCode.TryParse(Drawn[0], out var code));
        Assert.Equal($"{Drawn[0][..4]}-{Drawn[0][4..8]}-{Drawn[0][8..13]}-{Drawn[0][13]}", code.Grouped);
    }

    [Fact]
    public void ToString_OfTheEmptyDefault_IsAMistakeOfTheCaller() =>
        Assert.Throws<InvalidOperationException>(() => default(SlipCode).ToString());
}
