using System.Globalization;
using Inspect.Rules.Judging;
using Inspect.Rules.Rulesets;
using Inspect.Sheets;
using Inspect.Sheets.Readings;

namespace Inspect.Advice;

/// <summary>Ways to cure a hole that failed: plug it, or plug it and drill it again within the limit.</summary>
internal static class HoleRemedies
{
    private const double DepthStepIn = 1.0 / 16;
    private const double WidthStepIn = 1.0 / 64;

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
    public static Way Plug(Workbench work, int place, BalanceRemedies.Goal? goal = null)
    {
        var hole = work.Ball.Holes[place];
        var after = work.With(place, null);
        var effect = work.Effect(after);
        if (goal is not null
            && (effect is null || Workbench.Of(effect, goal.Axis).Best * Math.Sign(goal.ChangeOz) < Math.Abs(goal.ChangeOz)))
        {
            return new DeadEnd(RemedyKind.Plug, hole.Name, null, DeadEndReason.TooLittle);
        }

        return Judged(
            new Remedy { Kind = RemedyKind.Plug, Subject = hole.Name, Hole = hole.Index, Effect = work.Told(effect, after) },
            work.Weighed(PlannedSheet.WithoutHole(work.Sheet, hole.Index), effect), work, goal?.Axis.Path);
    }

    private static IEnumerable<Way> Ways(Finding finding, int index, Workbench work)
    {
        var hole = work.Sheet.Holes![index];
        var place = work.Ball.Holes.ToList().FindIndex(one => one.Index == index);
        var isTooDeep = finding.Path?.EndsWith(".depth", StringComparison.Ordinal) == true;
        if (isTooDeep || finding.Path?.EndsWith(".diameter", StringComparison.Ordinal) == true)
        {
            var quantity = isTooDeep ? RuleQuantity.HoleDepth : RuleQuantity.HoleDiameter;
            if (work.Limits.MostOf(quantity, hole.Kind) is { } most)
            {
                yield return Redrill(finding, index, place, isTooDeep, most, work);
            }
        }

        // A gripping hole in use is not given up for a rule about its size.
        var isNeeded = hole.Kind == HoleKind.Grip && hole.Digit is { } digit && work.Sheet.Grip?.Digits?.Contains(digit) != false
            && finding.Rule is not "grip-hole-count" and not "one-hole-per-digit";
        if (!isNeeded)
        {
            yield return place >= 0 ? Plug(work, place) : PlugUnmeasured(finding, index, work);
        }
        else if (finding.Path?.EndsWith(".secondaryHole", StringComparison.Ordinal) == true)
        {
            yield return Judged(
                new Remedy { Kind = RemedyKind.PlugAndRedrill, Subject = Words.Subject(hole, index), Hole = index },
                work.Sheet with { Holes = [.. work.Sheet.Holes.Select((one, i) => i == index ? one with { SecondaryHole = false } : one)] },
                    work, finding.Path);
        }
    }

    /// <summary>The most allowed, in inches, in the steps in which a bit or a stop is set.</summary>
    private static double Target(Bound most, bool isTooDeep)
    {
        var step = isTooDeep ? DepthStepIn : WidthStepIn;
        return Math.Floor((Seam.ToDouble(most.Value / Units.MillimetresPerInch) + 1e-9) / step) * step;
    }

    /// <summary>The hole and the place in it of the interchangeable piece that a finding is about, or null.</summary>
    private static (int Hole, int Piece)? PieceOf(Finding finding) =>
        finding.Path?.Split('[', ']') is ["holes", var hole, ".pieces", var piece, _]
        ? (int.Parse(hole, CultureInfo.InvariantCulture), int.Parse(piece, CultureInfo.InvariantCulture))
        : null;

    private static Way AnotherPiece(Finding finding, (int Hole, int Piece) which, Workbench work)
    {
        var isTooDeep = finding.Path!.EndsWith(".depth", StringComparison.Ordinal);
        var remedy = new Remedy { Kind = RemedyKind.AnotherPiece, Subject = finding.Subject, Hole = which.Hole, IsAboutWidth = !isTooDeep };
        if (work.Limits.MostOf(isTooDeep ? RuleQuantity.HoleDepth : RuleQuantity.HoleDiameter, HoleKind.Grip) is not { } most)
        {
            return new DeadEnd(remedy.Kind, remedy.Subject, null, DeadEndReason.StillFails);
        }

        var target = Target(most, isTooDeep);
        return Judged(remedy with { EndIn = target }, PlannedSheet.WithPiece(work.Sheet, which.Hole, which.Piece, target, isTooDeep), work,
            finding.Path);
    }

    private static Way Redrill(Finding finding, int index, int place, bool isTooDeep, Bound most, Workbench work)
    {
        var target = Target(most, isTooDeep);
        var planned = isTooDeep ? PlannedSheet.WithDepth(work.Sheet, index, target) : PlannedSheet.WithDiameter(work.Sheet, index, target);
        var remedy = new Remedy
        {
            Kind = RemedyKind.PlugAndRedrill,
            Subject = Words.Subject(work.Sheet.Holes![index], index),
            Hole = index,
            EndIn = target,
            IsAboutWidth = !isTooDeep,
        };
        if (place < 0)
        {
            return Judged(remedy, planned, work, finding.Path);
        }

        var drilled = work.Ball.Holes[place].Drilled;
        var after = work.With(place, isTooDeep ? drilled.WithDepth(target) : drilled.WithDiameter(target));
        var effect = work.Effect(after);
        return Judged(remedy with { Effect = work.Told(effect, after) }, work.Weighed(planned, effect), work, finding.Path);
    }

    private static Way PlugUnmeasured(Finding finding, int index, Workbench work) => Judged(
        new Remedy { Kind = RemedyKind.Plug, Subject = Words.Subject(work.Sheet.Holes![index], index), Hole = index },
        PlannedSheet.WithoutHole(work.Sheet, index), work, finding.Path?.Contains('[', StringComparison.Ordinal) == true ? null
            : finding.Path);

    private static Way Judged(Remedy remedy, Sheet planned, Workbench work, string? curedPath)
    {
        var (breaks, still) = work.Judged(planned);
        if (curedPath is not null && still.Any(finding => finding.Path == curedPath))
        {
            return new DeadEnd(remedy.Kind, remedy.Subject, null, DeadEndReason.StillFails);
        }

        return remedy with { Breaks = breaks, StillFails = still };
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
