using System.Globalization;
using Inspect.Station.Web;

namespace Inspect.Station.Desk.Charts;

/// <summary>One share with its interval.</summary>
/// <param name="Name">The inspector or the instrument, shortened where the name is too long.</param>
/// <param name="Words">The counts and the interval in words.</param>
/// <param name="Y">The top of its row.</param>
/// <param name="LowX">The lower end of the interval.</param>
/// <param name="ShareX">The share itself.</param>
/// <param name="HighX">The upper end.</param>
public sealed record ShareRow(string Name, string Words, double Y, double LowX, double ShareX, double HighX);

/// <summary>Failure shares for comparison: a dot for the share, a line for its interval, and a line across for the
/// share of all together.</summary>
/// <remarks>Drawn in a box of 360 units with a row of 36 for each share.</remarks>
public sealed record ShareDrawing(
    IReadOnlyList<ShareRow> Rows, (double X, string Words)? All, IReadOnlyList<(double X, string Words)> Ticks)
{
    public const double Width = 360;
    public const double Left = 8;
    public const double Right = 348;
    public const double Top = 18;
    public const double RowHeight = 36;
    public const double LineAt = 23;

    // The larger letters of a phone.
    private const double NameSize = 13.5;
    private const double Gap = 10;

    public double Bottom => Top + (RowHeight * Rows.Count);

    public double Height => Bottom + 18;

    public static ShareDrawing Of(IReadOnlyList<FailureShare> shares, FailureShare? together)
    {
        ArgumentNullException.ThrowIfNull(shares);
        var axis = ShareAxis.Of(shares.Max(share => share.Interval.High));
        return new ShareDrawing(
            [.. shares.Select((share, i) => new ShareRow(
                Svg.Cut(share.Name, NameSize, Right - Left - Gap - Svg.Width(Words(share), Svg.LabelSize)),
                Words(share), Top + (RowHeight * i), XOf(share.Interval.Low), XOf(share.Share), XOf(share.Interval.High)))],
            together is null ? null : (XOf(together.Share), $"all {Percent(together.Share)} %"),
            [.. axis.Ticks.Select(at => (XOf(at), $"{Percent(at)} %"))]);

        double XOf(double share) => Left + ((Right - Left) * share / axis.End);
    }

    /// <summary>Counts and interval, as in <c>5 of 17: 10 to 56 %</c>.</summary>
    public static string Words(FailureShare share)
    {
        ArgumentNullException.ThrowIfNull(share);
        return string.Create(
            CultureInfo.InvariantCulture,
            $"{share.Failed:N0} of {share.Of:N0}: {Percent(share.Interval.Low)} to {Percent(share.Interval.High)} %");
    }

    /// <summary>Whole per cent; one decimal between 0 and 1 %.</summary>
    public static string Percent(double share) =>
        (100 * share).ToString(share is > 0 and < 0.01 ? "0.0" : "0", CultureInfo.InvariantCulture);
}
