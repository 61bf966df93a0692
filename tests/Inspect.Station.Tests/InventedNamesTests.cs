using System.Security.Cryptography;
using System.Text;
using System.Text.RegularExpressions;
using Inspect.Station.Tests.Ground;

namespace Inspect.Station.Tests;

/// <summary>Balls in tests, demo and rulesets are invented: no maker or model of theirs is one that an official knows.</summary>
/// <remarks>The known words (from memory) stand here as the first ten digits of their SHA-256, so that
/// the repository lists no brands.</remarks>
public sealed partial class InventedNamesTests
{
    private static readonly HashSet<string> KnownWords = [.. """
        0279e85e72 064a5d42d2 0854ad7486 0acbf84757 0c08c0d223 0c5cde529a 0c60185839 0faa444764 123fd666aa 12dbd894ca 13984a4e7e
        16483ee69d 1938caca17 1a80b0691b 1b99395b2d 1c567a2ff1 1e103fdeb1 21d826dcc5 227c42310d 22ba2d6f28 23b404e685 25d3e422e9
        2655399acf 277ab9e03c 27ec4ab2cc 281a37477f 284590cf03 298bab1136 2ab022d820 2b8644e24f 2bb8bf7259 2d5d6ea604 2d998cb471
        2daf0e6c79 2fe840e132 337707b8f4 35159d31ae 38868dc905 39d02b4293 3c7f75ed78 3ca746e495 3e2819ddf3 3ef81cb18b 420d7b94c9
        42109aaebd 428904e929 43ceba0faa 446be30866 45132c951b 469dfc0b18 470664bd59 48bf9b4f14 48eb632fe1 49460b7bbb 4aa0091536
        4d22004ddf 4ebff22ba0 51e4e65003 53008a4021 5311fde018 56f8eb1dea 5743abdddd 57c0e9f3b0 5c4776722d 5e3d4aff3b 5e50f5392f
        60280e1293 677b34a9a5 67b8ea9ae3 68da4167b0 6d4b9ee620 6e2c990455 6e48a35e9a 704b7acbac 7062520c5a 712985cc11 71b41d6dd4
        7246d2b2b9 72554af938 747355bdc2 7cadc15d60 7cd58cdd64 823e291431 827a02fd76 8368ec5f1a 885f94e35a 8a4372f10d 8ceb7bee1a
        8d988fa370 8fb7cf7a46 8fd9ff9ec9 909c272051 91e235e3f8 925e2b1a37 92e4accd3d 95175e23c3 96d47181ca 96eebba49d 985f077cd1
        9a105749cf 9a13a9d1ca 9e1adfdb3b a04e52d895 a1a50510f8 a27f98238d a4cca8463b a4ce996f70 a4e63bcacf aabf9db5d9 add0320bf9
        ade6b43b71 b01928cd61 b10198f778 b45a53c500 ba88005eb3 bc9d763e1a bd2e37ad80 beaafa510b c12ea8107a c224cc422d c5f5aae976
        c7cc494758 c8a44b10e1 c9d22bd28f cc7a8a1303 cd99760aa9 cdcb99c240 d3b57762d4 d4cc56aa47 d6806158f7 d7439bee24 d7ac1d220e
        d83a900c42 da5e11efa3 e0787d272a e181b3dfcb e2efdd7db9 e4c3c15369 e59389d9c8 e614f65efb e7462a4f52 e841114084 e9a3578111
        f0acbdf2db f12210d53d f21adfd199 f446f09d80 f44a052a0e f5cfcb570b f83cff8066 f8a8f21a35 fb2b9bb163 fb725b859f fc91368f20
        fe8461233d ff1b4a2756
        """.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)];

    // These mean nothing but a maker, wherever they stand.
    private static readonly HashSet<string> MakersOnly = [.. """
        1dc72ec46c 3015636f55 30fdf2872a 360fe1fe96 46302b6134 4b35dff56a aa3e4614fb b5d2bb9be7 c5585a3a5b c77b5b4b54 d9aac887d3
        dcf7b27df9 edef2e046c
        """.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)];

    private static readonly string[] Texts = [".cs", ".razor", ".js", ".json", ".md", ".csv", ".sql"];

    [Fact]
    public void MakersAndModels_OfTestsDemoAndRulesets_AreNoneThatOfficialsKnow()
    {
        var named = Files()
            .SelectMany(file => Named().Matches(File.ReadAllText(file)).Select(name => (file, Name: name.Groups["name"].Value))).ToList();

        Assert.True(named.Count > 40, $"Only {named.Count} names were found.");
        Assert.DoesNotContain(
            named, name => Words(name.Name).Any(word => KnownWords.Contains(Hash(word)) || MakersOnly.Contains(Hash(word))));
    }

    [Fact]
    public void Words_AnywhereInTheRepository_AreNoMakers()
    {
        var words = Files()
            .SelectMany(file => Words(File.ReadAllText(file)).Select(word => (Word: word, file))).DistinctBy(each => each.Word).ToList();

        Assert.DoesNotContain(words, each => MakersOnly.Contains(Hash(each.Word)));
    }

    private static IEnumerable<string> Files() => new[] { "src", "tests", "rulesets", "deploy", "README.md" }
        .Select(name => Path.Combine(Repository.Root, name))
        .SelectMany(path => File.Exists(path) ? [path] : Directory.EnumerateFiles(path, "*.*", SearchOption.AllDirectories))
        .Where(file => Texts.Contains(Path.GetExtension(file)) && !file.Contains("/bin/", StringComparison.Ordinal) && !file.Contains(
            "/obj/", StringComparison.Ordinal));

    private static IEnumerable<string> Words(string text) =>
        Word().Matches(text.Replace("-", "", StringComparison.Ordinal)).Select(word => word.Value.ToLowerInvariant());

    private static string Hash(string word) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(word)))[..10];

    /// <summary>A value beside the name of its field, in JSON, in C#, in a form's answers, or in a query.</summary>
    [GeneratedRegex("""(?:[Mm]aker|[Mm]odel)(?:["\]\s:=,.()]|FillAsync|ToHaveValueAsync)*(?<![^"=])(?<name>[^"&;{}\\\r\n]{2,60})""")]
    private static partial Regex Named();

    [GeneratedRegex(@"[\p{L}\p{Nd}]+")]
    private static partial Regex Word();
}
