using System.Reflection;
using System.Text.Json;
using Inspect.Rules.Rulesets;

namespace Inspect.Station.Web;

/// <summary>The words of some pages in one language, from the file that stands beside the pages.</summary>
public sealed class Phrases
{
    private readonly Dictionary<string, JsonElement> _words;

    private Phrases(Language language, Dictionary<string, JsonElement> words) => (Language, _words) = (language, words);

    /// <summary>The language.</summary>
    public Language Language { get; }

    /// <summary>Every key.</summary>
    internal IReadOnlyDictionary<string, JsonElement> All => _words;

    /// <summary>The words under a key.</summary>
    public string this[string key] => Find(key) ?? throw new KeyNotFoundException($"There are no words \"{key}\" in {Language.Tag}.");

    /// <summary>The words under a key, or null.</summary>
    public string? Find(string key) =>
        _words.TryGetValue(key, out var words) && words.ValueKind == JsonValueKind.String ? words.GetString() : null;

    /// <summary>The words under a key with their places filled.</summary>
    public string Fill(string key, params (string Place, string Words)[] places) => Filled(this[key], places);

    /// <summary>The words for a count, in the plural form that it has.</summary>
    public string Count(string key, int count) =>
        Filled(_words[key].GetProperty(Language.PluralOf(count)).GetString()!, [("count", Language.Number(count))]);

    /// <summary>Reads the words of a folder in every language.</summary>
    /// <param name="folder">The folder of the embedded files, such as <c>scan</c>.</param>
    public static IReadOnlyDictionary<Language, Phrases> Read(string folder) =>
        Language.All.ToDictionary(language => language, language =>
        {
            using var file = Assembly.GetExecutingAssembly().GetManifestResourceStream($"{folder}/languages/{language.Tag}.json")!;
            return new Phrases(language, JsonSerializer.Deserialize<Dictionary<string, JsonElement>>(file)!);
        });

    private static string Filled(string words, (string Place, string Words)[] places) =>
        Placeholders.Fill(words, place => Array.Find(places, each => each.Place == place).Words);
}
