using Inspect.Station.Web;

namespace Inspect.Station.Tests.Web;

public sealed class PageOfTests
{
    [Theory]
    [InlineData(0, null, 1, 0, 1)]
    [InlineData(100, "", 1, 100, 1)]
    [InlineData(101, null, 1, 100, 2)]
    [InlineData(101, "2", 2, 1, 2)]
    public void Of_APageThatIsThere_HasItsItems(int length, string? asked, int number, int items, int pages)
    {
        var page = PageOf.Of([.. Enumerable.Range(0, length)], asked)!;

        Assert.Equal((number, items, pages), (page.Number, page.Items.Count, page.Pages));
        Assert.Equal(Enumerable.Range((number - 1) * 100, items), page.Items);
    }

    [Theory]
    [InlineData("0")]
    [InlineData("3")]
    [InlineData("-1")]
    [InlineData("two")]
    [InlineData("99999999999")]
    public void Of_APageThatIsNotThere_IsNone(string asked) => Assert.Null(PageOf.Of([.. Enumerable.Range(0, 101)], asked));
}
