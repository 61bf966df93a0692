using System.Reflection;
using System.Text;

namespace Inspect.Station.Rulesets;

/// <summary>The editions that are built into the program.</summary>
public static class EmbeddedRulesets
{
    private const string Root = "rulesets/";
    private const string FileName = "/ruleset.json";

    private static readonly Assembly Program = typeof(EmbeddedRulesets).Assembly;

    /// <summary>Every embedded edition, in the order of their ids.</summary>
    public static IReadOnlyList<RulesetFile> Files() => Program.GetManifestResourceNames()
        .Select(resource => (Resource: resource, Path: resource.Replace('\\', '/')))
        .Where(one => one.Path.StartsWith(Root, StringComparison.Ordinal) && one.Path.EndsWith(FileName, StringComparison.Ordinal))
        .OrderBy(one => one.Path, StringComparer.Ordinal)
        .Select(one => new RulesetFile(one.Path[Root.Length..^FileName.Length], $"{one.Path} (built in)", Bytes(one.Resource)))
        .ToList();

    /// <summary>The list of published hashes that was built in.</summary>
    public static string PublishedText() => Encoding.UTF8.GetString(Bytes(Root + PublishedHashes.FileName));

    private static byte[] Bytes(string resource)
    {
        using var stream = Program.GetManifestResourceStream(resource)
            ?? throw new InvalidOperationException($"The program was built without its resource {resource}.");
        using var bytes = new MemoryStream();
        stream.CopyTo(bytes);
        return bytes.ToArray();
    }
}
