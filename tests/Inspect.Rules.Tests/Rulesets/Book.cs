using System.Runtime.CompilerServices;
using Inspect.Rules.Rulesets;
using Inspect.Sheets.Json;

namespace Inspect.Rules.Tests.Rulesets;

/// <summary>The published editions as they lie in the repository, loaded once for all tests.</summary>
internal static class Book
{
    /// <summary>The folder of all rulesets.</summary>
    public static readonly string Folder = Path.Combine(RepositoryRoot(), "rulesets");

    /// <summary>Every edition's id, such as <c>us-national/2020-08-01</c>.</summary>
    public static readonly IReadOnlyList<string> Ids = Directory.GetFiles(Folder, "ruleset.json", SearchOption.AllDirectories)
        .Select(file => Path.GetRelativePath(Folder, Path.GetDirectoryName(file)!).Replace('\\', '/'))
        .Order(StringComparer.Ordinal)
        .ToList();

    /// <summary>Every edition, loaded by the real loader.</summary>
    public static readonly EditionLibrary BuiltIn = new(Ids.Select(Load));

    /// <summary>The editions as first published: what an edition that was corrected since was tried by.</summary>
    public static readonly EditionLibrary AsFirstPublished = new(BuiltIn.All.Where(edition => edition.Revision == 1));

    public static TheoryData<string> Editions => [.. Ids];

    /// <summary>Those that correct an earlier one.</summary>
    public static TheoryData<string> Revisions => [.. BuiltIn.All.Where(edition => edition.Revision > 1).Select(edition => edition.Id)];

    /// <summary>A file of an edition's folder.</summary>
    public static string FileOf(string id, string name) => Path.Combine(Folder, id, name);

    public static Edition Find(string id) =>
        BuiltIn.TryFind(id, out var edition) ? edition : throw new ArgumentException($"There is no edition {id}.");

    private static Edition Load(string id)
    {
        var faults = new List<Fault>();
        return RulesetLoader.Load(File.ReadAllBytes(FileOf(id, "ruleset.json")), faults)
            ?? throw new InvalidDataException($"{id}: {string.Join(" ", faults)}");
    }

    private static string RepositoryRoot([CallerFilePath] string here = "")
    {
        var folder = new DirectoryInfo(Path.GetDirectoryName(here)!);
        while (!File.Exists(Path.Combine(folder.FullName, "Inspect.sln")))
        {
            folder = folder.Parent ?? throw new DirectoryNotFoundException("The repository's root was not found above the tests.");
        }

        return folder.FullName;
    }
}
