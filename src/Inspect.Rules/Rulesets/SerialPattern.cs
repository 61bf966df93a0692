namespace Inspect.Rules.Rulesets;

/// <summary>The shape of barred serials: <c>?</c> is any one character, <c>#</c> any digit, a <c>*</c> at the end any rest.</summary>
/// <remarks>Letters and digits stand for themselves, without case; spaces in a serial as read do not count.</remarks>
public sealed record SerialPattern
{
    private const char AnyCharacter = '?';
    private const char AnyDigit = '#';
    private const char AnyRest = '*';

    private readonly string _start;

    private SerialPattern(string text)
    {
        Text = text;
        _start = text.TrimEnd(AnyRest);
    }

    /// <summary>As the rule writes it.</summary>
    public string Text { get; }

    /// <summary>The pattern in <paramref name="text"/>, or null when it is not a pattern or would bar every serial.</summary>
    public static SerialPattern? Of(string text)
    {
        var start = text.EndsWith(AnyRest) ? text[..^1] : text;
        return start.All(sign => char.IsAsciiLetterOrDigit(sign) || sign is AnyCharacter or AnyDigit or '-' or '.' or '/')
            && start.Any(sign => sign != AnyCharacter)
            ? new SerialPattern(text)
            : null;
    }

    /// <summary>The characters of a serial that the pattern matched before its <c>*</c>, or null when it does not match.</summary>
    public string? MatchIn(string serial)
    {
        var plain = string.Concat(serial.Where(sign => !char.IsWhiteSpace(sign)));
        if (plain.Length < _start.Length || (plain.Length > _start.Length && !Text.EndsWith(AnyRest)))
        {
            return null;
        }

        for (var i = 0; i < _start.Length; i++)
        {
            if (!Fits(_start[i], plain[i]))
            {
                return null;
            }
        }

        return plain[.._start.Length];
    }

    /// <inheritdoc/>
    public override string ToString() => Text;

    private static bool Fits(char wanted, char found) => wanted switch
    {
        AnyCharacter => true,
        AnyDigit => char.IsAsciiDigit(found),
        _ => char.ToUpperInvariant(wanted) == char.ToUpperInvariant(found),
    };
}
