using System.Globalization;
using Inspect.Station.Web;

namespace Inspect.Station.Desk.Charts;

/// <summary>One hour's column: passed at the bottom, then open, then failed.</summary>
public sealed record HourColumn(double X, double Width, double PassY, double HoldY, double FailY, HourCount Count);

/// <summary>A squad's start: a line across the columns, its name above.</summary>
public sealed record SquadMark(double X, double LabelY, string Anchor, string Words);

/// <summary>The balls of one day by the hour, with the squads' starts.</summary>
/// <remarks>Drawn in a box of 360 by 190 units.</remarks>
public sealed record DayDrawing
{
    public const double Width = 360;
    public const double Height = 190;
    public const double Left = 30;
    public const double Right = 352;
    public const double Top = 36;
    public const double Bottom = 162;
    private const double Gap = 0.12;

    public required DateOnly Day { get; init; }

    public required IReadOnlyList<HourColumn> Columns { get; init; }

    public required IReadOnlyList<(double Y, string Words)> Ticks { get; init; }

    /// <summary>Where an hour begins, with its number. Some are left out when they would overlap.</summary>
    public required IReadOnlyList<(double X, string Words)> Hours { get; init; }

    public required IReadOnlyList<SquadMark> Squads { get; init; }

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
        return new DayDrawing
        {
            Day = day.Day,
            Columns = [.. day.Hours.Select((hour, i) => new HourColumn(
                Left + ((i + Gap) * wide), wide * (1 - (2 * Gap)), YOf(hour.Passed), YOf(hour.Passed + hour.Held), YOf(hour.All), hour))],
            Ticks = [.. Enumerable.Range(0, (top / step) + 1)
                .Select(i => (YOf(i * step), (i * step).ToString(CultureInfo.InvariantCulture)))],
            Hours = [.. Enumerable.Range(0, day.Hours.Count + 1).Where(i => i % every == 0)
                .Select(i => (Left + (i * wide), ((day.FirstHour + i) % 24).ToString("00", CultureInfo.InvariantCulture)))],
            Squads = Marks(day, wide),
        };

        double YOf(int count) => Bottom - ((Bottom - Top) * count / top);
    }

    // Names of squads that begin close together are set in two rows.
    private static List<SquadMark> Marks(HourCounts day, double wide)
    {
        var marks = new List<SquadMark>();
        foreach (var squad in day.Squads)
        {
            var x = Left + (wide * (squad.Starts.TimeOfDay.TotalHours - day.FirstHour));
            var row = marks.Count > 0 && x - marks[^1].X < 80 && marks[^1].LabelY > 20 ? 12 : 26;
            var anchor = x > Right - 60 ? "end" : x < Left + 60 ? "start" : "middle";
            marks.Add(
                new SquadMark(x, row, anchor, string.Create(CultureInfo.InvariantCulture, $"squad {squad.Name}, {squad.Starts:HH:mm}")));
        }

        return marks;
    }
}
