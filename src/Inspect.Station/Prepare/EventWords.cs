using System.Globalization;
using Inspect.Rules.Rulesets;
using Inspect.Station.Rulesets;

namespace Inspect.Station.Prepare;

/// <summary>How days and times of an event are written on pages.</summary>
public static class EventWords
{
    /// <summary>The days of play, such as <c>24 to 28 November 2026</c>.</summary>
    public static string Days(Event shown)
    {
        var to = Day(shown.To, "d MMMM yyyy");
        if (shown.From == shown.To)
        {
            return to;
        }

        var from = shown.From.Year != shown.To.Year ? "d MMMM yyyy" : shown.From.Month != shown.To.Month ? "d MMMM" : "%d";
        return $"{Day(shown.From, from)} to {to}";
    }

    /// <summary>A local time, such as <c>Wednesday 25 November, 09:00</c>.</summary>
    public static string Moment(DateTime local) => local.ToString("dddd d MMMM, HH:mm", CultureInfo.InvariantCulture);

    /// <summary>The rules of an event in words: one edition, or the body's edition in force on the day of play.</summary>
    public static string OfEvent(this EditionLibrary editions, Event held) =>
        editions.OfEdition(held.Edition) ?? $"{editions.OfBody(held.Authority)}, the edition in force on the day of play";

    /// <summary>A day in words, as in <c>7 March 2027</c>.</summary>
    public static string Day(DateOnly day) => Day(day, "d MMMM yyyy");

    private static string Day(DateOnly day, string format) => day.ToString(format, CultureInfo.InvariantCulture);
}
