using System.Text;
using Inspect.Station.Web;

namespace Inspect.Station.Desk;

/// <summary>The query of a search as it was typed: what the form shows again, and what links carry on.</summary>
public sealed class FindAsked
{
    /// <summary>Every member that a search may have, in the order in which a link writes them.</summary>
    public static IReadOnlyList<string> Members { get; } =
    [
        "q", "event", "entry", "bowler", "ball", "serial", "model", "inspector", "outcome", "standing", "rule", "ruleOutcome", "instrument", "edition",
        "from", "to", "recordedFrom", "recordedTo", Size, Cursor,
    ];

    /// <summary>The member that says how many results a page has.</summary>
    public const string Size = "size";

    /// <summary>The member that says where a page begins.</summary>
    public const string Cursor = "cursor";

    private const int LongestText = 200;

    private readonly Dictionary<string, string> _typed;

    private FindAsked(Dictionary<string, string> typed) => _typed = typed;

    /// <summary>Reads a query. A member that is unknown, stands twice or is too long is a fault; an empty one was not typed.</summary>
    public static FindAsked Of(IQueryCollection query, Faults faults)
    {
        var typed = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var (name, values) in query)
        {
            var text = values.ToString().Trim();
            if (!Members.Contains(name, StringComparer.Ordinal))
            {
                faults.Add(name.Length is 0 or > 40 ? Faults.Whole : name, $"\"{Shortened(name)}\" is no filter; known are {string.Join(", ", Members)}.");
            }
            else if (values.Count > 1)
            {
                faults.Add(name, $"\"{name}\" stands {values.Count} times; give it once.");
            }
            else if (text.Length > LongestText)
            {
                faults.Add(name, $"\"{Shortened(text)}\" is longer than {LongestText} characters; write less of it.");
            }
            else if (!text.EnumerateRunes().All(IsWritten))
            {
                var rest = string.Concat(text.EnumerateRunes().Where(IsWritten).Select(rune => rune.ToString()));
                faults.Add(name, $"\"{Shortened(rest)}\" was sent with a character that nothing here is written with; type it again.");
            }
            else if (text.Length > 0)
            {
                typed[name] = text;
            }
        }

        return new FindAsked(typed);
    }

    /// <summary>Whether nothing narrows the search.</summary>
    public bool IsEmpty => _typed.Keys.All(name => name is Size or Cursor);

    /// <summary>What was typed for a member, or null.</summary>
    public string? this[string name] => _typed.GetValueOrDefault(name);

    /// <summary>The members that narrow, with what was typed.</summary>
    public IEnumerable<(string Name, string Text)> Filters =>
        Members.Where(name => name is not (Size or Cursor) && _typed.ContainsKey(name)).Select(name => (name, _typed[name]));

    /// <summary>The same search as the query of a link, without some members and with others set; empty when nothing is left.</summary>
    public string Query(IReadOnlyCollection<string>? without = null, params (string Name, string Text)[] with)
    {
        var kept = Members.Select(name => (Name: name, Text: with.FirstOrDefault(each => each.Name == name).Text ?? (without?.Contains(name) == true ? null : this[name])))
            .Where(each => each.Text is not null)
            .Select(each => $"{each.Name}={Uri.EscapeDataString(each.Text!)}")
            .ToList();
        return kept.Count == 0 ? "" : $"?{string.Join('&', kept)}";
    }

    // A half of a surrogate pair is enumerated as the replacement character.
    private static bool IsWritten(Rune rune) => !Rune.IsControl(rune) && rune != Rune.ReplacementChar && (rune.Value & 0xFFFE) != 0xFFFE;

    private static string Shortened(string text) => text.Length <= 40 ? text : text[..40] + "…";
}
