using System.Text;
using System.Text.RegularExpressions;

namespace Inspect.Rules.Tests.Rulesets;

/// <summary>The loader refuses what it does not fully understand, at the place and in the words that help.</summary>
public partial class LoaderTests
{
    private static readonly string[] Speakers =
        [
            "Inspect.Sheets/Json/StrictJson.cs", "Inspect.Sheets/Json/StrictObject.cs", "Inspect.Rules/Rulesets/RulesetLoader.cs",
            "Inspect.Rules/Rulesets/RuleReader.cs", "Inspect.Rules/Rulesets/ConditionReader.cs", "Inspect.Rules/Rulesets/BarReader.cs",
            "Inspect.Rules/Rulesets/Allowance.cs",
        ];

    public static TheoryData<string> Broken => [.. BrokenRuleset.All.Select(one => one.Name)];

    /// <summary>Every sentence in the loader's source.</summary>
    public static TheoryData<string> Sentences => [.. Speakers
        .Select(file => File.ReadAllLines(Path.Combine(Book.Folder, "..", "src", file)))
        .SelectMany(lines => lines.Where(line => !line.TrimStart().StartsWith("//", StringComparison.Ordinal)))
        .SelectMany(line => Literal().Matches(line))
        .Select(match => match.Groups["text"].Value)
        .Where(text => text.Contains(' ', StringComparison.Ordinal) && text.EndsWith('.'))
        .Distinct()];

    [Fact]
    public void Load_TheSoundRuleset_IsAccepted() => Assert.Empty(BrokenRuleset.FaultsOf(Encoding.UTF8.GetBytes(BrokenRuleset.Sound)));

    [Theory]
    [MemberData(nameof(Broken))]
    public void Load_BrokenRuleset_SaysWhatAndWhere(string name)
    {
        var broken = BrokenRuleset.All.Single(one => one.Name == name);

        Assert.NotEqual(BrokenRuleset.Sound, broken.Text);
        Assert.Contains(
            broken.Faults, fault => fault.Path == broken.Path && fault.Message.Contains(broken.Words, StringComparison.Ordinal));
    }

    [Theory]
    [MemberData(nameof(Sentences))]
    public void Load_EverySentenceOfTheLoader_IsSaidOfSomeBrokenRuleset(string sentence)
    {
        var shape = new Regex($"{Shape(sentence)}$", RegexOptions.CultureInvariant | RegexOptions.Singleline);

        Assert.Contains(BrokenRuleset.All.SelectMany(one => one.Faults), fault => shape.IsMatch(fault.Message));
    }

    /// <summary>A pattern for what a source literal can become: its filled places stand for anything.</summary>
    private static string Shape(string literal)
    {
        var shape = new StringBuilder();
        foreach (var part in Parts().Matches(literal).Select(match => match.Value))
        {
            shape.Append(part switch
            {
                "{{" or "}}" => Regex.Escape(part[..1]),
                ['{', ..] => ".+?",
                ['\\', var escaped] => Regex.Escape(escaped.ToString()),
                _ => Regex.Escape(part),
            });
        }

        return shape.ToString();
    }

    [GeneratedRegex("\\$?\"(?<text>(?:\\\\.|\\{\\{|\\{[^{}]*\\}|[^\"\\\\{])*)\"", RegexOptions.CultureInvariant)]
    private static partial Regex Literal();

    [GeneratedRegex(@"\{\{|\}\}|\{[^{}]*\}|\\.|.", RegexOptions.CultureInvariant | RegexOptions.Singleline)]
    private static partial Regex Parts();
}
