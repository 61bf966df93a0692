using System.Globalization;

namespace Inspect.Station.Web;

/// <summary>A part of a long list, for one page.</summary>
/// <param name="Items">What is on this page.</param>
/// <param name="Number">Which page it is, from 1.</param>
/// <param name="Pages">How many there are, at least 1.</param>
public sealed record PageOf<T>(IReadOnlyList<T> Items, int Number, int Pages)
{
    /// <summary>The same page with what was read for its items.</summary>
    public PageOf<TOther> With<TOther>(IReadOnlyList<TOther> items) => new(items, Number, Pages);
}

/// <summary>Cuts long lists into pages.</summary>
public static class PageOf
{
    private const int Size = 100;

    /// <summary>The page that was asked for, the first when nothing is; null when there is no such page.</summary>
    public static PageOf<T>? Of<T>(IReadOnlyList<T> all, string? asked)
    {
        var (number, pages) = (1, Math.Max(1, (all.Count + Size - 1) / Size));
        return string.IsNullOrEmpty(asked)
            || (int.TryParse(asked, NumberStyles.None, CultureInfo.InvariantCulture, out number) && number >= 1 && number <= pages)
            ? new PageOf<T>([.. all.Skip((number - 1) * Size).Take(Size)], number, pages)
            : null;
    }

    /// <summary>The sentence when there is no such page.</summary>
    public static string NoSuchPage(string? asked) => $"There is no page \"{asked}\" of this list; leave out page for the first one.";
}
