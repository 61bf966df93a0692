using Inspect.Ledger;

namespace Inspect.Station.CommandLine;

/// <summary>The verb <c>verify</c>: checks an exported register against its signed checkpoint, needing no database.</summary>
public static class VerifyVerb
{
    private const int Unsound = 1;
    private const int Unusable = 3;

    /// <summary>Checks one file; 0 when it is sound, 1 with the first broken entry named, 3 when it cannot be read at all.</summary>
    public static int Run(IReadOnlyList<string> args, TextWriter output, TextWriter error)
    {
        if (!TryArguments(args, out var file, out var keyText))
        {
            error.WriteLine("Write it as: verify FILE [--key KEY], where KEY is the station's public key or a file that holds it.");
            return Unusable;
        }

        PublicKey? trusted = null;
        if (keyText is not null && !PublicKey.TryParse(KeyText(keyText), out trusted))
        {
            error.WriteLine($"\"{keyText}\" is no public key of a station and no file that holds one.");
            return Unusable;
        }

        try
        {
            using var export = File.OpenRead(file);
            return Report(RegisterCheck.Check(export, trusted), output);
        }
        catch (Exception unreadable) when (unreadable is IOException or UnauthorizedAccessException)
        {
            error.WriteLine($"\"{file}\" cannot be read: {unreadable.Message}");
            return Unusable;
        }
    }

    private static int Report(RegisterFinding finding, TextWriter output)
    {
        output.WriteLine(finding.Sentence);
        if (finding.IsSound && finding.Key is { } key)
        {
            output.WriteLine(finding.IsSignerProven
                ? $"Signed by the key you gave: {key.Fingerprint}"
                : $"Signed by a key that stands in the file itself, so the signer is unproven: {key.Fingerprint}");
        }

        return finding.IsSound ? 0 : Unsound;
    }

    private static string KeyText(string given) => File.Exists(given) ? File.ReadAllText(given).Trim() : given;

    private static bool TryArguments(IReadOnlyList<string> args, out string file, out string? key)
    {
        file = "";
        key = null;
        for (var i = 0; i < args.Count; i++)
        {
            if (args[i] == "--key" && i + 1 < args.Count && key is null)
            {
                key = args[++i];
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

        return file.Length > 0;
    }
}
