using System.Security.Cryptography;

namespace Inspect.Station.Storage;

/// <summary>The file that holds a signing key's private half: readable by the station's own user and by nobody else.</summary>
internal static class StationKeyFile
{
    private const UnixFileMode OwnerOnly = UnixFileMode.UserRead | UnixFileMode.UserWrite;

    /// <summary>Makes a key on P-256 and writes it, refusing to overwrite a file.</summary>
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
        // The key signs as soon as this returns, so it has to outlast a power cut from here on.
        file.Flush(flushToDisk: true);
        return key;
    }

    /// <summary>Reads a key.</summary>
    /// <exception cref="CannotStartException">Others may read the file, or it holds no key.</exception>
    public static ECDsa Read(string path)
    {
        if (!OperatingSystem.IsWindows() && (File.GetUnixFileMode(path) & ~OwnerOnly) != 0)
        {
            throw new CannotStartException($"The signing key '{path}' can be read or changed by others: 'chmod 600 {path}' closes it.");
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
            throw new CannotStartException($"The file '{path}' holds no signing key: restore it from the backup.");
        }
    }
}
