using System.Globalization;
using Inspect.Rules.Judging;
using Inspect.Station.Web;

namespace Inspect.Station.Desk.Charts;

/// <summary>One rule's bar.</summary>
/// <param name="Label">What people call the rule, shortened where it is too long.</param>
/// <param name="Words">Its counts in words.</param>
/// <param name="Y">The top of its row.</param>
/// <param name="FailWidth">How long the share of inspections that failed it is.</param>
/// <param name="HoldWidth">How long the share that left it open is, drawn behind the failures.</param>
public sealed record RuleBar(string Label, string Words, double Y, double FailWidth, double HoldWidth);

/// <summary>The rules that balls fail, most failures first, as shares of all inspections.</summary>
/// <remarks>Drawn in a box of 360 units with a row of 36 for each rule. The name is above the bar, so that it
/// can be read on a phone.</remarks>
public sealed record RuleDrawing(IReadOnlyList<RuleBar> Bars, IReadOnlyList<(double X, string Words)> Ticks, int LeftOut)
{
    public const double Width = 360;
    public const double Left = 4;
    public const double Right = 348;
    public const double Top = 18;
    public const double RowHeight = 36;
    public const double BarTop = 17;
    public const double BarHeight = 11;
    private const int MostBars = 12;

    // The larger letters of a phone.
    private const double NameSize = 13.5;
    private const double WordsSize = 12.5;
    private const double Gap = 12;

    public double Height => Top + (RowHeight * Bars.Count) + 4;

    /// <summary>Draws rules that were checked in a number of inspections.</summary>
    public static RuleDrawing Of(IReadOnlyList<RuleCount> rules, int inspections)
    {
        ArgumentNullException.ThrowIfNull(rules);
        var axis = ShareAxis.Of(rules.Select(rule => rule.Failed + rule.Held).DefaultIfEmpty(0).Max() / (double)inspections);
        return new RuleDrawing(
            [.. rules.Take(MostBars).Select((rule, i) =>
            {
                var words = Words(rule);
                var label = Svg.Cut(Explanation.RuleTitle(rule.Rule), NameSize, Right - Left - Gap - Svg.Width(words, WordsSize));
                return new RuleBar(label, words, Top + (RowHeight * i), LengthOf(rule.Failed), LengthOf(rule.Held));
            })],
            [.. axis.Ticks.Select(share => (Left + ((Right - Left) * share / axis.End), $"{ShareDrawing.Percent(share)} %"))],
            Math.Max(0, rules.Count - MostBars));

        double LengthOf(int count) => (Right - Left) * count / inspections / axis.End;
    }

    private static string Words(RuleCount rule) => string.Join(", ", new[]
    {
        rule.Failed == 0 ? null : $"{Count(rule.Failed)} not met",
        rule.Held == 0 ? null : $"{Count(rule.Held)} open",
    }.OfType<string>());

    private static string Count(int count) => count.ToString("N0", CultureInfo.InvariantCulture);
}
