using System.Globalization;
using System.Text.RegularExpressions;

namespace Inspect.Station.ModelLists;

/// <summary>Reads a day of a list: 2027-03-14, 14.3.2027, 3/14/2027, 14 Mar 2027, March 2027 or 2027.</summary>
public static partial class ListedDay
{
    private static readonly string[] Named = ["d MMM yyyy", "d MMMM yyyy", "MMM d yyyy", "MMMM d yyyy", "d-MMM-yyyy"];
    private static readonly string[] Months = ["yyyy-MM", "MMM yyyy", "MMMM yyyy", "M/yyyy"];

    /// <summary>The day, or null when it is none.</summary>
    /// <param name="text">As the list has it.</param>
    /// <param name="isLast">Whether the last day of a month or year is meant, where it says no more; otherwise the first.</param>
    /// <param name="dayFirst">Whether the day stands before the month where both are numbers between slashes.</param>
    public static DateOnly? Read(string text, bool isLast, bool dayFirst)
    {
        var plain = text.Replace(",", " ", StringComparison.Ordinal).Replace("  ", " ", StringComparison.Ordinal).Trim();
        plain = plain.Split(' ') is [var only, var clock] && clock.Contains(':', StringComparison.Ordinal) ? only : plain;
        var slashes = dayFirst ? new[] { "d/M/yyyy", "d-M-yyyy" } : ["M/d/yyyy", "M-d-yyyy"];
        if (Exactly(plain, [.. slashes, "yyyy-MM-dd", "yyyy/M/d", "d.M.yyyy", .. Named]) is { } day)
        {
            return day;
        }

        if (Exactly(plain, Months) is { } month)
        {
            return isLast ? month.AddMonths(1).AddDays(-1) : month;
        }

        return Exactly(plain, ["yyyy"]) is { } year ? isLast ? new DateOnly(year.Year, 12, 31) : year : null;
    }

    /// <summary>The first number of a day between slashes; null when it is no such day.</summary>
    public static int? FirstPart(string text) =>
        Slashes().Match(text) is { Success: true } match ? int.Parse(match.Groups[1].Value, CultureInfo.InvariantCulture) : null;

    private static DateOnly? Exactly(string text, string[] formats) =>
        DateOnly.TryParseExact(text, formats, CultureInfo.InvariantCulture, DateTimeStyles.AllowWhiteSpaces, out var day)
            && day.Year is >= 1900 and <= 2200 ? day : null;

    [GeneratedRegex(@"^(\d{1,2})[/-]\d{1,2}[/-]\d{4}$", RegexOptions.CultureInvariant)]
    private static partial Regex Slashes();
}
