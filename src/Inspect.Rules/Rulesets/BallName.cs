using System.Globalization;
using System.Text;
using Inspect.Sheets.Json;

namespace Inspect.Rules.Rulesets;

/// <summary>A maker's, model's or serial's name in a rule, compared as people read it: without case, accents or extra spaces.</summary>
/// <param name="Text">As the rule writes it.</param>
public sealed record BallName(string Text)
{
    private readonly string _key = Key(Text);

    /// <summary>Whether the text on the ball is this name.</summary>
    public bool Is(string onBall) => Key(onBall) == _key;

    /// <summary>Whether two rules mean the same name.</summary>
    public bool Equals(BallName? other) => other is not null && other._key == _key;

    /// <inheritdoc/>
    public override int GetHashCode() => _key.GetHashCode(StringComparison.Ordinal);

    private static string Key(string text)
    {
        var key = new StringBuilder(text.Length);
        foreach (var sign in PlainText.Normalized(text, NormalizationForm.FormD).Trim())
        {
            if (char.IsWhiteSpace(sign))
            {
                key.Append(key.Length > 0 && key[^1] != ' ' ? " " : "");
            }
            else if (CharUnicodeInfo.GetUnicodeCategory(sign) != UnicodeCategory.NonSpacingMark)
            {
                key.Append(char.ToUpperInvariant(sign));
            }
        }

        return key.ToString();
    }
}
