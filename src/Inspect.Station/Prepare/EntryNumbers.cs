using System.Globalization;

namespace Inspect.Station.Prepare;

/// <summary>The numbers of an event's entries: which can be used, which comes next, and how wide they are written.</summary>
/// <remarks>Upper and lower case are the same number.</remarks>
internal sealed class EntryNumbers
{
    private const int Longest = 12;

    // Numbers made of more figures than this are not counted on from.
    private const int MostFigures = 9;

    private readonly HashSet<string> _taken;
    private readonly int? _width;
    private long _last;

    /// <param name="there">The numbers of the event's entries.</param>
    /// <param name="given">The numbers in a list that is being entered; empty for none.</param>
    public EntryNumbers(IEnumerable<string> there, IEnumerable<string> given)
    {
        var (entered, listed) = (there.ToList(), given.ToList());
        _taken = entered.Concat(listed).ToHashSet(StringComparer.OrdinalIgnoreCase);
        _width = WidthOf(entered) ?? WidthOf(listed);
        _last = _taken.Where(IsFigures).Select(number => long.Parse(number, CultureInfo.InvariantCulture)).DefaultIfEmpty().Max();
    }

    /// <summary>The next free number, after the highest one.</summary>
    public string Next()
    {
        string next;
        do
        {
            _last++;
            next = _last.ToString(CultureInfo.InvariantCulture).PadLeft(_width ?? 1, '0');
        }
        while (!_taken.Add(next));
        return next;
    }

    /// <summary>The number with the zeros that others have and a spreadsheet may have taken off; null when none are missing.</summary>
    public string? WithZeros(string number) =>
        _width is { } width && IsFigures(number) && number.Length < width ? number.PadLeft(width, '0') : null;

    /// <summary>What is wrong with a number, in words that fit before the rows; null when it can be used.</summary>
    /// <remarks>It is part of addresses, where "add" is the page that adds entries.</remarks>
    public static string? FaultOf(string number) =>
        number.Length is 0 or > Longest || !number.All(each => char.IsAsciiLetterOrDigit(each) || each == '-')
            ? $"An entry number has 1 to {Longest} letters A to Z, digits or hyphens, unlike"
            : string.Equals(number, "add", StringComparison.OrdinalIgnoreCase) ? "An entry number here is any other word than" : null;

    // As wide as the numbers that begin with a zero, where those are of one width.
    private static int? WidthOf(IEnumerable<string> numbers) =>
        numbers.Where(number => IsFigures(number) && number is ['0', _, ..]).Select(number => number.Length).Distinct().Take(2).ToList()
            is [var width] ? width : null;

    private static bool IsFigures(string number) => number.Length is > 0 and <= MostFigures && number.All(char.IsAsciiDigit);
}
