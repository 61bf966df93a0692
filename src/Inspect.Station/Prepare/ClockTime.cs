using System.Globalization;
using System.Text.RegularExpressions;

namespace Inspect.Station.Prepare;

/// <summary>Reads a time of day as people say it: <c>9:30 AM</c>, <c>9.30</c>, <c>14:00</c>, <c>2 pm</c>, <c>0930</c>.</summary>
public static partial class ClockTime
{
    /// <summary>The time, or null when the text is none. A bare hour is taken only with AM or PM, or when it is past noon.</summary>
    public static TimeOnly? Read(string typed)
    {
        if (Form().Match(typed) is not { Success: true } match)
        {
            return null;
        }

        var hour = int.Parse(match.Groups["hour"].Value, CultureInfo.InvariantCulture);
        var minute = match.Groups["minute"] is { Success: true } written ? int.Parse(written.Value, CultureInfo.InvariantCulture) : 0;
        if (match.Groups["half"] is { Success: true, Value: var half })
        {
            if (hour is 0 or > 12)
            {
                return null;
            }

            hour = (hour % 12) + (half is "p" or "P" ? 12 : 0);
        }
        else if (!match.Groups["minute"].Success && hour <= 12)
        {
            return null;
        }

        return hour < 24 && minute < 60 ? new TimeOnly(hour, minute) : null;
    }

    [GeneratedRegex(@"^\s*(?<hour>\d{1,2})(?:(?:[:.]|(?<=\d\d))(?<minute>\d\d))?(?:\s*(?<half>[ap])\.?\s?m\.?)?\s*$",
        RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex Form();
}
