using System.Text.RegularExpressions;
using Inspect.Station.Tests.Ground;

namespace Inspect.Station.Tests;

/// <summary>Code that fits beside other code: no line of C# is wider than 140 columns, and no comment is
/// broken into lines of one word.</summary>
public sealed partial class CodeLayoutTests
{
    private const int Widest = 140;

    /// <summary>A text that stands on a line by itself may be wider: a sentence or a row of data is
    /// found again when it stays whole.</summary>
    [Fact]
    public void Lines_OfCSharp_AreAtMost140Wide() =>
        Assert.Empty(Files().SelectMany(file => Code(file).Where(line => line.Text.Length > Widest && !TextAlone().IsMatch(line.Text))
            .Select(line => $"{file}:{line.Number}")));

    [Fact]
    public void Comments_OfMoreThanOneLine_AreNotBrokenIntoWords() =>
        Assert.Empty(Files().SelectMany(file => Broken(File.ReadAllLines(file)).Select(number => $"{file}:{number}")));

    [Fact]
    public void Broken_OneWordBetweenTwoLines_IsSeen() => Assert.Equal(
        [2],
        Broken(["/// " + new string('x', Widest - 20) + " (an answered", "/// record", "/// is on the disk).", "/// <param>", "// x"]));

    // Without what stands inside raw texts of several lines.
    private static IEnumerable<(int Number, string Text)> Code(string file)
    {
        var isInside = false;
        foreach (var (index, line) in File.ReadLines(file).Index())
        {
            if (!isInside)
            {
                yield return (index + 1, line);
            }

            isInside ^= RawQuotes().Count(line) % 2 == 1;
        }
    }

    private static IEnumerable<int> Broken(string[] lines)
    {
        for (var i = 1; i + 1 < lines.Length; i++)
        {
            if (Comment(lines[i - 1]) is { Length: > 90 } && Comment(lines[i + 1]) is { } next && next is not ['<', ..]
                && Comment(lines[i]) is { Length: > 0 and <= 22 } word && word is not ['<', ..] && !EndsSomething().IsMatch(word))
            {
                yield return i + 1;
            }
        }
    }

    private static string? Comment(string line) =>
        CommentLine().Match(line) is { Success: true } comment ? comment.Groups["text"].Value.Trim() : null;

    private static IEnumerable<string> Files() => new[] { "src", "tests" }
        .SelectMany(folder => Directory.EnumerateFiles(Path.Combine(Repository.Root, folder), "*.cs", SearchOption.AllDirectories))
        .Where(file => !file.Contains("/bin/", StringComparison.Ordinal) && !file.Contains("/obj/", StringComparison.Ordinal));

    [GeneratedRegex("""^\s*(?:(?:yield )?return |[?:+] |\?\? |\[\w+\()?\$*@?(?:"(?:(?!", ).)*"|(?<=\$)".*"|\"{3}.*\"{3})[\])};, +]*$""")]
    private static partial Regex TextAlone();

    [GeneratedRegex("\"{3,}")]
    private static partial Regex RawQuotes();

    [GeneratedRegex(@"^\s*///?(?<text> .*)?$")]
    private static partial Regex CommentLine();

    [GeneratedRegex("[.:;>]$")]
    private static partial Regex EndsSomething();
}
