using System.Text;
using Inspect.Station.Access;

namespace Inspect.Station.Tests.Access;

public class PseudonymTests
{
    [Fact]
    public void Of_PublishedTestCase_IsTheHmac()
    {
        // RFC 4231, section 4.3, test case 2.
        var hash = Pseudonym.Of(Encoding.ASCII.GetBytes("Jefe"), "what do ya want for nothing?");

        Assert.Equal("5bdcc146bf60754e6a042426089575c75a003f089d2739839dec58b964ec3843", hash);
    }

    [Fact]
    public void Of_SameNameSpeltWithCombiningMarks_IsTheSame()
    {
        var salt = Pseudonym.NewSalt();

        Assert.Equal(Pseudonym.Of(salt, "Ren\u00e9e"), Pseudonym.Of(salt, "Rene\u0301e"));
    }

    [Fact]
    public void Of_OtherSalt_IsAnother() =>
        Assert.NotEqual(Pseudonym.Of(Pseudonym.NewSalt(), "Mirembe"), Pseudonym.Of(Pseudonym.NewSalt(), "Mirembe"));
}
