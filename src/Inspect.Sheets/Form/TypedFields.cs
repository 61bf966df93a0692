using System.Text.RegularExpressions;

namespace Inspect.Sheets.Form;

/// <summary>The text of a measuring form, field by field, exactly as typed. A group of check boxes
/// has several values under one name.</summary>
/// <remarks>Short ways of answering are put into their own fields: a side after an imbalance or a pitch (<c>1 1/4 t</c>,
/// <c>1.25 oz top</c>), a hole's diameter and depth in one (<c>31/32 x 2 3/4</c>), and "in order" for all that is looked at.</remarks>
public sealed partial class TypedFields
{
    private const int MostFields = 400;
    private const int LongestValue = 400;

    private readonly SortedList<string, string[]> _values = new(StringComparer.Ordinal);

    private TypedFields(IEnumerable<KeyValuePair<string, string[]>> values)
    {
        foreach (var (name, typed) in values.Where(field => IsOne(field.Key)).Take(MostFields))
        {
            var kept = typed.Select(value => value.Trim())
                .Select(value => value.Length > LongestValue ? value[..LongestValue] : value).ToArray();
            if (kept.Any(value => value.Length > 0))
            {
                _values[name] = kept;
            }
        }
    }

    /// <summary>Every field that is not empty.</summary>
    public IEnumerable<KeyValuePair<string, string[]>> All => _values;

    /// <summary>The fields that a form sent, by name; fields that are not part of the sheet are left out.</summary>
    public static TypedFields Sent(IEnumerable<KeyValuePair<string, string[]>> form)
    {
        var read = new TypedFields(form);
        read.PutSides();
        read.PutHoles();
        read.PutInOrder();
        return read;
    }

    /// <summary>Fields that are known beforehand.</summary>
    public static TypedFields Of(IReadOnlyDictionary<string, string> known) =>
        new(known.Select(field => KeyValuePair.Create(field.Key, field.Key == "grip.digits" ? field.Value.Split(' ') : [field.Value])));

    /// <summary>The fields of a form that were kept.</summary>
    public static TypedFields Of(IEnumerable<KeyValuePair<string, string[]>> kept) => new(kept);

    /// <summary>These fields, some of them with other values.</summary>
    public TypedFields With(IEnumerable<KeyValuePair<string, string[]>> others)
    {
        var all = new Dictionary<string, string[]>(_values, StringComparer.Ordinal);
        foreach (var (name, values) in others)
        {
            all[name] = values;
        }

        return new TypedFields(all);
    }

    /// <summary>The text in a field, or an empty text.</summary>
    public string One(string name) => _values.TryGetValue(name, out var values) ? values[0] : "";

    /// <summary>Every value of a field.</summary>
    public IReadOnlyList<string> Several(string name) => _values.TryGetValue(name, out var values) ? values : [];

    /// <summary>Whether a field, or one under it, is filled in.</summary>
    public bool AnyIn(string field) => NamesIn(field).Any();

    /// <summary>The names of a field and of those under it, where they are filled in.</summary>
    public IEnumerable<string> NamesIn(string field) => _values.Keys.Where(name => IsIn(field, name));

    /// <summary>Whether a name is that of a field or of one under it.</summary>
    public static bool IsIn(string field, string name) =>
        name == field || (name.StartsWith(field, StringComparison.Ordinal) && name[field.Length] is '.' or '[');

    /// <summary>Whether a name belongs to the sheet, and not to the way the form is sent.</summary>
    public static bool IsOne(string name) =>
        name is "play" or "tag" or "workDone" or "paper.day" or "paper.time"
        || (name.Length <= 60 && FormFields.Groups.Any(group => name.StartsWith(group, StringComparison.Ordinal)));

    private void PutSides()
    {
        foreach (var (name, sides) in FormFields.Sided)
        {
            var match = BehindIt().Match(One(name));
            var side = !match.Success ? null : Side(match.Groups["side"].Value, sides);
            if (side is not null && One($"{name}.side") is var chosen && (chosen.Length == 0 || chosen == side))
            {
                _values[name] = [match.Groups["reading"].Value];
                _values[$"{name}.side"] = [side];
            }
        }
    }

    private static string? Side(string written, Sides sides) =>
        new[] { sides.Positive, sides.Negative }.FirstOrDefault(
            side => new[] { side, side[..1] }.Contains(written, StringComparer.OrdinalIgnoreCase));

    private void PutHoles()
    {
        var diameters = _values.Keys.Where(name =>
            name.StartsWith("hole.", StringComparison.Ordinal) && name.EndsWith(".diameter", StringComparison.Ordinal));
        foreach (var name in diameters.ToList())
        {
            var depth = $"{name[..^".diameter".Length]}.depth";
            var match = InOneGo().Match(One(name));
            if (match.Success && One(depth).Length == 0)
            {
                _values[name] = [match.Groups["diameter"].Value];
                _values[depth] = [match.Groups["depth"].Value];
            }
        }
    }

    /// <summary>"In order" answers what is not answered by itself; each answer counts more than the short way.</summary>
    private void PutInOrder()
    {
        if (_values.Remove(FormFields.InOrder, out var said) && said[0] == "yes")
        {
            foreach (var (field, good) in FormFields.LookedAt.Where(each => One(each.Field).Length == 0))
            {
                _values[field] = [good];
            }
        }
    }

    [GeneratedRegex(
        @"^(?<reading>.*[\d/½¼¾⅛⅜⅝⅞](?:\s*(?:oz|g|in|mm|cm))?)\s*(?<side>[a-z]+)$",
        RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex BehindIt();

    [GeneratedRegex(
        @"^(?<diameter>[^x]*\d[^x]*?)\s*x\s*(?<depth>[^x]*\d[^x]*)$", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex InOneGo();
}
