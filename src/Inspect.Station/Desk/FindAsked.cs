using System.Text;
using Inspect.Station.Web;

namespace Inspect.Station.Desk;

/// <summary>The query of a search as it was typed. The form shows it again, and links keep it.</summary>
public sealed class FindAsked
{
    /// <summary>Every member that a search may have, in the order used in links.</summary>
    public static IReadOnlyList<string> Members { get; } =
        [.. FindFilters.All.Select(filter => filter.Name), FindPaging.Size, FindPaging.Cursor];

    private const int LongestText = 200;

    private readonly Dictionary<string, string> _typed;

    private FindAsked(Dictionary<string, string> typed) => _typed = typed;

    /// <summary>Reads a query. A member that is unknown, given twice or too long is a fault; an empty one is ignored.</summary>
    public static FindAsked Of(IQueryCollection query, Faults faults)
    {
        var typed = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var (name, values) in query)
        {
            var text = values.ToString().Trim();
            if (!Members.Contains(name, StringComparer.Ordinal))
            {
                faults.Add(
                    name.Length is 0 or > 40 ? Faults.Whole : name,
                    $"\"{Shortened(name)}\" is not a filter; choose from {string.Join(", ", Members)}.");
            }
            else if (values.Count > 1)
            {
                faults.Add(name, $"\"{name}\" is given {values.Count} times; give it once.");
            }
            else if (text.Length > LongestText)
            {
                faults.Add(name, $"\"{Shortened(text)}\" is longer than {LongestText} characters; type less of it.");
            }
            else if (!text.EnumerateRunes().All(IsWritten))
            {
                var rest = string.Concat(text.EnumerateRunes().Where(IsWritten).Select(rune => rune.ToString()));
                faults.Add(name, $"\"{Shortened(rest)}\" has a character that no text here can have; type it again.");
            }
            else if (text.Length > 0)
            {
                typed[name] = text;
            }
        }

        return new FindAsked(typed);
    }

    /// <summary>Whether nothing narrows the search.</summary>
    public bool IsEmpty => !Filters.Any();

    /// <summary>What was typed for a member, or null.</summary>
    public string? this[string name] => _typed.GetValueOrDefault(name);

    /// <summary>What was typed for a filter, or null.</summary>
    internal string? this[FindFilter filter] => this[filter.Name];

    /// <summary>The filters that are set, with what was typed.</summary>
    internal IEnumerable<(FindFilter Filter, string Text)> Filters =>
        FindFilters.All.Where(filter => _typed.ContainsKey(filter.Name)).Select(filter => (filter, _typed[filter.Name]));

    /// <summary>The same search with a filter set.</summary>
    internal FindAsked With(FindFilter filter, string text) => new(new(_typed, StringComparer.Ordinal) { [filter.Name] = text });

    /// <summary>The same search without some members.</summary>
    public FindAsked Without(params ReadOnlySpan<string> names)
    {
        var kept = new Dictionary<string, string>(_typed, StringComparer.Ordinal);
        foreach (var name in names)
        {
            kept.Remove(name);
        }

        return new(kept);
    }

    /// <summary>The same search from a place in the results.</summary>
    public FindAsked At(FindCursor cursor) => new(new(_typed, StringComparer.Ordinal) { [FindPaging.Cursor] = cursor.ToString() });

    /// <summary>The search as the query of a link; empty when nothing was typed.</summary>
    public string Query => _typed.Count == 0
        ? ""
        : $"?{string.Join('&', Members.Where(_typed.ContainsKey).Select(name => $"{name}={Uri.EscapeDataString(_typed[name])}"))}";

    // Half a surrogate pair is enumerated as the replacement character.
    private static bool IsWritten(Rune rune) => !Rune.IsControl(rune) && rune != Rune.ReplacementChar && (rune.Value & 0xFFFE) != 0xFFFE;

    private static string Shortened(string text) => text.Length <= 40 ? text : text[..40] + "…";
}
