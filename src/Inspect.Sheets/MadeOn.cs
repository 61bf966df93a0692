using System.Globalization;

namespace Inspect.Sheets;

/// <summary>When a ball was made, as exactly as is known: a year, a month or a day. It is kept as a span of days.</summary>
/// <param name="Text">As typed.</param>
/// <param name="First">The earliest day it can mean.</param>
/// <param name="Last">The latest day it can mean.</param>
public sealed record MadeOn(string Text, DateOnly First, DateOnly Last)
{
    /// <summary>Reads <c>1988</c>, <c>1988-05</c> or <c>1988-05-17</c>, from 1900 on.</summary>
    public static bool TryParse(string text, out MadeOn? made)
    {
        made = null;
        if (DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day))
        {
            made = new MadeOn(text, day, day);
        }
        else if (DateOnly.TryParseExact(text, "yyyy-MM", CultureInfo.InvariantCulture, DateTimeStyles.None, out var month))
        {
            made = new MadeOn(text, month, month.AddMonths(1).AddDays(-1));
        }
        else if (DateOnly.TryParseExact(text, "yyyy", CultureInfo.InvariantCulture, DateTimeStyles.None, out var year))
        {
            made = new MadeOn(text, year, year.AddYears(1).AddDays(-1));
        }

        if (made is { First.Year: < 1900 })
        {
            made = null;
        }

        return made is not null;
    }
}
