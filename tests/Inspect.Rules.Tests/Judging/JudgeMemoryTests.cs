using System.Text;
using Inspect.Rules.Judging;
using Inspect.Rules.Tests.Rulesets;
using Inspect.Sheets;

namespace Inspect.Rules.Tests.Judging;

/// <summary>Judging makes no words that nobody reads. The bound is measured on this machine, no source.</summary>
public class JudgeMemoryTests
{
    private const int Times = 200;

    /// <summary>A finding takes 1,220 bytes in a debug build; with all its words made at once it took 2,900.</summary>
    private const int MostBytesAFinding = 1800;

    [Fact]
    public void Under_AWholeSheet_AllocatesLittleForEachFinding()
    {
        var edition = Book.Find("us-national/2020-08-01");
        var sheet = SheetReader.Read(Encoding.UTF8.GetBytes(Whole), [])!;
        var findings = Judge.Under(edition, sheet).Findings.Count;
        Assert.True(findings > 20, $"There are {findings} findings.");

        var before = GC.GetAllocatedBytesForCurrentThread();
        for (var i = 0; i < Times; i++)
        {
            Judge.Under(edition, sheet);
        }

        var bytes = (GC.GetAllocatedBytesForCurrentThread() - before) / Times / findings;
        Assert.True(bytes <= MostBytesAFinding, $"{bytes} bytes a finding were allocated, of {findings} findings.");
    }

    private static string Whole => """
        { "play": "2026-11-20", "authority": "us-national",
          "grip": { "hand": "right", "digits": ["thumb", "middle", "ring"], "demonstrated": true },
          "ball": { "maker": "Ostrava Kiln", "model": "Nightjar", "serial": "9QF31207", "listed": "yes", "made": "2023-04" },
          "marks": { "modelReadable": true, "serialReadable": true, "palmMarks": 0, "foreignMaterial": false, "surfacePattern": false },
          "weights": { "gross": "15 lb 1 oz", "topBottom": "1.25 oz", "leftRight": "0.5 oz", "fingerThumb": "-1/4 oz" },
          "size": { "diameters": ["8.580 in", "8.582 in"], "circumference": "26.95 in" },
          "hardness": { "readings": ["76", "75.5", "76"], "temperature": "72 F" },
          "holes": [
            { "kind": "grip", "digit": "thumb", "diameter": "31/32 in", "depth": "2 3/4 in", "secondaryHole": false },
            { "kind": "grip", "digit": "middle", "diameter": "7/8 in", "depth": "2 in", "secondaryHole": false },
            { "kind": "grip", "digit": "ring", "diameter": "27/32 in", "depth": "2 in", "secondaryHole": false } ] }
        """;
}
