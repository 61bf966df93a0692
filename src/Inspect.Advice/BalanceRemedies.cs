using Inspect.Ball;
using Inspect.Rules.Judging;
using Inspect.Sheets;
using Inspect.Sheets.Described;
using Inspect.Sheets.Readings;

namespace Inspect.Advice;

/// <summary>Ways to bring one balance reading back to its limit: a deeper or
/// wider gripping hole, a plug, or the grip drilled again elsewhere.</summary>
internal static class BalanceRemedies
{
    private const double MoveStepIn = 1.0 / 8;

    /// <summary>A grip drilled again farther away than this is another grip on another part of the ball.</summary>
    private const double FarthestMoveIn = 3;

    public static Trouble For(Finding finding, BalanceAxis axis, Workbench work)
    {
        var goal = Goal.Of(axis, work);
        if (goal is null)
        {
            return new Trouble(finding, [], []);
        }

        var ways = new List<Way>();
        for (var place = 0; place < work.Ball.Holes.Count; place++)
        {
            var index = work.Ball.Holes[place].Index;
            ways.AddRange(work.IsOfTheGrip(index)
                ? new[] { Drill(Cut.Deeper, goal, work, place), Drill(Cut.Wider, goal, work, place) }.OfType<Way>()
                : [HoleRemedies.Plug(work, index, place, goal)]);
        }

        if (MoveTheGrip(goal, work) is { } move)
        {
            ways.Add(move);
        }

        return new Trouble(finding, HoleRemedies.ClearestFirst(ways), HoleRemedies.DeadEnds(ways));
    }

    /// <summary>A hole cut further, with its walls, judged at the size that an ordinary inside needs.</summary>
    private static Way? Drill(Cut cut, Goal goal, Workbench work, int place)
    {
        var hole = work.Ball.Holes[place];
        if (cut.MostIn(work.Limits, HoleKind.Grip) is not { } end
            || MassPropertiesOf.Check(work.Whole, [cut.Drilled(hole.Drilled, Math.Max(end, cut.Size(hole.Drilled)))]).Count > 0)
        {
            return null;
        }

        var further = work.Reaching(cut, place, goal, end);
        if (further.DenseIn is not { } dense)
        {
            return NoWay(cut.Kind, hole.Name, further.MostChangeOz, goal);
        }

        var first = cut.First(dense, cut.Size(hole.Drilled));
        var atFirst = work.WallAt(place, cut.Drilled(hole.Drilled, first));
        if (atFirst is { In: < 0 })
        {
            return new DeadEnd(cut.Kind, hole.Name, null, DeadEndReason.BreaksThrough);
        }

        var likely = (cut == Cut.Deeper ? further.EvenIn : further.LightIn) ?? dense;
        var after = work.With(place, cut.Drilled(hole.Drilled, likely));
        var effect = work.Effect(after);
        var (breaks, still) = work.Judged(work.Weighed(cut.Planned(work.Sheet, hole.Index, likely), effect, goal.Axis, goal.ReadingOz));
        if (still.Any(finding => finding.Path == goal.Axis.Path))
        {
            return new DeadEnd(cut.Kind, hole.Name, null, DeadEndReason.StillFails);
        }

        return HoleRemedies.Of(cut.Kind, hole.Index, work) with
        {
            FirstIn = first,
            LeastIn = dense,
            MostIn = further.LightIn,
            EndIn = further.MostUsefulIn,
            WallAtFirst = atFirst,
            WallAtMost = work.WallAt(place, cut.Drilled(hole.Drilled, further.LightIn ?? further.MostUsefulIn)),
            Breaks = breaks,
            StillFails = still,
            Effect = work.Told(effect, after),
        };
    }

    private static DeadEnd NoWay(RemedyKind kind, string subject, Estimate most, Goal goal)
    {
        var far = Math.Max(Math.Abs(most.Low), Math.Abs(most.High));
        return far == 0 ? new DeadEnd(kind, subject, null, DeadEndReason.WrongWay)
            : new DeadEnd(kind, subject, Math.Min(far, Math.Abs(goal.ChangeOz)), DeadEndReason.TooLittle);
    }

