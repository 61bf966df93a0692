using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using Inspect.Rules.Judging;
using Inspect.Rules.Replaying;
using Inspect.Rules.Rulesets;
using Inspect.Sheets;
using Inspect.Sheets.Json;
using Inspect.Station.Record;

namespace Inspect.Station.CommandLine;

/// <summary>The inspections in a file: those of an exported register, or bare sheets,
/// whose verdict under their own authority stands in for a recorded one.</summary>
internal static class RecordedFile
{
    /// <summary>Every inspection in order; what cannot be read is named in <paramref name="unreadable"/> and the rest goes on.</summary>
    public static IEnumerable<RecordedInspection> Inspections(ReadOnlyMemory<byte> utf8, EditionLibrary library,
        List<NotReplayed> unreadable)
    {
        var place = 0;
        foreach (var line in JsonSequence.Of(utf8))
        {
            var name = string.Create(CultureInfo.InvariantCulture, $"entry {++place}");
            if (Read(line, name, library, unreadable) is { } inspection)
            {
                yield return inspection;
            }
        }
    }

    private static RecordedInspection? Read(ReadOnlyMemory<byte> line, string name, EditionLibrary library, List<NotReplayed> unreadable)
    {
        try
        {
            return JsonNode.Parse(line.Span) switch
            {
                JsonObject entry when entry.ContainsKey("kind") => Recorded(entry, line),
                JsonObject closing when closing.ContainsKey("checkpoint") => null,
                _ => Bare(line, name, library, unreadable),
            };
        }
        catch (Exception broken) when (broken is JsonException or FormatException or InvalidOperationException or ArgumentException)
        {
            unreadable.Add(new NotReplayed(
                name, broken is FormatException ? broken.Message : "This entry is not JSON of a register or a sheet."));
            return null;
        }
    }

    /// <summary>An inspection of a register; its other entries, rulings and withdrawals, judge nothing.</summary>
    private static RecordedInspection? Recorded(JsonObject entry, ReadOnlyMemory<byte> line)
    {
        if (entry["kind"]?.GetValue<string>() != InspectionBody.Kind)
        {
            return null;
        }

        var inspection = InspectionBody.Read(line.Span);
        return new RecordedInspection(inspection.Number.ToString(), inspection.Sheet, inspection.Verdict, entry["v"]?.GetValue<int>());
    }

    private static RecordedInspection? Bare(ReadOnlyMemory<byte> line, string name, EditionLibrary library, List<NotReplayed> unreadable)
    {
        var faults = new List<Fault>();
        if (SheetReader.Read(line, faults) is { } sheet && SheetJudge.Judge(library, sheet, faults) is { } verdict)
        {
            return new RecordedInspection(name, sheet, verdict);
        }

        unreadable.Add(new NotReplayed(name, string.Join(" ", faults.Select(fault => $"{fault.Path}: {fault.Message}"))));
        return null;
    }
}
