using Inspect.Ball;
using Inspect.Sheets;
using Inspect.Sheets.Readings;
using static Inspect.Advice.AdviceFigures;

namespace Inspect.Advice;

/// <content>The sentences of hints.</content>
public static partial class AdviceWords
{
    internal static string OddWeight(Reading gross) => $"A ball of {gross} is unlikely; tenpin balls weigh 6 to 16 lb.";

    internal static string OddReading(Reading reading) =>
        $"{reading} is more than a scale shows of a drilled ball; was a decimal point or a unit left out?";

    /// <summary>For a hole that cannot lie in the ball.</summary>
    public static string OutsideTheBall(string hole) =>
        $"The {hole} hole as typed does not lie inside the ball; look at its depth, width and pitch.";

    internal static string WideHole(Digit digit, Reading width) =>
        $"A {Words.Of(digit)} hole of {width} is wider than such holes are; was it half an inch less?";

    internal static string OtherHand(Hand hand) =>
        $"The middle finger lies where the ring finger of a {Words.Of(hand)} hand would be; are two places swapped, "
            + "or is it the other hand?";

    internal static string HolesMeet(string one, string other) =>
        $"The {one} and {other} holes as typed run into each other; look at their places, depths and widths.";

    internal static string ThinWall(string one, string other, double wallIn) =>
        $"Between the {one} and {other} holes only about {Hundredths(Math.Max(wallIn, 0))} is left; under 1/8 in a bridge may crack.";

    internal static string UndrilledWeight(double ounces) =>
        $"Before drilling the ball would have weighed {Pounds(ounces)}, over the 16 lb allowed.";

    internal static string TooMuchUndrilled(double ounces) =>
        $"Before drilling the ball would have been {Ounces(ounces)} out of balance, more than balls are made with.";

    internal static string TooLittleUndrilled(double ounces) =>
        $"Before drilling the ball would have had {Ounces(ounces)} of top weight, less than balls are made with.";

    internal static string FarFromTheMark(double degrees) =>
        FormattableString.Invariant(
            $"Without its holes the ball would be heaviest about {degrees:0} degrees from the mark of its centre of gravity.");

    internal static string FarFromTheGrip => "Without its holes the ball would be heaviest far from the grip.";

    internal static string WouldFit(string slip) => $"It would fit if {slip}.";

    internal static string Swapped(BalanceAxis one, BalanceAxis other) => $"the readings of {one.Name} and of {other.Name} were swapped";

    internal static string OtherSign(BalanceAxis axis) => $"{axis.Name} had the other sign";

    internal static string DiffersFromBefore(Reading now, Reading then) =>
        $"Now {now}, at the earlier inspection {then}: further apart than the scale explains. Measure again.";

    internal static string HoleDiffersFromBefore(string hole, Reading now, Reading then) =>
        $"The {hole} hole now reads {now}, at the earlier inspection {then}. Was the ball drilled since, or is it a typing error?";

    internal static string WeightDoesNotFit(double change, Estimate predicted) =>
        $"The weight changed by {Signed(change)} oz since, while the change in holes takes {Range(predicted)} oz. Measure again.";

    internal static string BalanceDoesNotFit(BalanceAxis axis, double change, Estimate predicted) =>
        $"{Words.Capital(axis.Name)} balance changed by {Signed(change)} oz since, "
            + $"while the change in holes gives {Range(predicted)} oz. Measure again.";
}
