using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using System.Text.RegularExpressions;
using Inspect.Station.Access;
using Inspect.Station.Prepare;

namespace Inspect.Station.Import;

/// <summary>Whether a list says that a bowler is under age: by a mark, or by a birth date, which is kept nowhere.</summary>
public static partial class UnderAge
{
    private const int Age = 18;

    // Nobody is older.
    private const int LongestLife = 120;

    private static readonly HashSet<string> Yes =
        new(["yes", "y", "true", "x", "1", "j", "ja", "oui", "si", "junior", "minor", "youth", "u18", "under age"], StringComparer.Ordinal);

    private static readonly HashSet<string> No = new(["no", "n", "false", "0", "nein", "non", "adult", "senior"], StringComparer.Ordinal);

    /// <summary>Reads both cells of a row; either may be empty.</summary>
    /// <param name="mark">The mark.</param>
    /// <param name="birth">The birth date.</param>
    /// <param name="into">The event, whose first day counts.</param>
    /// <param name="isUnderAge">What they say; null when both are empty.</param>
    /// <param name="unread">Why they cannot be read: a sentence that the cell is written behind, and the cell; the cell is null when the
    /// sentence stands alone.</param>
    public static bool TryRead(
        string mark, string birth, Event into, out bool? isUnderAge, [NotNullWhen(false)] out Unread? unread)
    {
        isUnderAge = null;
        unread = null;
        if (mark.Length > 0)
        {
            var said = string.Join(' ', NameFold.Words(mark));
            if (!Yes.Contains(said) && !No.Contains(said) && mark is not "-")
            {
                unread = new Unread("Whether somebody is under age is said with yes or no, true or false, x, 1 or 0, or J, unlike", mark);
                return false;
            }

            isUnderAge = Yes.Contains(said);
        }

        if (birth.Length == 0)
        {
            return true;
        }

        var answers = DaysOf(birth)
            .Where(day => day <= into.From && day.Year >= into.From.Year - LongestLife)
            .Select(day => IsUnderAge(day, into.From)).Distinct().ToList();
        if (answers.Count != 1)
        {
            unread = answers.Count == 0
                ? new Unread("A birth date is written as 2009-04-23, and is not after the event's first day, unlike", birth)
                : new Unread("The day and the month of a birth date can be either, and it matters: write it as 2009-04-23, unlike", birth);
            return false;
        }

        if (isUnderAge is { } marked && marked != answers[0])
        {
            unread = new Unread("The mark for who is under age and the birth date do not agree", null);
            return false;
        }

        isUnderAge = answers[0];
        return true;
    }

    // Whoever was born on 29 February is of age on 1 March.
    private static bool IsUnderAge(DateOnly birth, DateOnly day) =>
        day.Year - birth.Year - ((day.Month, day.Day).CompareTo((birth.Month, birth.Day)) < 0 ? 1 : 0) < Age;

    // The days that a cell can mean: with slashes the month may stand first.
    private static IEnumerable<DateOnly> DaysOf(string cell)
    {
        if (YearFirst().Match(cell) is { Success: true } first)
        {
            return Day(first.Groups[1].Value, first.Groups[2].Value, first.Groups[3].Value);
        }

        if (YearLast().Match(cell) is not { Success: true } last)
        {
            return [];
        }

        var (one, other, year) = (last.Groups[1].Value, last.Groups[3].Value, last.Groups[4].Value);
        return last.Groups[2].Value == "." ? Day(year, other, one) : Day(year, other, one).Concat(Day(year, one, other));
    }

    private static IEnumerable<DateOnly> Day(string year, string month, string day) => DateOnly.TryParseExact(
        $"{year}-{month.PadLeft(2, '0')}-{day.PadLeft(2, '0')}", "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None,
        out var read) ? [read] : [];

    [GeneratedRegex(@"^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})(?:[ T]00:00(?::00)?)?$")]
    private static partial Regex YearFirst();

    [GeneratedRegex(@"^(\d{1,2})([-/.]) ?(\d{1,2})\2 ?(\d{4})$")]
    private static partial Regex YearLast();
}

/// <summary>Why a cell cannot be read.</summary>
/// <param name="Sentence">The sentence, which the cell is written behind.</param>
/// <param name="Value">The cell; null when the sentence stands alone.</param>
public sealed record Unread(string Sentence, string? Value);
