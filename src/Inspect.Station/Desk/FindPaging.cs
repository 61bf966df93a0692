using System.Globalization;
using Inspect.Station.Web;

namespace Inspect.Station.Desk;

/// <summary>Where a page of results begins: older or newer than one entry of the register, so that later records do not move it.</summary>
/// <param name="Seq">The entry.</param>
/// <param name="IsOlder">Whether the page continues with older ones.</param>
public sealed record FindCursor(long Seq, bool IsOlder)
{
    private const string Older = "before-";
    private const string Newer = "after-";

    /// <summary>Reads what <see cref="ToString"/> wrote.</summary>
    public static FindCursor? Parse(string text)
    {
        var isOlder = text.StartsWith(Older, StringComparison.Ordinal);
        var digits = isOlder ? text[Older.Length..] : text.StartsWith(Newer, StringComparison.Ordinal) ? text[Newer.Length..] : "";
        return long.TryParse(digits, NumberStyles.None, CultureInfo.InvariantCulture, out var seq) ? new FindCursor(seq, isOlder) : null;
    }

    public override string ToString() => FormattableString.Invariant($"{(IsOlder ? Older : Newer)}{Seq}");
}

/// <summary>The members of a search that do not filter: how long a page is, and where it begins.</summary>
internal static class FindPaging
{
    /// <summary>The member that says how many results a page has.</summary>
    public const string Size = "size";

    /// <summary>The member that says where a page begins.</summary>
    public const string Cursor = "cursor";

    private const int CommonSize = 50;
    private const int LargestSize = 200;

    /// <summary>Both with their description, for programs.</summary>
    public static readonly (string Name, string Says)[] Members =
    [
        (Size, $"Inspections on a page, 1 to {LargestSize}; {CommonSize} if left out."),
        (Cursor, "What an answer gave as next or previous."),
    ];

    /// <summary>Where the page begins, null for the newest, and how many results it has.</summary>
    public static (FindCursor? Cursor, int Size) Read(FindAsked asked, Faults faults)
    {
        var (cursor, size) = ((FindCursor?)null, CommonSize);
        if (asked[Cursor] is { } place && (cursor = FindCursor.Parse(place)) is null)
        {
            faults.Add(
                Cursor,
                $"\"{place}\" is not a place in the results; use what an earlier answer gave as next or previous, or leave it out.");
        }

        if (asked[Size] is { } typed
            && !(int.TryParse(typed, NumberStyles.None, CultureInfo.InvariantCulture, out size) && size is >= 1 and <= LargestSize))
        {
            faults.Add(Size, $"\"{typed}\" is not a size of a page; give a whole number from 1 to {LargestSize}.");
        }

        return (cursor, size);
    }
}
