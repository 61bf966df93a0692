using System.Globalization;
using System.Text.Json;
using Inspect.Ledger;
using Inspect.Rules.Judging;
using Inspect.Rules.Replaying;
using Inspect.Rules.Rulesets;
using Inspect.Sheets;
using Inspect.Sheets.Json;
using Inspect.Station.Record;

namespace Inspect.Station.CommandLine;

/// <summary>The inspections in a file, judged again: those of an exported register, or bare sheets,
/// whose verdict under their own authority stands in for a recorded one.</summary>
/// <param name="library">All known editions.</param>
/// <param name="replay">What they are judged under now.</param>
/// <param name="comparesBytes">Whether the bytes of verdicts are compared too.</param>
internal sealed class RecordedFile(EditionLibrary library, Replay replay, bool comparesBytes)
{
    /// <summary>A document of the file: judged again, or why it cannot be read; neither when it is not about a ball.</summary>
    internal readonly record struct Document(Replayed? Again, string? Unreadable);

    /// <summary>Every document of a piece of the file. Pieces may be read at once, in any order.</summary>
    public IReadOnlyList<Document> Documents(WholeLines piece) => piece.IsEndless
        ? [new Document(null, "This does not end within 16 MiB, as every entry and sheet does; nothing after it was read.")]
        : JsonSequence.Of(piece.Bytes).Select(Read).ToList();

    /// <summary>Those that were judged again, in order; what cannot be read is named in <paramref name="unreadable"/> and the rest goes
    /// on.</summary>
    public static IEnumerable<Replayed> Numbered(IEnumerable<IReadOnlyList<Document>> pieces, List<NotReplayed> unreadable)
    {
        var place = 0L;
        foreach (var document in pieces.SelectMany(piece => piece))
        {
            var name = string.Create(CultureInfo.InvariantCulture, $"entry {++place}");
            if (document.Unreadable is { } reason)
            {
                unreadable.Add(new NotReplayed(name, reason));
            }
            else if (document.Again is { } again)
            {
                yield return again.Number.Length > 0 ? again : again.Named(name);
            }
        }
    }

    private Document Read(ReadOnlyMemory<byte> utf8)
    {
        try
        {
            using var document = JsonDocument.Parse(utf8);
            var root = document.RootElement;
            return root.ValueKind != JsonValueKind.Object ? Bare(utf8)
                : root.TryGetProperty("kind", out var kind) ? new Document(Recorded(root, kind.GetString()), null)
                : root.TryGetProperty("checkpoint", out _) ? default
                : Bare(utf8);
        }
        catch (Exception broken) when (broken is JsonException or FormatException or InvalidOperationException or ArgumentException)
        {
            return new Document(null, broken is FormatException ? broken.Message : "This entry is not JSON of a register or a sheet.");
        }
    }

    /// <summary>An inspection of a register; its other entries, rulings and withdrawals, judge nothing.</summary>
    private Replayed? Recorded(JsonElement entry, string? kind)
    {
        if (kind != InspectionBody.Kind)
        {
            return null;
        }

        var inspection = InspectionBody.Read(entry);
        return replay.Judged(new RecordedInspection(
            inspection.Number.ToString(), inspection.Sheet, inspection.Verdict, comparesBytes ? InspectionBody.VersionOf(entry) : null));
    }

    private Document Bare(ReadOnlyMemory<byte> document)
    {
        var faults = new List<Fault>();
        return SheetReader.Read(document, faults) is { } sheet && SheetJudge.Judge(library, sheet, faults) is { } verdict
            ? new Document(replay.Judged(new RecordedInspection("", sheet, verdict)), null)
            : new Document(null, string.Join(" ", faults.Select(fault => $"{fault.Path}: {fault.Message}")));
    }
}
