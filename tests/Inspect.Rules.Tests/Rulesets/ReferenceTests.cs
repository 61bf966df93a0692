using Inspect.Rules.Rulesets;

namespace Inspect.Rules.Tests.Rulesets;

/// <summary>Every figure of every edition says where it was read and how sure that is.</summary>
public class ReferenceTests
{
    [Theory]
    [MemberData(nameof(Book.Editions), MemberType = typeof(Book))]
    public void Rules_All_NameADocument(string edition)
    {
        var titles = Book.Find(edition).Sources.Values.Select(source => source.Title).ToHashSet();

        Assert.All(References(edition), reference => Assert.Contains(reference.Title, titles));
    }

    [Theory]
    [MemberData(nameof(Book.Editions), MemberType = typeof(Book))]
    public void Sources_File_NamesEveryDocumentOfTheEdition(string edition)
    {
        var text = File.ReadAllText(Book.FileOf(edition, "SOURCES.md"));

        Assert.All(Book.Find(edition).Sources.Values, source => Assert.Contains(source.Title, text, StringComparison.Ordinal));
    }

    private static IEnumerable<Reference> References(string edition) => Book.Find(edition).Rules.SelectMany(rule => rule switch
    {
        Rule.Limited limited => limited.Cases.Select(one => one.Reference),
        Rule.Counted counted => counted.Cases.Select(one => one.Reference),
        _ => [rule.Reference],
    });
}
