using System.Globalization;
using Inspect.Station.Prepare;
using Inspect.Station.Web;

namespace Inspect.Station.Desk.Charts;

/// <summary>One hour's column: passed at the bottom, then open, then failed.</summary>
public sealed record HourColumn(double X, double Width, double PassY, double HoldY, double FailY, HourCount Count);

/// <summary>A squad's start: a line across the columns.</summary>
/// <param name="X">Where it begins.</param>
/// <param name="Top">The top of its line.</param>
public sealed record SquadMark(double X, double Top);

/// <summary>The balls of one day by the hour, with the squads' starts.</summary>
/// <remarks>Drawn in a box of 360 by 190 units.</remarks>
public sealed record DayDrawing
{
    public const double Width = 360;
    public const double Height = 190;
    public const double Left = 30;
    public const double Right = 352;
    public const double Top = 36;
    public const double Bottom = 158;
    private const double Gap = 0.12;

    public required DateOnly Day { get; init; }

    public required IReadOnlyList<HourColumn> Columns { get; init; }

    public required IReadOnlyList<(double Y, string Words)> Ticks { get; init; }

    /// <summary>Where an hour begins, with its number. Some are left out when they would overlap.</summary>
    public required IReadOnlyList<(double X, string Words)> Hours { get; init; }

    public required IReadOnlyList<SquadMark> Squads { get; init; }

    /// <summary>What is written above the squads' lines: name and time; where these do not fit, the times that fit.</summary>
    public required IReadOnlyList<(double X, double Y, string Words)> SquadLabels { get; init; }

    /// <summary>The squads in words, where their names do not fit above their lines.</summary>
    public required string? SquadWords { get; init; }

    /// <summary>Where the box begins: without squads there is nothing above the columns.</summary>
    public double ViewTop => Squads.Count == 0 ? Top - 12 : 0;

    public static DayDrawing Of(HourCounts day)
    {
        ArgumentNullException.ThrowIfNull(day);
        var most = day.Hours.Max(hour => hour.All);
        var step = Scale.WholeStep(most, 4);
        var top = step * (int)Math.Ceiling((double)most / step);
        var wide = (Right - Left) / day.Hours.Count;
        var every = Math.Max(1, (int)Math.Ceiling(26 / wide));
        var squads = day.Squads.Select(squad => Left + (wide * (squad.Starts.TimeOfDay.TotalHours - day.FirstHour))).ToList();
        var labels = InTwoRows([.. squads.Zip(day.Squads, (x, squad) => (x, $"squad {Words(squad)}"))]);
        var hasNames = labels.Count == squads.Count;
        labels = hasNames ? labels : InTwoRows([.. squads.Zip(day.Squads, (x, squad) => (x, Time(squad)))]);
        return new DayDrawing
        {
            Day = day.Day,
            Columns = [.. day.Hours.Select((hour, i) => new HourColumn(
                Left + ((i + Gap) * wide), wide * (1 - (2 * Gap)), YOf(hour.Passed), YOf(hour.Passed + hour.Held), YOf(hour.All), hour))],
            Ticks = [.. Enumerable.Range(0, (top / step) + 1)
                .Select(i => (YOf(i * step), (i * step).ToString(CultureInfo.InvariantCulture)))],
            Hours = [.. Enumerable.Range(0, day.Hours.Count + 1).Where(i => i % every == 0)
                .Select(i => (Left + (i * wide), ((day.FirstHour + i) % 24).ToString("00", CultureInfo.InvariantCulture)))],
            Squads = [.. squads.Zip(day.Squads, (x, squad) => new SquadMark(
                x, labels.Find(label => label.Words.EndsWith(hasNames ? Words(squad) : Time(squad), StringComparison.Ordinal)).Y + 3))],
            SquadLabels = labels,
            SquadWords = hasNames ? null : string.Join("; ", day.Squads.Select(Words)),
        };

        double YOf(int count) => Bottom - ((Bottom - Top) * count / top);
    }

    // A label that touches the one before it is set one row higher; what touches there too is left out.
    private static List<(double X, double Y, string Words)> InTwoRows(List<(double X, string Words)> labels)
    {
        var low = Svg.Apart(labels, 0, Width).ToList();
        var high = Svg.Apart(labels.Where(label => !low.Exists(each => each.Words == label.Words)), 0, Width);
        return [.. low.Select(label => (label.X, 26.0, label.Words)), .. high.Select(label => (label.X, 12.0, label.Words))];
    }

    private static string Words(Squad squad) => $"{squad.Name}, {Time(squad)}";

    private static string Time(Squad squad) => squad.Starts.ToString("HH:mm", CultureInfo.InvariantCulture);
}
