using System.Buffers.Binary;
using System.Globalization;
using System.IO.Compression;
using System.Text;
using Inspect.Ledger;

namespace Inspect.Station.Close;

/// <summary>What the check of an archive found.</summary>
/// <param name="Wrong">Each thing that is wrong, in a sentence; none when the archive is whole.</param>
/// <param name="Sentences">What is right, when the archive is whole.</param>
public sealed record ArchiveFinding(IReadOnlyList<string> Wrong, IReadOnlyList<string> Sentences)
{
    /// <summary>Whether the archive is whole.</summary>
    public bool IsWhole => Wrong.Count == 0;
}

/// <summary>Checks the archive of an event: that its manifest is signed, that each file has its hash, that the register agrees with its
/// checkpoint, and that the rules and reports beside it are those that its entries name. Needs no station.</summary>
/// <remarks>Files are unpacked one after the other, never further than the manifest says, and none is kept in memory but the short ones.
/// </remarks>
public sealed class ArchiveCheck
{
    /// <summary>How much a small file may have.</summary>
    private const int MostOfSmall = 1024 * 1024;

    // The record at the end of a ZIP file (its published description, 4.3.16): its length, and how long its comment can be.
    private const int EndLength = 22;
    private const int LongestComment = ushort.MaxValue;
    private const uint EndMark = 0x06054b50;

    // The list of files at its end is read into memory; that of an archive has some tens of lines.
    private const long MostOfList = 1024 * 1024;

    private readonly List<string> _wrong = [];
    private readonly PublicKey? _trusted;
    private readonly long _most;

    private ArchiveCheck(PublicKey? trusted, long most) => (_trusted, _most) = (trusted, most);

    /// <summary>Checks an archive.</summary>
    /// <param name="file">The file; it can seek.</param>
    /// <param name="trusted">The station's key from elsewhere; null when there is none.</param>
    /// <param name="most">How many bytes it may have when it is unpacked.</param>
    public static ArchiveFinding Check(Stream file, PublicKey? trusted, long most = long.MaxValue)
    {
        var check = new ArchiveCheck(trusted, most);
        try
        {
            return check.Check(file);
        }
        catch (Exception damaged) when (damaged is InvalidDataException or EndOfStreamException)
        {
            return new ArchiveFinding([.. check._wrong, "The file is not an archive, or it is damaged: it cannot be unpacked."], []);
        }
    }

    /// <summary>Whether a file begins as a ZIP file does.</summary>
    public static bool IsMeant(Stream file)
    {
        var beginning = new byte[4];
        var read = file.ReadAtLeast(beginning, beginning.Length, throwOnEndOfStream: false);
        file.Position = 0;
        return read == beginning.Length && beginning.AsSpan().SequenceEqual("PK\u0003\u0004"u8);
    }

    private ArchiveFinding Check(Stream file)
    {
        if (!HasShortList(file))
        {
            return Broken("The file is not an archive of an event: it ends otherwise, or it lists far more files than one has.");
        }

        using var zip = new ZipArchive(file, ZipArchiveMode.Read, leaveOpen: true, Encoding.UTF8);
        foreach (var twice in zip.Entries.GroupBy(entry => entry.FullName).Where(alike => alike.Count() > 1))
        {
            _wrong.Add($"\"{twice.Key}\" is in the archive more than once.");
        }

        if (_wrong.Count > 0)
        {
            return new ArchiveFinding(_wrong, []);
        }

        if (!ArchiveManifest.TryParse(Small(zip, ArchiveManifest.FileName) ?? "", out var manifest, out var signed))
        {
            return Broken($"There is no manifest in it that can be read, as \"{ArchiveManifest.FileName}\".");
        }

        if (!PublicKey.TryParse(Small(zip, "key.txt")?.TrimEnd('\n'), out var key) || !signed.IsSignedBy(key))
        {
            return Broken("The manifest is not signed by the key in \"key.txt\".");
        }

        var named = manifest.Files.Select(each => each.Name).ToHashSet(StringComparer.Ordinal);
        _wrong.AddRange(zip.Entries.Select(entry => entry.FullName).Where(name => name != ArchiveManifest.FileName && !named.Contains(name))
            .Select(name => $"\"{name}\" is in the archive and not in its manifest."));
        if (manifest.Files.Sum(each => (decimal)each.Length) > _most)
        {
            return Broken(string.Create(CultureInfo.InvariantCulture,
                $"It is larger than {_most / (1024 * 1024)} MB when it is unpacked; check it on the command line."));
        }

        var register = new NamedInRegister(manifest.Event);
        RegisterFinding? finding = null;
        foreach (var listed in manifest.Files)
        {
            if (zip.GetEntry(listed.Name) is not { } entry)
            {
                _wrong.Add($"\"{listed.Name}\" is in the manifest and not in the archive.");
                continue;
            }

            try
            {
                using var bytes = new HashingStream(entry.Open(), listed.Length);
                finding = listed.Name == "register.jsonl" ? Register(bytes, register, key, Small(zip, "checkpoint.txt")) : finding;
                bytes.CopyTo(Stream.Null);
                if (bytes.Finish(listed.Name) != listed)
                {
                    _wrong.Add($"\"{listed.Name}\" has other bytes than the manifest says.");
                }
            }
            catch (InvalidDataException)
            {
                _wrong.Add($"\"{listed.Name}\" has other bytes than the manifest says, or cannot be unpacked.");
            }
        }

        Compare(manifest, register);
        return finding is null ? Broken("There is no register in it that could be read.")
            : _wrong.Count > 0 ? new ArchiveFinding(_wrong, [])
            : new ArchiveFinding([], [.. Right(manifest, register, finding, key)]);
    }

