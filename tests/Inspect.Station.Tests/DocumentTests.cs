using System.Text;
using System.Text.RegularExpressions;
using Inspect.Sheets;
using Inspect.Station.Tests.Ground;

namespace Inspect.Station.Tests;

/// <summary>README.md and DEVELOPERS.md name what is there. The behaviour is defined by this project.</summary>
public sealed partial class DocumentTests
{
    [Fact]
    public void Map_HasARowForEachFolderOfTheStation()
    {
        var mapped = Row().Matches(Read("DEVELOPERS.md")).Select(row => row.Groups["folder"].Value);
        var folders = Directory.GetDirectories(Path.Combine(Repository.Root, "src", "Inspect.Station"))
            .Select(folder => Path.GetFileName(folder));

        Assert.Equal(folders.Except(["bin", "obj"]).Order(StringComparer.Ordinal), mapped.Order(StringComparer.Ordinal));
    }

    [Theory]
    [InlineData("README.md")]
    [InlineData("DEVELOPERS.md")]
    [InlineData("rulesets/README.md")]
    [InlineData("deploy/README.md")]
    [InlineData("tests/README.md")]
    public void Links_LeadToFilesThatAreThere(string document)
    {
        var folder = Path.GetDirectoryName(Path.Combine(Repository.Root, document))!;
        var links = Link().Matches(Read(document)).Select(link => link.Groups["path"].Value);

        Assert.All(links, link => Assert.True(File.Exists(Path.Combine(folder, link)), $"{document} leads to {link}, which is not there."));
    }

    [Fact]
    public void Pictures_OfTheReadme_AreThereAndDescribed()
    {
        var pictures = Picture().Matches(Read("README.md"));

        Assert.InRange(pictures.Count, 2, 3);
        Assert.All(pictures, picture => Assert.True(
            picture.Groups["words"].Length > 20 && File.Exists(Path.Combine(Repository.Root, picture.Groups["path"].Value)),
            $"{picture.Value} needs words for those who do not see it, and a file."));
    }

    /// <summary>What stands in code marks as a member of a type, or as a file, is there.</summary>
    [Theory]
    [InlineData("DEVELOPERS.md")]
    [InlineData("tests/README.md")]
    public void Names_InCodeMarks_AreThoseOfTheCode(string document)
    {
        var files = new[] { "src", "tests" }.SelectMany(
            folder => Directory.EnumerateFiles(Path.Combine(Repository.Root, folder), "*.*", SearchOption.AllDirectories))
            .Where(file => !file.Contains("/bin/", StringComparison.Ordinal) && !file.Contains("/obj/", StringComparison.Ordinal)).ToList();

        Assert.All(FileName().Matches(Read(document)), name => Assert.Contains(
            files, file => file.EndsWith("/" + name.Groups["name"].Value, StringComparison.Ordinal)));
        var code = files.Where(file => file.EndsWith(".cs", StringComparison.Ordinal)).Select(File.ReadAllText).ToList();
        Assert.All(Member().Matches(Read(document)), name => Assert.Contains(
            code, text => Regex.IsMatch(text, $@"\b(class|struct|enum|record) {name.Groups["type"].Value}\b") && text.Contains(
                name.Groups["member"].Value, StringComparison.Ordinal)));
    }

    [Fact]
    public void Sheet_OfTheReadme_IsReadAndDescribed()
    {
        var sheet = Sheet().Match(Read("README.md")).Groups["sheet"].Value;

        Assert.NotNull(SheetReader.Read(Encoding.UTF8.GetBytes(sheet), []));
        Assert.Null(ApiDescription.FaultOf("Sheet", sheet));
    }

    private static string Read(string document) => File.ReadAllText(Path.Combine(Repository.Root, document));

    [GeneratedRegex(@"echo '(?<sheet>\{[^']*\})'")]
    private static partial Regex Sheet();

    [GeneratedRegex(@"^\| `(?<folder>\w+)/` \|", RegexOptions.Multiline)]
    private static partial Regex Row();

    [GeneratedRegex(@"`(?<name>(?:\w+/)*\w+\.(?:cs|razor|js|css))`")]
    private static partial Regex FileName();

    [GeneratedRegex(@"`(?!Inspect\.)(?<type>[A-Z]\w+)\.(?<member>[A-Z]\w+)[`(]")]
    private static partial Regex Member();

    [GeneratedRegex(@"!\[(?<words>[^\]]*)\]\((?<path>[^)]+)\)")]
    private static partial Regex Picture();

    [GeneratedRegex(@"\]\((?<path>[^)#:]+)\)")]
    private static partial Regex Link();
}
