using System.Text.RegularExpressions;

namespace Inspect.Station.Rulesets;

/// <summary>The list of hashes under which editions were published: a line holds the hash, two spaces and the file.</summary>
public static partial class PublishedHashes
{
    public const string FileName = "published.sha256";

    /// <summary>The hash of each edition by its id; a line that cannot be read is a fault.</summary>
    public static IReadOnlyDictionary<string, string> Read(string text, string place, List<RulesetFault> faults)
    {
        var hashes = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var (index, written) in text.Split('\n').Index())
        {
            var line = written.TrimEnd('\r');
            if (line.Length == 0)
            {
                continue;
            }

            var path = FormattableString.Invariant($"line {index + 1}");
            if (Shape().Match(line) is not { Success: true } match)
            {
                faults.Add(new RulesetFault(
                    place, path, "A line is 64 hexadecimal digits, two spaces and a file such as us-national/2020-08-01/ruleset.json."));
            }
            else if (!hashes.TryAdd(match.Groups["id"].Value, match.Groups["hash"].Value))
            {
                faults.Add(new RulesetFault(place, path, $"\"{match.Groups["id"].Value}\" is listed twice; an edition is published once."));
            }
        }

        return hashes;
    }

    [GeneratedRegex("^(?<hash>[0-9a-f]{64})  (?<id>[a-z0-9-]+/[0-9]{4}-[0-9]{2}-[0-9]{2}([.][0-9]{1,2})?)/ruleset[.]json$",
        RegexOptions.CultureInvariant)]
    private static partial Regex Shape();
}
