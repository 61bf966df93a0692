using System.Security.Cryptography;

namespace Inspect.Station.Storage;

/// <summary>The file with a signing key's private half. Only the station's own user can read it.</summary>
internal static class StationKeyFile
{
    private const UnixFileMode OwnerOnly = UnixFileMode.UserRead | UnixFileMode.UserWrite;

    /// <summary>Makes a key on P-256 and writes it. Does not overwrite a file.</summary>
    public static ECDsa Create(string path)
    {
        var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var options = new FileStreamOptions { Mode = FileMode.CreateNew, Access = FileAccess.Write };
        if (!OperatingSystem.IsWindows())
        {
            options.UnixCreateMode = OwnerOnly;
        }

        using var file = new FileStream(path, options);
        using var writer = new StreamWriter(file);
        writer.Write(key.ExportPkcs8PrivateKeyPem());
        writer.Flush();
        // The key signs as soon as this returns, so it must be safe on the disk before that.
        file.Flush(flushToDisk: true);
        return key;
    }

    /// <summary>Reads a key.</summary>
    /// <exception cref="CannotStartException">Others may read the file, or there is no key in it.</exception>
    public static ECDsa Read(string path)
    {
        if (!OperatingSystem.IsWindows() && (File.GetUnixFileMode(path) & ~OwnerOnly) != 0)
        {
            throw new CannotStartException($"The signing key '{path}' can be read or changed by others: run 'chmod 600 {path}'.");
        }

        var key = ECDsa.Create();
        try
        {
            key.ImportFromPem(File.ReadAllText(path));
            return key;
        }
        catch (Exception error) when (error is ArgumentException or CryptographicException)
        {
            key.Dispose();
            throw new CannotStartException($"The file '{path}' has no signing key in it: restore it from the backup.");
        }
    }
}
