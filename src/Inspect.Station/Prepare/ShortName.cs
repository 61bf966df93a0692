using System.Globalization;
using Inspect.Station.Access;

namespace Inspect.Station.Prepare;

/// <summary>The short name that is taken for an event whose director gives none: <c>Spring Open 2027</c> becomes <c>SPRING27</c>.</summary>
public static class ShortName
{
    private const int MostLetters = 9;
    private static readonly string[] Articles = ["THE", "A", "AN"];

    /// <summary>The first word of the name and the year; with a further letter when another event has that. Empty when the name has
    /// no word of two letters.</summary>
    /// <param name="name">The event's name in full.</param>
    /// <param name="from">The first day of play, for the year, unless the name says one.</param>
    /// <param name="taken">The short names of the other events.</param>
    public static string Suggested(string name, DateOnly? from, IReadOnlyCollection<string> taken)
    {
        var words = NameFold.Words(name).Select(word => word.ToUpperInvariant()).ToList();
        var first = words.FirstOrDefault(word => word.Length > 1 && word.All(char.IsAsciiLetter) && !Articles.Contains(word));
        if (first is null)
        {
            return "";
        }

        var year = words.FirstOrDefault(word => word.Length == 4 && word.All(char.IsAsciiDigit))
            ?? from?.ToString("yyyy", CultureInfo.InvariantCulture);
        var made = first[..Math.Min(first.Length, MostLetters)] + year?[2..];
        return Enumerable.Range('A', 26).Select(letter => letter == 'A' ? made : made + (char)letter)
            .FirstOrDefault(each => each != "NEW" && !taken.Contains(each)) ?? made;
    }
}
