using Inspect.Ledger;
using Inspect.Station.Close;

namespace Inspect.Station.CommandLine;

/// <summary>The verb <c>verify</c>: checks an exported register, a proof taken from one, or the archive of an event. It needs no
/// database.</summary>
public static class VerifyVerb
{
    private const int Unsound = 1;
    private const int Unusable = 3;

    // A proof is a few kilobytes; anything longer is a register.
    private const int LongestProof = 64 * 1024;

    /// <summary>Checks one file; 0 when it is sound, 1 with what is wrong named, 3 when it cannot be read at all.</summary>
    /// <param name="args">The file and the options.</param>
    /// <param name="output">Takes the result.</param>
    /// <param name="error">Takes what is wrong with the command itself.</param>
    /// <param name="progress">Says how far an export was read; absent says nothing.</param>
    /// <param name="stop">Ends the check of an export without a result.</param>
    public static int Run(
        IReadOnlyList<string> args, TextWriter output, TextWriter error, Progress? progress = null, CancellationToken stop = default)
    {
        if (!TryArguments(args, out var file, out var options))
        {
            error.WriteLine("Write it as: verify FILE [--key KEY], where KEY is the station's public key or a file that holds it;");
            error.WriteLine("for a proof: verify PROOF --entry FILE --key KEY, or verify PROOF --since CHECKPOINT --key KEY;");
            error.WriteLine("and --changes FILE, the key changes or an export, where the station's key was changed since KEY.");
            return Unusable;
        }

        PublicKey? trusted = null;
        if (options.GetValueOrDefault("--key") is { } keyText && !PublicKey.TryParse(KeyText(keyText), out trusted))
        {
            error.WriteLine($"\"{keyText}\" is neither a public key of a station nor a file that holds one.");
            return Unusable;
        }

        var reading = file;
        try
        {
            var chain = trusted is null ? null : KeyChain.Of(trusted);
            if (chain is not null && options.TryGetValue("--changes", out var changes))
            {
                reading = changes;
                if (Statements(changes) is not { } statements)
                {
                    error.WriteLine(
                        $"\"{changes}\" holds no key changes: take key-changes.txt of the station, or an export of its register.");
                    return Unusable;
                }

                chain = KeyChain.Of(chain.Given, statements);
            }

            reading = file;
            if (options.TryGetValue("--entry", out var entry))
            {
                if (!EntryProof.TryParse(Text(file), out var proof) || chain is null)
                {
                    return Unproven(file, "of an entry", trusted, error);
                }

                reading = entry;
                return Report(
                    proof.Check(File.ReadAllBytes(entry), chain),
                    FormattableString.Invariant(
                        $"The entry is entry {proof.Index + 1} of the register. {Signed("Its checkpoint", proof.Checkpoint, chain)}"),
                    output);
            }

            if (options.TryGetValue("--since", out var since))
            {
                if (!GrowthProof.TryParse(Text(file), out var proof) || chain is null)
                {
                    return Unproven(file, "of growth", trusted, error);
                }

                reading = since;
                var earlier = Text(since);
                return Report(
                    proof.Check(earlier, chain),
                    FormattableString.Invariant(
                        $"The register still begins with the {proof.OldSize} entries of the earlier checkpoint. ")
                        + $"{Signed("The earlier one", earlier, chain)} {Signed("The later one", proof.Checkpoint, chain)}",
                    output);
            }

            return IsArchive(file) ? Archive(file, trusted, output) : Report(Export(file, trusted, progress, stop), output);
        }
        catch (Exception unreadable) when (unreadable is IOException or UnauthorizedAccessException)
        {
            error.WriteLine($"\"{reading}\" cannot be read: {unreadable.Message}");
            return Unusable;
        }
    }

    /// <summary>Checks an exported register. It is read piece by piece, and the lines of several pieces are read at once.</summary>
    private static RegisterFinding Export(string file, PublicKey? trusted, Progress? progress, CancellationToken stop)
    {
        using var export = JsonFiles.Open(file, Stream.Null);
        var check = new RegisterCheck(trusted);
        var pieces = WholeLines.Of(export);
        foreach (var lines in InOrder.Of(progress?.Over(pieces, JsonFiles.LengthOf(export)) ?? pieces, RegisterLine.In, stop))
        {
            check.Add(lines);
            if (check.IsDecided)
            {
                break;
            }
        }

        return check.Finish();
    }

    private static bool IsArchive(string file)
    {
        using var begins = File.OpenRead(file);
        return begins.CanSeek && ArchiveCheck.IsMeant(begins);
    }

    private static int Archive(string file, PublicKey? trusted, TextWriter output)
    {
        using var archive = File.OpenRead(file);
        var finding = ArchiveCheck.Check(archive, trusted);
        foreach (var sentence in finding.IsWhole ? finding.Sentences : finding.Wrong)
        {
            output.WriteLine(sentence);
        }

        return finding.IsWhole ? 0 : Unsound;
    }

    // The statements by which keys vouch for each other, from their own text or from the last line of an export.
    private static IReadOnlyList<KeySuccession>? Statements(string file) =>
        KeySuccession.TryParseAll(Text(file), out var statements) ? statements
        : File.ReadLines(file).LastOrDefault() is { } last ? RegisterClosing.StatementsIn(last)
        : null;

    private static string Signed(string what, string note, KeyChain chain) =>
        Checkpoint.TryParse(note, out _, out var signed) && chain.SignerOf(signed) is { } signer
            ? signer == chain.Given
                ? $"{what} is signed by the key you gave: {signer.Fingerprint}."
                : $"{what} is signed by a later key, which the one you gave vouches for: {signer.Fingerprint}."
            : "";

    private static int Report(string? wrong, string proved, TextWriter output)
    {
        output.WriteLine(wrong ?? proved);
        return wrong is null ? 0 : Unsound;
    }

    private static int Unproven(string file, string kind, PublicKey? trusted, TextWriter error)
    {
        error.WriteLine(trusted is null ? "A proof cannot be checked without the station's public key: give it with --key."
            : $"\"{file}\" is not a proof {kind}.");
        return Unusable;
    }

    private static string Text(string file) => new FileInfo(file).Length <= LongestProof ? File.ReadAllText(file) : "";

    private static int Report(RegisterFinding finding, TextWriter output)
    {
        output.WriteLine(finding.Sentence);
        if (finding.IsSound && finding.Key is { } key)
        {
            output.WriteLine(finding.IsSignerProven
                ? $"Signed by the key you gave: {key.Fingerprint}"
                : $"Signed by a key from the file itself, so the signer is unproven: {key.Fingerprint}");
        }

        return finding.IsSound ? 0 : Unsound;
    }

    private static string KeyText(string given) => File.Exists(given) ? File.ReadAllText(given).Trim() : given;

    private static bool TryArguments(IReadOnlyList<string> args, out string file, out Dictionary<string, string> options)
    {
        file = "";
        options = new Dictionary<string, string>(StringComparer.Ordinal);
        for (var i = 0; i < args.Count; i++)
        {
            if (args[i] is "--key" or "--entry" or "--since" or "--changes" && i + 1 < args.Count && options.TryAdd(args[i], args[i + 1]))
            {
                i++;
            }
            else if (!args[i].StartsWith('-') && file.Length == 0)
            {
                file = args[i];
            }
            else
            {
                return false;
            }
        }

        return file.Length > 0 && !(options.ContainsKey("--entry") && options.ContainsKey("--since"))
            && (!options.ContainsKey("--changes")
                || (options.ContainsKey("--key") && (options.ContainsKey("--entry") || options.ContainsKey("--since"))));
    }
}
