using System.Globalization;
using System.Text.RegularExpressions;
using Inspect.Sheets.Readings;

namespace Inspect.Sheets.Form;

/// <content>Readings that were probably mistyped. A program's readings are taken as they are; what a hand types is asked about.</content>
public sealed partial class MeasureForm
{
    private readonly List<(string Field, string Typed)> _doubted = [];
    private readonly List<(string Field, string Typed)> _confirmed = [];

    /// <summary>Readings far from what a ball can have that nobody confirmed yet: no verdict is reached with them.</summary>
    public IReadOnlyList<(string Field, string Typed)> Doubted => _doubted;

    /// <summary>Readings far from what a ball can have that somebody confirmed.</summary>
    public IReadOnlyList<(string Field, string Typed)> Confirmed => _confirmed;

    /// <summary>The field that confirms a reading. Its value is the reading's text, so that another text is asked about again.</summary>
    public static string ConfirmedBy(string field) => $"sure.{field}";

    /// <summary>Whether a reading can be used: it has one meaning, and it is believable or was confirmed.</summary>
    private bool IsBelieved(string field, Reading reading, UsualRange? usual)
    {
        var typed = Typed(field);
        if (MeaningsOf(typed) is { Count: > 0 } meanings)
        {
            Refuse(field, $"\"{typed}\" is a fraction of one or more; write {string.Join(" or ", meanings)}, whichever was read.");
            return false;
        }

        // Nobody writes a nought before a whole number: "07.5" lost its point, or has it in the wrong place.
        return usual is null || (usual.Holds(reading) && !LeadingNought().IsMatch(typed)) || IsConfirmed(field, typed, usual.ToString());
    }

    /// <summary>Whether what was typed, far from the usual, was confirmed; it is refused until then.</summary>
    private bool IsConfirmed(string field, string typed, string usual)
    {
        var isConfirmed = Typed(ConfirmedBy(field)) == typed;
        (isConfirmed ? _confirmed : _doubted).Add((field, typed));
        if (!isConfirmed)
        {
            Refuse(field, $"\"{typed}\" is far from what a bowling ball has here ({usual}). Correct it, or confirm that it was read so.");
        }

        return isConfirmed;
    }

    /// <summary>What a fraction of one or more can have meant: its value as a mixed number, and each mixed number that lost its space.
    /// Empty for any other text.</summary>
    private static List<string> MeaningsOf(string typed)
    {
        var match = Fraction().Match(typed);
        if (!match.Success || match.Groups["top"].Length > 6)
        {
            return [];
        }

        var (digits, before, after) = (match.Groups["top"].Value, match.Groups["before"].Value, match.Groups["after"].Value);
        var (top, bottom) = (Whole(digits), Whole(match.Groups["bottom"].Value));
        if (bottom == 0 || top < bottom)
        {
            return [];
        }

        var spaces = Enumerable.Range(1, digits.Length - 1)
            .Where(at => digits[at] != '0' && digits[0] != '0' && Whole(digits[at..]) < bottom);
        var meanings = spaces.Select(at => Mixed(Whole(digits[..at]), Whole(digits[at..]))).Prepend(Mixed(top / bottom, top % bottom));
        return [.. meanings.Distinct().Select(number => $"{before}{number}{after}")];

        static int Whole(string text) => int.Parse(text, NumberStyles.None, CultureInfo.InvariantCulture);

        string Mixed(int whole, int part) =>
            FormattableString.Invariant($"{whole}") + (part == 0 ? "" : FormattableString.Invariant($" {part}/{bottom}"));
    }

    [GeneratedRegex("(^|[ -])0[0-9]", RegexOptions.CultureInvariant)]
    private static partial Regex LeadingNought();

    [GeneratedRegex(@"^(?<before>[-+]?|[0-9]+ ?- ?)(?<top>[0-9]+)/(?<bottom>[0-9]{1,3})(?<after>[^0-9/]*)$", RegexOptions.CultureInvariant)]
    private static partial Regex Fraction();
}
