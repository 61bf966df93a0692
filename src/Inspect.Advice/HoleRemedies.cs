using System.Globalization;
using Inspect.Ball;
using Inspect.Rules.Judging;
using Inspect.Sheets;

namespace Inspect.Advice;

/// <summary>Ways to cure a hole that failed: plug it, or plug it and drill it again within the limit.</summary>
internal static class HoleRemedies
{
    public static Trouble For(Finding finding, Workbench work)
    {
        var ways = PieceOf(finding) is { } piece ? [AnotherPiece(finding, piece, work)]
            : Holes(finding, work.Sheet).SelectMany(index => Ways(finding, index, work)).ToList();
        return new Trouble(finding, ClearestFirst(ways), DeadEnds(ways));
    }

    /// <summary>The remedies, those without a reservation first.</summary>
    public static IReadOnlyList<Remedy> ClearestFirst(IEnumerable<Way> ways) => [.. ways.Select(way => way.Out).OfType<Remedy>()
        .OrderBy(remedy => remedy.Breaks.Count > 0)
        .ThenBy(remedy => remedy.Kind == RemedyKind.MoveTheGrip).ThenBy(remedy => !remedy.IsClear).ThenBy(remedy => remedy.MostIn is null)
            .ThenBy(remedy => remedy.Kind)];

    public static IReadOnlyList<DeadEnd> DeadEnds(IEnumerable<Way> ways) => [.. ways.Select(way => way.End).OfType<DeadEnd>()];

    /// <summary>A hole filled and left so; where a reading is to be cured, it must reach its goal.</summary>
    public static Way Plug(Workbench work, int index, int place, BalanceRemedies.Goal? goal = null, string? curedPath = null) => Judged(
        Of(RemedyKind.Plug, index, work), place, null, PlannedSheet.WithoutHole(work.Sheet, index), work,
        goal?.Axis.Path ?? curedPath, goal);

    private static IEnumerable<Way> Ways(Finding finding, int index, Workbench work)
    {
        var hole = work.Sheet.Holes![index];
        var place = work.Ball.Holes.ToList().FindIndex(one => one.Index == index);
        if (CutOf(finding) is { } cut && cut.MostIn(work.Limits, hole.Kind) is { } most)
        {
            var target = cut.Down(most);
            yield return Judged(
                Of(RemedyKind.PlugAndRedrill, index, work) with { EndIn = target, IsAboutWidth = cut == Cut.Wider },
                place, place < 0 ? null : cut.Drilled(work.Ball.Holes[place].Drilled, target), cut.Planned(work.Sheet, index, target), work,
                finding.Path);
        }

        // A gripping hole in use is not given up for a rule about its size.
        var isNeeded = hole.Kind == HoleKind.Grip && hole.Digit is { } digit && work.Sheet.Grip?.Digits?.Contains(digit) != false
            && finding.Rule is not "grip-hole-count" and not "one-hole-per-digit";
        if (!isNeeded)
        {
            var isOneOfMany = place >= 0 || finding.Path?.Contains('[', StringComparison.Ordinal) == true;
            yield return Plug(work, index, place, curedPath: isOneOfMany ? null : finding.Path);
        }
        else if (finding.Path?.EndsWith(".secondaryHole", StringComparison.Ordinal) == true)
        {
            yield return Judged(
                Of(RemedyKind.PlugAndRedrill, index, work), -1, null,
                work.Sheet with { Holes = [.. work.Sheet.Holes.Select((one, i) => i == index ? one with { SecondaryHole = false } : one)] },
                work, finding.Path);
        }
    }

    /// <summary>The cut that went too far, where a finding is about a depth or a width.</summary>
    private static Cut? CutOf(Finding finding) =>
        finding.Path?.EndsWith(".depth", StringComparison.Ordinal) == true ? Cut.Deeper
        : finding.Path?.EndsWith(".diameter", StringComparison.Ordinal) == true ? Cut.Wider
        : null;

