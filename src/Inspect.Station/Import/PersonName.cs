using System.Text.RegularExpressions;
using Inspect.Station.Access;

namespace Inspect.Station.Import;

/// <summary>The names in a list: written with the last name first, and places that are free.</summary>
public static partial class PersonName
{
    private static readonly HashSet<string> FreeWords =
        new(["vacant", "vacancy", "bye", "tba", "tbd", "tbc", "open", "empty", "free", "nobody", "none", "na"], StringComparer.Ordinal);

    private static readonly HashSet<string> BesideThem =
        new(["spot", "place", "slot", "entry", "lane", "position", "n", "a", "to", "be", "announced", "no"], StringComparer.Ordinal);

    /// <summary>Whether a name is written as "Quince, Bartholomew".</summary>
    public static bool IsLastFirst(string name) => name.Split(',') is [var last, var first, ..] and { Length: <= 3 }
        && last.Trim().Length > 0 && first.Trim().Length > 0 && !Generation().IsMatch(first.Trim());

    /// <summary>"Quince, Bartholomew" as "Bartholomew Quince", and "Quince, Bartholomew, Jr." as "Bartholomew Quince Jr."; any other name
    /// as it is.</summary>
    public static string FirstLast(string name)
    {
        if (!IsLastFirst(name))
        {
            return name;
        }

        var parts = name.Split(',', StringSplitOptions.TrimEntries);
        return parts.Length == 2 ? $"{parts[1]} {parts[0]}"
            : Generation().IsMatch(parts[2]) ? $"{parts[1]} {parts[0]} {parts[2]}"
            : name;
    }

    /// <summary>Whether it says that a place is free, such as "-- vacant --", "BYE" or "TBA 3".</summary>
    public static bool IsFree(string name)
    {
        var words = NameFold.Words(name).Where(word => !word.All(char.IsAsciiDigit)).ToList();
        return words.Count == 0 || (words.Exists(IsFreeWord) && words.TrueForAll(word => IsFreeWord(word) || BesideThem.Contains(word)))
            || (words is ["n", "a"] or ["to", "be", "announced"]);
    }

    private static bool IsFreeWord(string word) => FreeWords.Contains(word);

    [GeneratedRegex(@"^(jr|sr|junior|senior|i{2,3}|iv|v)\.?$", RegexOptions.IgnoreCase)]
    private static partial Regex Generation();
}
