using System.Security.Cryptography;

namespace Inspect.Rules.Tests.Rulesets;

/// <summary>A published edition is never edited: its bytes still have the hash under which it was published.</summary>
public class PublishedBytesTests
{
    private static readonly IReadOnlyList<string> Lines = File.ReadAllLines(Path.Combine(Book.Folder, "published.sha256"));

    [Theory]
    [MemberData(nameof(Book.Editions), MemberType = typeof(Book))]
    public void Hash_OfThePublishedFile_IsTheOneItWasPublishedUnder(string edition)
    {
        var hash = Convert.ToHexStringLower(SHA256.HashData(File.ReadAllBytes(Book.FileOf(edition, "ruleset.json"))));

        Assert.Contains($"{hash}  {edition}/ruleset.json", Lines);
        Assert.Equal(hash, Book.Find(edition).Sha256);
    }

    [Fact]
    public void Lines_All_NameAnEditionThatIsThere() =>
        Assert.Equal(Book.Ids.Select(id => $"{id}/ruleset.json").Order(StringComparer.Ordinal), Lines.Select(line => line.Split("  ")[1]));

    [Fact]
    public void Attributes_Rulesets_AreNeverConverted() =>
        Assert.Contains("rulesets/** -text", File.ReadAllLines(Path.Combine(Book.Folder, "..", ".gitattributes")));
}