    // The register itself, the key that signed it, and the checkpoint as it stands beside it.
    private RegisterFinding Register(Stream lines, NamedInRegister register, PublicKey key, string? checkpoint)
    {
        var check = new RegisterCheck(_trusted);
        RegisterClosing? closing = null;
        foreach (var piece in WholeLines.Of(lines))
        {
            var read = RegisterLine.In(piece);
            check.Add(read);
            closing = read.Select(line => line.Closing).LastOrDefault(line => line is not null) ?? closing;
            foreach (var range in piece.Bytes.Span.Split((byte)'\n'))
            {
                register.Add(piece.Bytes[range]);
            }
        }

        var finding = check.Finish();
        if (!finding.IsSound)
        {
            _wrong.Add($"The register: {finding.Sentence}");
        }

        if (closing is not null && closing.Key != key)
        {
            _wrong.Add("The register is signed by another key than the manifest.");
        }

        if (closing is not null && closing.Checkpoint != checkpoint)
        {
            _wrong.Add("\"checkpoint.txt\" is not the checkpoint of the register.");
        }

        return finding;
    }

    // Every rule that an inspection names is there or said to be absent, and every report is one that was issued.
    private void Compare(ArchiveManifest manifest, NamedInRegister register)
    {
        var there = manifest.Files.Select(file => (file.Name, file.Sha256)).ToHashSet();
        _wrong.AddRange(register.Rules.Except(there).Except(manifest.Absent).Order()
            .Select(rules => $"\"{rules.Name}\" is not there with the hash {rules.Sha256[..Math.Min(12, rules.Sha256.Length)]}… "
                + "that inspections name."));
        _wrong.AddRange(there.Where(file => file.Name.StartsWith("reports/", StringComparison.Ordinal)).Except(register.Reports)
            .Select(report => $"\"{report.Name}\" is not a report that the register names."));
    }

    private IEnumerable<string> Right(ArchiveManifest manifest, NamedInRegister register, RegisterFinding finding, PublicKey key)
    {
        yield return string.Create(CultureInfo.InvariantCulture,
            $"The archive of {manifest.Event}, made {manifest.Made}, is whole: {manifest.Files.Count} files as its signed manifest says, ")
            + string.Create(CultureInfo.InvariantCulture, $"with {register.Inspections} inspections and the rules that they name.");
        yield return finding.Sentence;
        foreach (var (name, sha256) in manifest.Absent)
        {
            yield return $"The manifest says that the station had \"{name}\" with the hash {sha256} no more.";
        }

        yield return _trusted is null
            ? $"The key comes from the archive itself, so the signer is unproven: {key.Fingerprint}"
            : $"Signed by the key you gave, or by one that it vouches for: {key.Fingerprint}";
    }

    private ArchiveFinding Broken(string sentence) => new([.. _wrong, sentence], []);

    private static string? Small(ZipArchive zip, string name)
    {
        if (zip.GetEntry(name) is not { } entry)
        {
            return null;
        }

        using var bytes = new HashingStream(entry.Open(), MostOfSmall);
        using var text = new StreamReader(bytes, Encoding.UTF8, detectEncodingFromByteOrderMarks: false);
        return text.ReadToEnd();
    }

    private static bool HasShortList(Stream file)
    {
        var tail = new byte[Math.Min(file.Length, EndLength + LongestComment)];
        file.Position = file.Length - tail.Length;
        file.ReadExactly(tail);
        file.Position = 0;
        for (var at = tail.Length - EndLength; at >= 0; at--)
        {
            if (BinaryPrimitives.ReadUInt32LittleEndian(tail.AsSpan(at)) == EndMark)
            {
                long begins = BinaryPrimitives.ReadUInt32LittleEndian(tail.AsSpan(at + 16));
                return file.Length - tail.Length + at - begins is >= 0 and <= MostOfList;
            }
        }

        return false;
    }
}
