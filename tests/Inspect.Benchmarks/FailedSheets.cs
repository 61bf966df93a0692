using System.Runtime.CompilerServices;
using System.Text;
using Inspect.Rules.Rulesets;
using Inspect.Sheets;
using Inspect.Sheets.Json;

namespace Inspect.Benchmarks;

/// <summary>A three-hole ball as a sheet, once legal and in the ways in which advice is asked for,
/// and the edition that judges it.</summary>
internal static class FailedSheets
{
    private const string Declared =
        """
         "declared":{"rg":"2.480 in","differential":"0.050 in","intermediate":"0.015 in"},"pin":{"arc":"3 in","azimuth":"75 deg"},
         "massBias":{"arc":"5 in","azimuth":"330 deg"},"gravityMark":{"arc":"1/2 in","azimuth":"60 deg"},
        """;

    /// <summary>Each sheet with what is wrong with it. Without pitches the fingers run into each
    /// other when one is drilled deeper.</summary>
    public static IEnumerable<(string What, Sheet Sheet)> All =>
    [
        ("legal", Read("1 oz", "0 oz")),
        ("side 3 1/4 oz fails", Read("1 oz", "3 1/4 oz")),
        ("top 3.2 oz fails, no places or pitches", Read("3.2 oz", "0 oz", hasPlaces: false, hasPitches: false)),
        ("top 3.2 oz fails, declared, no pitches", Read("3.2 oz", "0 oz", Declared, hasPitches: false)),
        ("top 3.2 oz fails, declared, pitches", Read("3.2 oz", "0 oz", Declared)),
        ("thumb 4 5/8 in deep fails", Read("1 oz", "0 oz", thumbDepth: "4 5/8 in")),
    ];

    /// <summary>The edition in force on the day of the sheets, read from the repository.</summary>
    public static Edition Edition([CallerFilePath] string here = "")
    {
        var folder = new DirectoryInfo(Path.GetDirectoryName(here)!);
        while (!File.Exists(Path.Combine(folder.FullName, "Inspect.sln")))
        {
            folder = folder.Parent ?? throw new DirectoryNotFoundException("The repository's root was not found above the benchmarks.");
        }

        var faults = new List<Fault>();
        return RulesetLoader.Load(File.ReadAllBytes(Path.Combine(folder.FullName, "rulesets/us-national/2020-08-01/ruleset.json")), faults)
            ?? throw new InvalidDataException(string.Join(" ", faults));
    }

    private static Sheet Read(
        string top, string side, string declared = "", string thumbDepth = "2 3/4 in", bool hasPlaces = true, bool hasPitches = true)
    {
        var faults = new List<Fault>();
        return SheetReader.Read(Encoding.UTF8.GetBytes($$"""
            {"play":"2027-03-14","authority":"us-national","grip":{"hand":"right","digits":["thumb","middle","ring"],"demonstrated":true},
            "ball":{{{declared}}"listed":"yes"},
            "weights":{"gross":"236.07 oz","topBottom":"{{top}}","leftRight":"{{side}}","fingerThumb":"0 oz","scaleConstant":"4.25 in"},
            "size":{"diameters":["8.500 in","8.500 in"]},"holes":[
            {{Hole("thumb", "1 1/16 in", thumbDepth, "2.5 in", "270 deg", "south", "3/8 in")}},
            {{Hole("middle", "31/32 in", "2 in", "2.35 in", "106 deg", "east", "3/8 in")}},
            {{Hole("ring", "15/16 in", "2 in", "2.35 in", "74 deg", "east", "-3/8 in")}}]}
            """), faults) ?? throw new InvalidDataException(string.Join(" ", faults));

        string Hole(string digit, string diameter, string depth, string arc, string azimuth, string way, string pitch) =>
            $$"""{"kind":"grip","digit":"{{digit}}","diameter":"{{diameter}}","depth":"{{depth}}","secondaryHole":false"""
            + (hasPlaces ? $$""","position":{"arc":"{{arc}}","azimuth":"{{azimuth}}"}""" : "")
            + (hasPitches ? $$""","pitch":{"{{way}}":"{{pitch}}"}""" : "") + "}";
    }
}
