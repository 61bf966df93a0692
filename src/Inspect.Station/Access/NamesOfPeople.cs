namespace Inspect.Station.Access;

/// <summary>The names of some people, found in texts whatever the case, the accents and the order of their words.</summary>
internal sealed class NamesOfPeople
{
    // One letter alone names nobody.
    private const int Shortest = 2;

    private readonly ILookup<string, string> _byWord;
    private readonly ILookup<string, IReadOnlyList<string>> _whole;

    /// <param name="names">Person and name; somebody may have several.</param>
    public NamesOfPeople(IEnumerable<(string Person, string Name)> names)
    {
        var all = names.ToList();
        _byWord = all.SelectMany(each => NameFold.FoundBy(each.Name).Where(word => word.Length >= Shortest)
                .Select(word => (word, each.Person)))
            .Distinct().ToLookup(each => each.word, each => each.Person, StringComparer.Ordinal);
        _whole = all.Select(each => NameFold.Words(each.Name)).Where(words => words.Count > 0)
            .ToLookup(words => words[0], StringComparer.Ordinal);
    }

    /// <summary>The people of whose names a word stands in a text.</summary>
    public IReadOnlySet<string> WithAWordIn(string text) =>
        WordsOf(text).SelectMany(word => _byWord[word]).ToHashSet(StringComparer.Ordinal);

    /// <summary>Whether all words of a name stand in a text.</summary>
    public bool IsNamedIn(string text)
    {
        var words = WordsOf(text);
        return words.SelectMany(word => _whole[word]).Any(name => name.All(words.Contains));
    }

    // "Quell's" is the name Quell too.
    private static HashSet<string> WordsOf(string text)
    {
        var words = NameFold.FoundBy(text).ToHashSet(StringComparer.Ordinal);
        words.UnionWith([.. words.Where(word => word.Length > Shortest && word.EndsWith('s')).Select(word => word[..^1])]);
        return words;
    }
}
