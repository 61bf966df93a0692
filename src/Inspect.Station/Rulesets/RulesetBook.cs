using Inspect.Rules.Rulesets;
using Inspect.Sheets.Json;

namespace Inspect.Station.Rulesets;

/// <summary>Whether an edition is the one that was published.</summary>
public enum EditionStanding
{
    /// <summary>Its bytes have the hash under which it was published.</summary>
    Published,

    /// <summary>It was published with other bytes.</summary>
    Changed,

    /// <summary>No hash was published for it yet.</summary>
    Unpublished,

    /// <summary>A hash was published, and the edition is missing.</summary>
    Missing,
}

/// <summary>Every edition the station knows: those built in, and those of one further folder.</summary>
public sealed class RulesetBook
{
    private readonly IReadOnlyDictionary<string, string> _published;
    private readonly Dictionary<string, byte[]> _files;

    private RulesetBook(EditionLibrary library, IReadOnlyDictionary<string, string> published, IReadOnlyList<RulesetFile> files)
    {
        Editions = library;
        _published = published;
        _files = files.ToDictionary(file => file.Id, file => file.Utf8, StringComparer.Ordinal);
    }

    public EditionLibrary Editions { get; }

    /// <summary>Ids of published editions that were changed or are missing.</summary>
    public IEnumerable<string> Broken => Editions.All.Where(edition => StandingOf(edition) == EditionStanding.Changed)
        .Select(edition => edition.Id)
        .Concat(Missing);

    /// <summary>Ids of published editions that are missing.</summary>
    public IEnumerable<string> Missing => _published.Keys.Where(id => !Editions.TryFind(id, out _)).Order(StringComparer.Ordinal);

    /// <summary>The file of an edition, byte for byte, or null when there is none of that id.</summary>
    public byte[]? BytesOf(string id) => _files.GetValueOrDefault(id);

    /// <summary>The book, or null with every fault of every file added.</summary>
    /// <param name="folder">A folder of further editions; absent means only those built in.</param>
    /// <param name="faults">Where faults are collected, each with file and path.</param>
    public static RulesetBook? Open(string? folder, List<RulesetFault> faults)
    {
        var before = faults.Count;
        var published = PublishedHashes.Read(EmbeddedRulesets.PublishedText(), PublishedHashes.FileName, faults);
        var files = EmbeddedRulesets.Files().ToList();
        if (folder is not null)
        {
            var added = RulesetFolder.Files(folder, faults);
            published = WithFolder(published, folder, faults);
            files.AddRange(added.Where(file => !SameAsBuiltIn(files, file, faults)));
        }

        return Load(files, published, faults) is { } book && faults.Count == before ? book : null;
    }

    /// <summary>The book of the given files, for <see cref="Open"/> and for tests.</summary>
    internal static RulesetBook? Load(
        IReadOnlyList<RulesetFile> files, IReadOnlyDictionary<string, string> published, List<RulesetFault> faults)
    {
        var editions = files.Select(file => (File: file, Edition: Edition(file, faults))).ToList();
        foreach (var (file, edition) in editions)
        {
            foreach (var (member, named) in
                (ReadOnlySpan<(string, string?)>)[("follows", edition?.Follows), ("corrects", edition?.Corrects)])
            {
                if (named is not null && editions.All(other => other.File.Id != named))
                {
                    faults.Add(new RulesetFault(file.Place, member, $"\"{named}\" is not an edition known here."));
                }
            }
        }

        return editions.All(one => one.Edition is not null)
            ? new RulesetBook(new EditionLibrary(editions.Select(one => one.Edition!)), published, files)
            : null;
    }

    public EditionStanding StandingOf(Edition edition) => !_published.TryGetValue(edition.Id, out var hash) ? EditionStanding.Unpublished
        : hash == edition.Sha256 ? EditionStanding.Published
        : EditionStanding.Changed;

    private static Edition? Edition(RulesetFile file, List<RulesetFault> faults)
    {
        var found = new List<Fault>();
        var edition = RulesetLoader.Load(file.Utf8, found);
        if (edition is not null && edition.Id != file.Id)
        {
            found.Add(new Fault(
                "edition", $"This is the edition \"{edition.Id}\", and it lies in the folder \"{file.Id}\"; the two must agree."));
        }

        faults.AddRange(found.Select(fault => new RulesetFault(file.Place, fault)));
        return found.Count == 0 ? edition : null;
    }

    private static Dictionary<string, string> WithFolder(
        IReadOnlyDictionary<string, string> published, string folder, List<RulesetFault> faults)
    {
        var all = published.ToDictionary(StringComparer.Ordinal);
        if (RulesetFolder.PublishedText(folder) is not { } text)
        {
            return all;
        }

        var place = Path.Combine(folder, PublishedHashes.FileName);
        foreach (var (id, hash) in PublishedHashes.Read(text, place, faults))
        {
            if (all.TryGetValue(id, out var known) && known != hash)
            {
                faults.Add(new RulesetFault(
                    place, id, $"\"{id}\" was published under another hash than the one here; a published edition is never changed."));
            }

            all[id] = hash;
        }

        return all;
    }

    /// <summary>Whether the folder repeats a built-in edition: byte for byte it is left out, otherwise it is a fault.</summary>
    private static bool SameAsBuiltIn(List<RulesetFile> builtIn, RulesetFile file, List<RulesetFault> faults)
    {
        if (builtIn.Find(other => other.Id == file.Id) is not { } same)
        {
            return false;
        }

        if (!same.Utf8.AsSpan().SequenceEqual(file.Utf8))
        {
            faults.Add(new RulesetFault(
                file.Place,
                "edition",
                $"\"{file.Id}\" is built in with other bytes; a published edition is never replaced, "
                    + "so give the new one a day or a revision of its own."));
        }

        return true;
    }
}
