using System.Globalization;
using Inspect.Sheets.Json;
using Inspect.Station.Web;

namespace Inspect.Station.Prepare;

/// <summary>One squad of an event's form as typed.</summary>
/// <param name="Was">The name of a squad that the event has already; empty for one that is added.</param>
/// <param name="Name">What it is called.</param>
/// <param name="Day">The day it begins; empty for the event's first day.</param>
/// <param name="Time">The time of day it begins.</param>
/// <param name="IsGone">Whether it is to be removed.</param>
public sealed record TypedSquad(string Was, string Name, string Day, string Time, bool IsGone = false)
{
    /// <summary>The form fields begin with this, each with the row's number from 0: <c>squads[0].name</c>.</summary>
    public const string Field = "squads";

    private const int LongestName = 40;
    private const int MostRows = 200;

    /// <summary>An empty row.</summary>
    public static readonly TypedSquad None = new("", "", "", "");

    /// <summary>The form field of one answer, which is also the place of its faults.</summary>
    public static string Path(int row, string answer) => FormattableString.Invariant($"{Field}[{row}].{answer}");

    /// <summary>The row of a squad that an event has.</summary>
    public static TypedSquad Of(Squad squad) => new(
        squad.Name, squad.Name, squad.Starts.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
        squad.Starts.ToString("HH:mm", CultureInfo.InvariantCulture));

    /// <summary>The rows that were sent, in their order.</summary>
    public static IReadOnlyList<TypedSquad> Of(IFormCollection form) =>
    [
        .. Enumerable.Range(0, MostRows).TakeWhile(row => form.ContainsKey(Path(row, "name"))).Select(row => new TypedSquad(
            form[Path(row, "was")].ToString(), form[Path(row, "name")].ToString().Trim(), form[Path(row, "day")].ToString().Trim(),
            form[Path(row, "time")].ToString().Trim(), form[Path(row, "gone")] == "yes")),
    ];

    /// <summary>What the rows make of the squads, without the empty rows. Adds a fault for each answer that cannot be used.</summary>
    /// <param name="rows">The rows as typed.</param>
    /// <param name="days">The event's days; null when they could not be read.</param>
    /// <param name="faults">Where faults are added.</param>
    public static IReadOnlyList<ChangedSquad> Read(
        IReadOnlyList<TypedSquad> rows, (DateOnly From, DateOnly To)? days, Faults faults)
    {
        var read = new List<ChangedSquad>();
        foreach (var (row, typed) in rows.Index())
        {
            if (typed.IsGone)
            {
                read.Add(new ChangedSquad(typed.Was, null));
            }
            else if (typed is not { Was: "", Name: "", Day: "", Time: "" })
            {
                var isNamed = typed.IsNamed(row, read, faults);
                if (typed.Starts(row, days, faults) is { } starts && isNamed)
                {
                    read.Add(new ChangedSquad(typed.Was.Length == 0 ? null : typed.Was, new Squad(typed.Name, starts)));
                }
            }
        }

        return read;
    }

    private bool IsNamed(int row, List<ChangedSquad> before, Faults faults)
    {
        var fault = Name.Length is 0 or > LongestName || !PlainText.IsLine(Name)
            ? $"\"{Name}\" cannot be the name of a squad; give 1 to {LongestName} characters, such as A"
                + (Was.Length == 0 ? "." : $", or tick Remove if there is no squad {Was} any more.")
            : before.Exists(squad => string.Equals(squad.Now?.Name, Name, StringComparison.OrdinalIgnoreCase))
                ? $"Squad \"{Name}\" is in an earlier row already; give each squad a different name."
                : null;
        if (fault is not null)
        {
            faults.Add(Path(row, "name"), fault);
        }

        return fault is null;
    }

    private DateTime? Starts(int row, (DateOnly From, DateOnly To)? days, Faults faults)
    {
        var time = ClockTime.Read(Time);
        if (time is null)
        {
            faults.Add(Path(row, "time"), Time.Length == 0 ? $"Say when squad \"{Name}\" begins, such as 9:30 AM or 14:00."
                : $"\"{Time}\" is not a time of day; write it as 9:30 AM or 14:00.");
        }

        DateOnly? day = Day.Length == 0 ? days?.From
            : DateOnly.TryParseExact(Day, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var read) ? read : null;
        if (day is null && Day.Length > 0)
        {
            faults.Add(Path(row, "day"), $"\"{Day}\" is not a day; write it as 2027-03-14.");
        }
        else if (days is var (from, to) && (day < from || day > to))
        {
            faults.Add(Path(row, "day"), string.Create(CultureInfo.InvariantCulture,
                $"\"{Day}\" is not in the event, which runs from {from:yyyy-MM-dd} to {to:yyyy-MM-dd}."));
            return null;
        }

        return day is { } begins && time is { } at ? begins.ToDateTime(at) : null;
    }
}

/// <summary>What becomes of a squad of an event.</summary>
/// <param name="Was">Its name until now; null when it is added.</param>
/// <param name="Now">The squad from now on; null when it is removed.</param>
public sealed record ChangedSquad(string? Was, Squad? Now);
