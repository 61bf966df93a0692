namespace Inspect.Station.Prepare;

/// <summary>One line of a pasted list, split into its parts.</summary>
/// <param name="Number">The number of the line, from 1 as the box shows it.</param>
/// <param name="Parts">The parts without surrounding blanks; empty when the line is not well formed.</param>
/// <param name="Fault">What is wrong with its quotes, or null.</param>
public sealed record SeparatedLine(int Number, IReadOnlyList<string> Parts, string? Fault);

/// <summary>Splits pasted lines at tabs if there are any, else at commas. A part in quotes may contain both (RFC 4180).</summary>
/// <remarks>RFC 4180 also lets a part run over a line break. Here a quote must close on its line, because a forgotten quote would hide the
/// rest of the list.</remarks>
public static class SeparatedLines
{
    /// <summary>Every line that is not blank, in order.</summary>
    public static IReadOnlyList<SeparatedLine> Read(string text)
    {
        var separator = text.Contains('\t', StringComparison.Ordinal) ? '\t' : ',';
        return [.. text.TrimStart('\uFEFF').ReplaceLineEndings("\n").Split('\n')
            .Select((line, i) => (Line: line, Number: i + 1))
            .Where(each => !string.IsNullOrWhiteSpace(each.Line))
            .Select(each => Cut(each.Line, each.Number, separator))];
    }

    private static SeparatedLine Cut(string line, int number, char separator)
    {
        var parts = new List<string>();
        for (var at = 0; at <= line.Length; at++)
        {
            while (at < line.Length && line[at] != separator && char.IsWhiteSpace(line[at]))
            {
                at++;
            }

            if (at == line.Length || line[at] != '"')
            {
                var end = line.IndexOf(separator, at);
                end = end < 0 ? line.Length : end;
                parts.Add(line[at..end].TrimEnd());
                at = end;
            }
            else if (Quoted(line, ref at, separator) is { } part)
            {
                parts.Add(part.Trim());
            }
            else
            {
                return new SeparatedLine(number, [],
                    $"the quotes of {line[at..]} are not closed before the next part; write \"like, this\" and a quote within as \"\"");
            }
        }

        return new SeparatedLine(number, parts, null);
    }

    // Reads from an opening quote to the separator after its closing quote. Returns null and does not move on when there is no such end.
    private static string? Quoted(string line, ref int at, char separator)
    {
        var part = new System.Text.StringBuilder();
        for (var i = at + 1; i < line.Length; i++)
        {
            if (line[i] != '"')
            {
                part.Append(line[i]);
            }
            else if (i + 1 < line.Length && line[i + 1] == '"')
            {
                part.Append(line[i++]);
            }
            else
            {
                var end = line.IndexOf(separator, i + 1);
                end = end < 0 ? line.Length : end;
                if (!string.IsNullOrWhiteSpace(line[(i + 1)..end]))
                {
                    return null;
                }

                at = end;
                return part.ToString();
            }
        }

        return null;
    }
}