    /// <summary>
    /// The grip drilled again with its centre moved along the surface: the undrilled imbalance, which stays with the ball, is then split
    /// differently between top and side. An arc s turns it by s / R.
    /// </summary>
    private static Way? MoveTheGrip(Goal goal, Workbench work)
    {
        if (work.Ball.ReadingsOz is null || work.Rebuilt is not { } whole
            || !work.Ball.Holes.Any(hole => work.IsOfTheGrip(hole.Index)))
        {
            return null;
        }

        var towards = goal.Axis == BalanceAxis.Top ? Heavier(whole, work) * Math.Sign(goal.ChangeOz)
            : goal.Axis.Unit * -Math.Sign(goal.ChangeOz);
        var moves = new[] { whole.MomentDenseOzIn, whole.MomentLightOzIn }
            .Select(moment => Arc(StaticMoment.ToOunces(moment, work.Ball.Scale), towards, goal, work.Ball.RadiusIn)).ToArray();
        if (moves[0] is not { } dense || moves[1] is not { } light)
        {
            return new DeadEnd(RemedyKind.MoveTheGrip, AdviceWords.TheGrip, null, DeadEndReason.TooLittle);
        }

        var (least, most) = (Math.Min(dense, light), Math.Max(dense, light));
        var planned = Moved(StaticMoment.ToOunces(whole.MomentOzIn, work.Ball.Scale), towards, (least + most) / 2, goal, work);
        var (breaks, still) = work.Judged(planned);
        if (still.Any(finding => finding.Path == goal.Axis.Path))
        {
            return null;
        }

        // The holes of the grip are drilled anew, within their limits: what is wrong with their size does not stay.
        return new Remedy
        {
            Kind = RemedyKind.MoveTheGrip,
            Subject = AdviceWords.TheGrip,
            FirstIn = Math.Max(MoveStepIn, Math.Round(least / MoveStepIn) * MoveStepIn),
            LeastIn = least,
            MostIn = most,
            Towards = AdviceWords.Direction(towards),
            Breaks = breaks,
            StillFails = [.. still.Where(finding => !work.IsOfTheGrip(finding))],
        };
    }

    /// <summary>The direction across the top to which the undrilled imbalance leans:
    /// a move that way adds top weight, one away from it takes some.</summary>
    private static Vector Heavier(UndrilledBall whole, Workbench work)
    {
        var across = StaticMoment.ToOunces(whole.MomentOzIn, work.Ball.Scale);
        return Math.Abs(across.X) >= Math.Abs(across.Y) ? Vector.UnitX * (across.X < 0 ? -1 : 1) : Vector.UnitY * (across.Y < 0 ? -1 : 1);
    }

    /// <summary>How far the grip's centre must move along the surface, or null when no move up to the farthest does it.</summary>
    private static double? Arc(Vector wholeOz, Vector towards, Goal goal, double radiusIn)
    {
        for (var arc = 1.0 / 64; arc <= FarthestMoveIn; arc += 1.0 / 64)
        {
            var change = Turned(wholeOz, towards, arc / radiusIn).Dot(goal.Axis.Unit) - wholeOz.Dot(goal.Axis.Unit);
            if (change * Math.Sign(goal.ChangeOz) >= Math.Abs(goal.ChangeOz))
            {
                return arc;
            }
        }

        return null;
    }

    /// <summary>The undrilled imbalance in the frame of a grip whose centre moved by an angle in a direction.</summary>
    private static Vector Turned(Vector whole, Vector towards, double angle)
    {
        var (along, top) = (whole.Dot(towards), whole.Z);
        var newAlong = (along * Math.Cos(angle)) - (top * Math.Sin(angle));
        return whole + ((newAlong - along) * towards) + ((((top * Math.Cos(angle)) + (along * Math.Sin(angle))) - top) * Vector.UnitZ);
    }

    private static Sheet Moved(Vector wholeOz, Vector towards, double arc, Goal goal, Workbench work)
    {
        var change = Turned(wholeOz, towards, arc / work.Ball.RadiusIn) - wholeOz;
        var sheet = work.Sheet;
        foreach (var axis in BalanceAxis.All)
        {
            var now = Physical.Value(axis.On(work.Sheet.Weights)!);
            sheet = PlannedSheet.WithReading(
                sheet, axis, axis == goal.Axis ? goal.ReadingOz : Math.Round(Seam.ToDecimal(now + change.Dot(axis.Unit)), 2));
        }

        return sheet;
    }

    /// <summary>The value that a reading has to reach, and how far away it is.</summary>
    internal sealed record Goal(BalanceAxis Axis, decimal ReadingOz, double ChangeOz)
    {
        /// <summary>The nearest reading that the edition allows, or null without a reading or a limit.</summary>
        public static Goal? Of(BalanceAxis axis, Workbench work)
        {
            if (axis.On(work.Sheet.Weights) is not { } reading || work.Limits.MostOf(axis.Quantity) is not { } most)
            {
                return null;
            }

            var now = reading.Value / Units.GramsPerOunce;
            var goal = (most.Value / Units.GramsPerOunce) - (most.Inclusive ? 0 : 1m / 16);
            var wanted = now < 0 ? -goal : goal;
            return Math.Abs(now) <= goal ? null : new Goal(axis, wanted, Seam.ToDouble(wanted - now));
        }
    }
}
