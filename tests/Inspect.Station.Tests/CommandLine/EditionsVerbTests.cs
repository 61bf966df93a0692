using Inspect.Station.CommandLine;
using Inspect.Station.Rulesets;

namespace Inspect.Station.Tests.CommandLine;

public sealed class EditionsVerbTests : IDisposable
{
    private static readonly string[] Built = Lines().Lines;

    private readonly string _folder = Directory.CreateTempSubdirectory("editions").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public void Run_BuiltInEditions_AreAllAsPublished()
    {
        var (exit, lines, error) = Lines();

        Assert.Equal(0, exit);
        Assert.Empty(error);
        Assert.Equal(EmbeddedRulesets.Files().Count, lines.Length);
        Assert.All(lines, line => Assert.Matches("  published(, corrected by [a-z-]+/[0-9-]+[.]2)?$", line));
        Assert.Contains(lines, line => line.StartsWith("us-national/2020-08-01 ", StringComparison.Ordinal)
            && line.EndsWith("published, corrected by us-national/2020-08-01.2", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("us-national/2014-05-07", "2014-05-07  2018-07-31")]
    [InlineData("us-national/2020-06-01", "2020-06-01  2020-07-31")]
    [InlineData("us-national/2020-08-01", "2020-08-01  open")]
    [InlineData("international/2020-08-01", "2020-08-01  2025-10-13")]
    [InlineData("netherlands/2019-01-01", "2019-01-01  2020-12-31")]
    [InlineData("canada/2014-05-07", "2014-05-07  2019-07-31")]
    public void Run_Edition_ShowsItsFirstAndLastDay(string id, string days) =>
        Assert.Contains(
            Built, line => line.StartsWith(id + " ", StringComparison.Ordinal) && line.Contains(days, StringComparison.Ordinal));

    [Fact]
    public void Run_FolderWithAnEditionOfAnotherBody_ListsItAsNotPublished()
    {
        Write("coastal-league/2026-09-01", Draft("coastal-league", "2026-09-01"));

        var (exit, lines, _) = Lines("--rulesets", _folder);

        Assert.Equal(0, exit);
        Assert.Contains(lines, line => line.StartsWith("coastal-league/2026-09-01 ", StringComparison.Ordinal) && line.EndsWith(
            "not published", StringComparison.Ordinal));
    }

    [Fact]
    public void Run_FolderWhosePublishedEditionChanged_SaysChangedAndEndsWithOne()
    {
        Write("coastal-league/2026-09-01", Draft("coastal-league", "2026-09-01"));
        File.WriteAllText(Path.Combine(_folder, "published.sha256"), $"{new string('0', 64)}  coastal-league/2026-09-01/ruleset.json\n");

        var (exit, lines, _) = Lines("--rulesets", _folder);

        Assert.Equal(1, exit);
        Assert.Contains(lines, line => line.StartsWith("coastal-league/2026-09-01 ", StringComparison.Ordinal) && line.EndsWith(
            "  changed", StringComparison.Ordinal));
    }

    [Fact]
    public void Run_FolderWhosePublishedEditionIsGone_SaysMissingAndEndsWithOne()
    {
        Write("coastal-league/2026-09-01", Draft("coastal-league", "2026-09-01"));
        File.WriteAllText(Path.Combine(_folder, "published.sha256"), $"{new string('0', 64)}  coastal-league/2025-09-01/ruleset.json\n");

        var (exit, lines, _) = Lines("--rulesets", _folder);

        Assert.Equal(1, exit);
        Assert.Contains(lines, line => line.StartsWith("coastal-league/2025-09-01 ", StringComparison.Ordinal) && line.EndsWith(
            "  missing", StringComparison.Ordinal));
    }

    [Fact]
    public void Run_FolderThatReplacesABuiltInEdition_IsRefused()
    {
        Write("canada/2014-05-07", Draft("canada", "2014-05-07"));

        var (exit, lines, error) = Lines("--rulesets", _folder);

        Assert.Equal(3, exit);
        Assert.Empty(lines);
        Assert.Contains("never replaced", error, StringComparison.Ordinal);
    }

    [Fact]
    public void Run_FolderThatPublishesABuiltInEditionUnderAnotherHash_IsRefused()
    {
        Write("coastal-league/2026-09-01", Draft("coastal-league", "2026-09-01"));
        File.WriteAllText(Path.Combine(_folder, "published.sha256"), $"{new string('0', 64)}  canada/2014-05-07/ruleset.json\n");

        Assert.Contains("never changed", Lines("--rulesets", _folder).Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("coastal-league/2026-09-01", "another-league", "2026-09-01", "the two must agree")]
    [InlineData("coastal-league/2026-09-01", "coastal-league", "2026-09-31", "is not a day")]
    public void Run_FolderWithAFaultyEdition_NamesFilePathAndFault(string id, string authority, string day, string words)
    {
        Write(id, Draft(authority, day));

        var (exit, _, error) = Lines("--rulesets", _folder);

        Assert.Equal(3, exit);
        Assert.Contains(Path.Combine(_folder, id, "ruleset.json") + ": edition: ", error, StringComparison.Ordinal);
        Assert.Contains(words, error, StringComparison.Ordinal);
    }

    [Fact]
    public void Run_FolderWithARevision_IsReadFromItsOwnFolder()
    {
        Write("coastal-league/2026-09-01", Draft("coastal-league", "2026-09-01"));
        Write("coastal-league/2026-09-01.2", Draft(
            "coastal-league", "2026-09-01",
            "\"revision\": 2, \"corrects\": \"coastal-league/2026-09-01\", \"corrections\": [\"A source.\"],"));

        var (exit, lines, error) = Lines("--rulesets", _folder);

        Assert.Empty(error);
        Assert.Equal(0, exit);
        Assert.Contains(lines, line => line.StartsWith("coastal-league/2026-09-01.2 ", StringComparison.Ordinal));
        Assert.Contains(lines, line => line.EndsWith("not published, corrected by coastal-league/2026-09-01.2", StringComparison.Ordinal));
    }

    [Fact]
    public void Run_FolderWithARevisionOfAnEditionThatIsNotThere_IsRefused()
    {
        Write("coastal-league/2026-09-01.2", Draft(
            "coastal-league", "2026-09-01",
            "\"revision\": 2, \"corrects\": \"coastal-league/2026-09-01\", \"corrections\": [\"A source.\"],"));

        Assert.Contains("corrects: \"coastal-league/2026-09-01\" is not "
            + "an edition known here", Lines("--rulesets", _folder).Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Run_FolderFollowingAnUnknownEdition_IsRefused()
    {
        Write("coastal-league/2026-09-01", Draft("coastal-league", "2026-09-01", "\"follows\": \"international/1999-01-01\","));

        Assert.Contains("international/1999-01-01", Lines("--rulesets", _folder).Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Run_FolderWithABrokenListOfHashes_NamesTheLine()
    {
        Write("coastal-league/2026-09-01", Draft("coastal-league", "2026-09-01"));
        File.WriteAllText(Path.Combine(_folder, "published.sha256"), $"{new string('0', 64)} coastal-league/2026-09-01/ruleset.json\n");

        Assert.Contains("published.sha256: line 1: ", Lines("--rulesets", _folder).Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Run_EmptyFolder_IsRefused() =>
        Assert.Contains("There is no ruleset.json", Lines("--rulesets", _folder).Error, StringComparison.Ordinal);

    [Fact]
    public void Run_FolderThatRepeatsBuiltInEditionsByteForByte_AddsNothing()
    {
        foreach (var file in EmbeddedRulesets.Files())
        {
            Directory.CreateDirectory(Path.Combine(_folder, file.Id));
            File.WriteAllBytes(Path.Combine(_folder, file.Id, "ruleset.json"), file.Utf8);
        }

        Assert.Equal(Built, Lines("--rulesets", _folder).Lines);
    }

    private static string Draft(string authority, string day, string more = "") => $$"""
        {
          "authority": "{{authority}}", "edition": "{{day}}", "title": "A league's own rules", {{more}}
          "sources": { "minutes": { "title": "Minutes of the league", "basis": "official" } },
          "rules": [{ "rule": "gross-weight", "kind": "limit", "quantity": "gross", "atMost": "15 lb", "source": "minutes", "pass": "Light enough.", "fail": "Too heavy." }]
        }
        """;

    private void Write(string id, string text)
    {
        Directory.CreateDirectory(Path.Combine(_folder, id));
        File.WriteAllText(Path.Combine(_folder, id, "ruleset.json"), text);
    }

    private static (int Exit, string[] Lines, string Error) Lines(params string[] args)
    {
        var (output, error) = (new StringWriter(), new StringWriter());
        var exit = EditionsVerb.Run(args, TextReader.Null, output, error);
        return (exit, output.ToString().Split('\n', StringSplitOptions.RemoveEmptyEntries), error.ToString());
    }
}
