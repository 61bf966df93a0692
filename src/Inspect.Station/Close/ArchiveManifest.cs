using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using System.Text;
using Inspect.Ledger;

namespace Inspect.Station.Close;

/// <summary>A file of an archive as its manifest names it.</summary>
/// <param name="Name">Its name in the archive.</param>
/// <param name="Sha256">The hash of its bytes.</param>
/// <param name="Length">How many bytes it has.</param>
public sealed record ArchivedFile(string Name, string Sha256, long Length);

/// <summary>The manifest of an archive: every other file in it with its hash, signed by the station's key.</summary>
/// <param name="Event">The event's short name.</param>
/// <param name="Made">When it was made, UTC.</param>
/// <param name="HasNames">Whether the names of the bowlers are in it.</param>
/// <param name="Files">Every other file of the archive.</param>
/// <param name="Absent">Rules that inspections name and whose bytes the station did not have any more, by name and hash.</param>
public sealed record ArchiveManifest(
    string Event, string Made, bool HasNames, IReadOnlyList<ArchivedFile> Files, IReadOnlyList<(string Name, string Sha256)> Absent)
{
    /// <summary>Its own name in the archive.</summary>
    public const string FileName = "manifest.txt";

    private const string Heading = "Archive of an event of an inspection station, version 1";

    /// <summary>The text that is signed.</summary>
    public string Text
    {
        get
        {
            var text = new StringBuilder($"{Heading}\nevent {Event}\nmade {Made}\nnames {(HasNames ? "yes" : "no")}\n");
            foreach (var file in Files)
            {
                text.Append(CultureInfo.InvariantCulture, $"file {file.Sha256} {file.Length} {file.Name}\n");
            }

            foreach (var (name, sha256) in Absent)
            {
                text.Append(CultureInfo.InvariantCulture, $"absent {sha256} {name}\n");
            }

            return text.ToString();
        }
    }

    /// <summary>Reads a signed manifest. Its signature is not checked here.</summary>
    public static bool TryParse(
        string note, [NotNullWhen(true)] out ArchiveManifest? manifest, [NotNullWhen(true)] out SignedNote? signed)
    {
        manifest = null;
        if (!SignedNote.TryParse(note, out signed) || signed.Text.Split('\n') is not [Heading, var held, var made, var names, .. var lines])
        {
            return false;
        }

        var (files, absent) = (new List<ArchivedFile>(), new List<(string, string)>());
        foreach (var line in lines.SkipLast(1))
        {
            if (line.Split(' ') is ["file", var sha256, var length, var name]
                && long.TryParse(length, NumberStyles.None, CultureInfo.InvariantCulture, out var bytes))
            {
                files.Add(new ArchivedFile(name, sha256, bytes));
            }
            else if (line.Split(' ') is ["absent", var hash, var missing])
            {
                absent.Add((missing, hash));
            }
        }

        // Written again and compared, so that a text of any other form is refused.
        var read = new ArchiveManifest(
            After("event ", held), After("made ", made), After("names ", names) == "yes", files, absent);
        manifest = read.Text == signed.Text && files.DistinctBy(file => file.Name).Count() == files.Count ? read : null;
        return manifest is not null;
    }

    private static string After(string word, string line) => line.StartsWith(word, StringComparison.Ordinal) ? line[word.Length..] : "";
}
