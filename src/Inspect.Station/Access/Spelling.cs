namespace Inspect.Station.Access;

/// <summary>How far two words are apart.</summary>
public static class Spelling
{
    /// <summary>How many letters must be inserted, removed, changed or swapped with a neighbour to turn one word into the other.</summary>
    /// <remarks>The distance of V. I. Levenshtein (1966) with the swap of neighbours, which F. J. Damerau (1964) found to be a
    /// common typing error.</remarks>
    public static int Apart(string one, string other)
    {
        var rows = new int[one.Length + 1, other.Length + 1];
        for (var i = 0; i <= one.Length; i++)
        {
            for (var j = 0; j <= other.Length; j++)
            {
                rows[i, j] = i == 0 || j == 0
                    ? i + j
                    : Math.Min(Math.Min(rows[i - 1, j], rows[i, j - 1]) + 1, rows[i - 1, j - 1] + (one[i - 1] == other[j - 1] ? 0 : 1));
                if (i > 1 && j > 1 && one[i - 1] == other[j - 2] && one[i - 2] == other[j - 1])
                {
                    rows[i, j] = Math.Min(rows[i, j], rows[i - 2, j - 2] + 1);
                }
            }
        }

        return rows[one.Length, other.Length];
    }
}
