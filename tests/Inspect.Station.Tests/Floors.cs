using System.Reflection.PortableExecutable;
using System.Text;
using System.Text.RegularExpressions;
using Inspect.Station.Tests.Ground;

namespace Inspect.Station.Tests;

/// <summary>The station's folders stand on floors: a folder uses the floors below, and its neighbours one way only.</summary>
/// <remarks>
/// The arrows are read from the compiled assembly; the using lines of the source add what the compiler leaves no trace of, such as a
/// constant. Program.cs, which puts the floors together, is exempt.
/// </remarks>
public partial class Floors
{
    private const string Root = "Inspect.Station.";

    private static readonly (string Name, string[] Folders)[] Plan =
    [
        ("screens",
        [
            "CommandLine", "Home", "Close", "Papers", "Desk", "Desk/Charts", "Scan", "Lanes", "Recorded", "Measure", "Bring", "Custody",
            "BeforeDrilling", "Queue", "Terms", "Slip", "Judge", "Pictures",
        ]),
        ("record", ["Prove", "Decide", "Record"]),
        ("event", ["Instruments", "ModelLists", "Import", "Prepare", "Rulesets"]),
        ("ground", ["Access", "Web", "Storage"]),
    ];

    private static readonly SortedDictionary<string, SortedSet<string>> Arrows = Read();

    [Fact]
    public void Folder_StandsOnAFloor() =>
        Assert.DoesNotContain(Arrows.Keys, folder => FloorOf(folder) < 0);

    [Fact]
    public void Folder_UsesNoFloorAbove() => Assert.Empty(
        from arrow in Arrows
        from used in arrow.Value
        where FloorOf(used) < FloorOf(arrow.Key)
        select $"{arrow.Key} -> {used}");

    [Fact]
    public void Floor_HasNoCycle() => Assert.DoesNotContain(Arrows.Keys, folder => Below(folder, FloorOf(folder)).Contains(folder));

    [Fact]
    public void Arrows_AreThoseOfTheDocument()
    {
        var path = Path.Combine(Repository.Root, "DEVELOPERS.md");
        var document = File.ReadAllText(path);
        var block = DrawnBlock().Match(document);
        Assert.True(block.Success, "DEVELOPERS.md has no block of the arrows between the folders.");
        var drawn = Drawn();
        if (Environment.GetEnvironmentVariable("INSPECT_REFRESH_ARROWS") == "1")
        {
            File.WriteAllText(
                path, document[..block.Groups[1].Index] + drawn + document[(block.Groups[1].Index + block.Groups[1].Length)..]);
            return;
        }

        Assert.True(block.Groups[1].Value == drawn,
            "The arrows between the folders and DEVELOPERS.md differ. If the change is meant, write the block anew with\n"
            + "  INSPECT_REFRESH_ARROWS=1 dotnet test tests/Inspect.Station.Tests --filter Floors\nand commit it with the "
                + "change. It would be\n"
            + drawn);
    }

    private static int FloorOf(string folder) => Array.FindIndex(Plan, floor => floor.Folders.Contains(folder));

    // Every folder of a floor that can be reached from one without leaving the floor.
    private static HashSet<string> Below(string folder, int floor)
    {
        var reached = new HashSet<string>();
        var open = new Stack<string>([folder]);
        while (open.TryPop(out var next))
        {
            foreach (var used in Arrows[next].Where(used => FloorOf(used) == floor && reached.Add(used)))
            {
                open.Push(used);
            }
        }

        return reached;
    }

    private static string Drawn()
    {
        var text = new StringBuilder();
        foreach (var (name, folders) in Plan)
        {
            text.Append(name).Append('\n');
            foreach (var folder in folders)
            {
                // Neighbours first, then floor by floor down.
                var used = Plan.Select(floor => string.Join(' ', floor.Folders.Where(Arrows[folder].Contains)))
                    .Where(group => group.Length > 0);
                text.Append($"  {folder,-14} -> {string.Join(" | ", used)}".TrimEnd(' ', '>', '-')).Append('\n');
            }
        }

        return text.ToString();
    }

    private static SortedDictionary<string, SortedSet<string>> Read()
    {
        var arrows = new SortedDictionary<string, SortedSet<string>>(StringComparer.Ordinal);
        foreach (var (from, to) in Compiled().Concat(Written()))
        {
            arrows.TryAdd(from, new SortedSet<string>(StringComparer.Ordinal));
            if (from != to)
            {
                arrows.TryAdd(to, new SortedSet<string>(StringComparer.Ordinal));
                arrows[from].Add(to);
            }
        }

        return arrows;
    }

    private static IEnumerable<(string From, string To)> Compiled()
    {
        using var file = new PEReader(File.OpenRead(typeof(Program).Assembly.Location));
        var names = new AssemblyNames(file);
        return [.. names.Uses().Distinct()
            .Select(use => (From: FolderOf(use.From), To: FolderOf(use.To)))
            .Where(arrow => arrow is { From: not null, To: not null })
            .Select(arrow => (arrow.From!, arrow.To!))];
    }

    private static IEnumerable<(string From, string To)> Written()
    {
        var station = Path.Combine(Repository.Root, "src", "Inspect.Station");
        return from path in Directory.EnumerateFiles(station, "*.cs", SearchOption.AllDirectories)
               let text = File.ReadAllText(path)
               let home = Home().Match(text)
               where home.Success
               from Match use in Using().Matches(text)
               select (FolderOf(home.Groups[1].Value)!, FolderOf(use.Groups[1].Value)!);
    }

    // A namespace is a folder; the root's own types are Program and what the Razor compiler makes of _Imports.
    private static string? FolderOf(string name) =>
        name.StartsWith(Root, StringComparison.Ordinal) ? name[Root.Length..].Replace('.', '/') : null;

    [GeneratedRegex(@"^namespace (Inspect\.Station\.[\w.]+);", RegexOptions.Multiline)]
    private static partial Regex Home();

    [GeneratedRegex(@"^using (?:static )?(?:\w+ = )?(Inspect\.Station\.(?:Desk\.Charts|\w+))[\w.]*;", RegexOptions.Multiline)]
    private static partial Regex Using();

    [GeneratedRegex(@"## The arrows between the folders\n.*?```text\n(.*?)```", RegexOptions.Singleline)]
    private static partial Regex DrawnBlock();
}
