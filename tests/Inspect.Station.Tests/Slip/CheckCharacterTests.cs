using Inspect.Station.Record;

namespace Inspect.Station.Tests.Slip;

/// <summary>The check character of ISO 7064, MOD 37,36: every single substitution is found.</summary>
public class CheckCharacterTests
{
    [Fact]
    public void For_PublishedVector_GivesItsCharacter()
    {
        // ISO 7064 MOD 37,36 as the Global Release Identifier standard works it out.
        Assert.Equal('M', CheckCharacter.For("A12425GABC1234002"));
        Assert.True(CheckCharacter.Completes("A12425GABC1234002M"));
    }

    [Fact]
    public void Completes_EverySubstitutionInThePublishedVector_IsFalse()
    {
        const string Letters = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ";
        var whole = "A12425GABC1234002M".ToCharArray();
        for (var i = 0; i < whole.Length; i++)
        {
            var right = whole[i];
            foreach (var wrong in Letters.Where(letter => letter != right))
            {
                whole[i] = wrong;
                Assert.False(CheckCharacter.Completes(whole), new string(whole));
            }

            whole[i] = right;
        }
    }

    [Theory]
    [InlineData("")]
    [InlineData("M")]
    public void Completes_NothingToCheck_IsFalse(string text) => Assert.False(CheckCharacter.Completes(text));

    [Fact]
    public void For_SmallLetter_IsAMistakeOfTheCaller() => Assert.Throws<ArgumentException>(() => CheckCharacter.For("a1"));
}