    /// <summary>The hole and the place in it of the interchangeable piece that a finding is about, or null.</summary>
    private static (int Hole, int Piece)? PieceOf(Finding finding) =>
        finding.Path?.Split('[', ']') is ["holes", var hole, ".pieces", var piece, _]
        ? (int.Parse(hole, CultureInfo.InvariantCulture), int.Parse(piece, CultureInfo.InvariantCulture))
        : null;

    private static Way AnotherPiece(Finding finding, (int Hole, int Piece) which, Workbench work)
    {
        var cut = CutOf(finding)!;
        var isTooDeep = cut == Cut.Deeper;
        var remedy = new Remedy { Kind = RemedyKind.AnotherPiece, Subject = finding.Subject, Hole = which.Hole, IsAboutWidth = !isTooDeep };
        if (cut.MostIn(work.Limits, HoleKind.Grip) is not { } most)
        {
            return new DeadEnd(remedy.Kind, remedy.Subject, null, DeadEndReason.StillFails);
        }

        var target = cut.Down(most);
        return Judged(
            remedy with { EndIn = target }, -1, null, PlannedSheet.WithPiece(work.Sheet, which.Hole, which.Piece, target, isTooDeep), work,
            finding.Path);
    }

    /// <summary>A remedy that works on a hole, with nothing yet said of how.</summary>
    public static Remedy Of(RemedyKind kind, int index, Workbench work) => new()
    {
        Kind = kind,
        Subject = Words.Subject(work.Sheet.Holes![index], index),
        Hole = index,
        IsOfTheGrip = work.IsOfTheGrip(index),
    };

    /// <summary>The remedy with what it does to a measured hole (its place is not negative), judged on the planned sheet.</summary>
    private static Way Judged(
        Remedy remedy, int place, DrilledHole? instead, Sheet planned, Workbench work, string? curedPath, BalanceRemedies.Goal? goal = null)
    {
        if (place >= 0)
        {
            var after = work.With(place, instead);
            var effect = work.Effect(after);
            if (goal is not null
                && (effect is null || Workbench.Of(effect, goal.Axis).Best * Math.Sign(goal.ChangeOz) < Math.Abs(goal.ChangeOz)))
            {
                return new DeadEnd(remedy.Kind, remedy.Subject, null, DeadEndReason.TooLittle);
            }

            (remedy, planned) = (remedy with { Effect = work.Told(effect, after) }, work.Weighed(planned, effect));
        }

        var (breaks, still) = work.Judged(planned);
        return curedPath is not null && still.Any(finding => finding.Path == curedPath)
            ? new DeadEnd(remedy.Kind, remedy.Subject, null, DeadEndReason.StillFails)
            : remedy with { Breaks = breaks, StillFails = still };
    }

    /// <summary>The holes a finding speaks of: the one in its path, or all that its count took in.</summary>
    private static IEnumerable<int> Holes(Finding finding, Sheet sheet)
    {
        if (finding.Path is { } path && path.IndexOf('[', StringComparison.Ordinal) is > 0 and var open)
        {
            return [int.Parse(path.AsSpan(open + 1, path.IndexOf(']', StringComparison.Ordinal) - open - 1), CultureInfo.InvariantCulture)];
        }

        if (finding.Rule == "grip-hole-count")
        {
            return sheet.Holes!.Index().Where(one => one.Item is { Kind: HoleKind.Grip or HoleKind.Indentation, Digit: { } digit }
                && sheet.Grip?.Digits?.Contains(digit) == false).Select(one => one.Index);
        }

        var kinds = finding.Rule switch
        {
            "balance-hole" => [HoleKind.Balance],
            "vent-hole" => [HoleKind.Vent],
            "mill-hole" => [HoleKind.Mill],
            _ => Array.Empty<HoleKind>(),
        };
        return sheet.Holes!.Index().Where(one => kinds.Contains(one.Item.Kind)).Select(one => one.Index);
    }
}
