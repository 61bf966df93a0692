using System.Globalization;
using Inspect.Sheets.Form;
using Inspect.Station.Prepare;

namespace Inspect.Station.Measure;

/// <summary>When a ball was measured whose readings were written on paper first: a day and a time at the venue.</summary>
internal static class PaperTime
{
    /// <summary>The field of the day.</summary>
    public const string Day = "paper.day";

    /// <summary>The field of the time; empty when nothing was written on paper.</summary>
    public const string Time = "paper.time";

    /// <summary>The instant, or null where the fields are empty, or say something that cannot be: then the fault is added.</summary>
    /// <param name="held">The event, whose venue has the clock.</param>
    /// <param name="typed">The form.</param>
    /// <param name="now">The present instant.</param>
    public static DateTimeOffset? Read(Event held, MeasureForm typed, DateTimeOffset now)
    {
        var (day, time) = (typed.Typed(Day), typed.Typed(Time));
        if (day.Length == 0 && time.Length == 0)
        {
            return null;
        }

        // Not today where it is left out: the form may be kept and recorded tomorrow.
        if (!DateOnly.TryParseExact(day, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var on))
        {
            typed.Refuse(
                Day, day.Length == 0 ? "Write the day that stands on the sheet." : $"\"{day}\" is not a day; write it as 2027-03-14.");
        }

        if (ClockTime.Read(time) is not { } at)
        {
            typed.Refuse(Time, time.Length == 0
                ? "Write the time that stands on the sheet, as 14:05 or 2:05 pm."
                : $"\"{time}\" is not a time of day; write it as 14:05 or 2:05 pm.");
            return null;
        }

        if (on == default)
        {
            return null;
        }

        var local = on.ToDateTime(at);
        var instant = new DateTimeOffset(local, TimeZoneInfo.FindSystemTimeZoneById(held.TimeZone).GetUtcOffset(local));
        if (instant > now)
        {
            typed.Refuse(Time, string.Create(
                CultureInfo.InvariantCulture, $"{local:d MMMM yyyy, HH:mm} is still to come; write when the ball was measured."));
            return null;
        }

        return instant;
    }

    /// <summary>The fields of an instant.</summary>
    public static IEnumerable<KeyValuePair<string, string>> Of(Event held, DateTimeOffset instant)
    {
        var local = TimeZoneInfo.ConvertTime(instant, TimeZoneInfo.FindSystemTimeZoneById(held.TimeZone));
        yield return KeyValuePair.Create(Day, local.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture));
        yield return KeyValuePair.Create(Time, local.ToString("HH:mm", CultureInfo.InvariantCulture));
    }
}
