using Inspect.Sheets.Json;

namespace Inspect.Station.Rulesets;

/// <summary>Editions in a folder with the layout authority, first day, ruleset.json.</summary>
public static class RulesetFolder
{
    private const string FileName = "ruleset.json";

    /// <summary>The editions in the folder; a folder or file that cannot be read is a fault.</summary>
    public static IReadOnlyList<RulesetFile> Files(string folder, List<RulesetFault> faults)
    {
        try
        {
            var files = Directory.GetFiles(folder, FileName, SearchOption.AllDirectories).Order(StringComparer.Ordinal)
                .Select(file => new RulesetFile(Id(folder, file), file, File.ReadAllBytes(file)))
                .ToList();
            if (files.Count == 0)
            {
                faults.Add(new RulesetFault(
                    folder, StrictJson.Root, $"There is no {FileName} in this folder; its layout is us-national/2020-08-01/{FileName}."));
            }

            return files;
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
        {
            faults.Add(new RulesetFault(folder, StrictJson.Root, $"This folder of rulesets cannot be read: {problem.Message}"));
            return [];
        }
    }

    /// <summary>The folder's own list of published hashes, or null when it has none.</summary>
    public static string? PublishedText(string folder)
    {
        var file = Path.Combine(folder, PublishedHashes.FileName);
        return File.Exists(file) ? File.ReadAllText(file) : null;
    }

    private static string Id(string folder, string file) =>
        Path.GetRelativePath(folder, Path.GetDirectoryName(file)!).Replace(Path.DirectorySeparatorChar, '/');
}
