using System.Globalization;
using Inspect.Rules.Judging;
using Inspect.Station.Web;

namespace Inspect.Station.Desk.Charts;

/// <summary>One rule's bar.</summary>
/// <param name="Label">What people call the rule.</param>
/// <param name="Words">Its counts in words, and what share of all failures it and those above it are.</param>
/// <param name="Y">The top of its row.</param>
/// <param name="FailWidth">How long its failures are.</param>
/// <param name="HoldWidth">How long the bar of those left open is, drawn behind the failures.</param>
/// <param name="CumulativeX">Where the line of the share of all failures passes.</param>
public sealed record ParetoBar(string Label, string Words, double Y, double FailWidth, double HoldWidth, double CumulativeX);

/// <summary>The rules that balls fail, most failures first, with the running share of all failures.</summary>
/// <remarks>Drawn in a box of 360 units with a row of 36 for each rule. The name is above the bar, so that it
/// can be read on a phone.</remarks>
public sealed record ParetoDrawing(IReadOnlyList<ParetoBar> Bars, int Failures, int LeftOut)
{
    public const double Width = 360;
    public const double Left = 4;
    public const double Right = 352;
    public const double Top = 18;
    public const double RowHeight = 36;
    public const double BarTop = 17;
    public const double BarHeight = 11;
    private const int MostBars = 12;

    public double Height => Top + (RowHeight * Bars.Count) + 4;

    /// <summary>The bars of rules that a ball failed; at the last of them the running share is 100 %.</summary>
    public IEnumerable<ParetoBar> Failed => Bars.Where(bar => bar.FailWidth > 0);

    /// <summary>The line of the running share; empty when nothing failed.</summary>
    public string Line => Failures == 0 ? "" : Svg.Path(Failed.Select(bar => (bar.CumulativeX, Middle(bar))));

    public static double Middle(ParetoBar bar) => bar.Y + BarTop + (BarHeight / 2);

    /// <summary>The horizontal position of a share of all failures.</summary>
    public static double XOf(double share) => Left + ((Right - Left) * share);

    public static ParetoDrawing Of(IReadOnlyList<RuleCount> rules)
    {
        ArgumentNullException.ThrowIfNull(rules);
        var failures = rules.Sum(rule => rule.Failed);
        var longest = Math.Max(1, rules.Select(rule => rule.Failed + rule.Held).DefaultIfEmpty(1).Max());
        var bars = new List<ParetoBar>();
        var soFar = 0;
        foreach (var rule in rules.Take(MostBars))
        {
            soFar += rule.Failed;
            var share = failures == 0 ? 0 : (double)soFar / failures;
            bars.Add(new ParetoBar(
                Explanation.RuleTitle(rule.Rule), Words(rule, failures, share), Top + (RowHeight * bars.Count),
                LengthOf(rule.Failed), LengthOf(rule.Held), XOf(share)));
        }

        return new ParetoDrawing(bars, failures, Math.Max(0, rules.Count - MostBars));

        double LengthOf(int count) => (Right - Left) * count / longest;
    }

    private static string Words(RuleCount rule, int failures, double share)
    {
        var counts = new[]
        {
            rule.Failed == 0 ? null : $"{Count(rule.Failed)} not met",
            rule.Held == 0 ? null : $"{Count(rule.Held)} open",
        };
        var sum = failures == 0 || rule.Failed == 0 ? "" : string.Create(CultureInfo.InvariantCulture, $" · {100 * share:0} %");
        return string.Join(", ", counts.OfType<string>()) + sum;
    }

    private static string Count(int count) => count.ToString("N0", CultureInfo.InvariantCulture);
}
