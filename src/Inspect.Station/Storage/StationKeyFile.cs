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
        try
        {
            Write(path, key.ExportPkcs8PrivateKeyPem(), overwrite: false);
            return key;
        }
        catch
        {
            key.Dispose();
            throw;
        }
    }

    /// <summary>Replaces a key's file by a copy of itself: shows, before anything depends on it, that the file can be replaced.</summary>
    /// <exception cref="StoreFaultException">It cannot.</exception>
    public static void RequireReplaceable(string path)
    {
        try
        {
            Write(path, File.ReadAllText(path), overwrite: true);
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            throw new StoreFaultException($"The key was not changed, because its file '{path}' cannot be replaced ({error.Message})");
        }
    }

    // Written beside and renamed, so that the file is whole or not there.
    private static void Write(string path, string text, bool overwrite)
    {
        var beside = path + ".new";
        File.Delete(beside);
        var options = new FileStreamOptions { Mode = FileMode.CreateNew, Access = FileAccess.Write };
        if (!OperatingSystem.IsWindows())
        {
            options.UnixCreateMode = OwnerOnly;
        }

        using (var file = new FileStream(beside, options))
        {
            using var writer = new StreamWriter(file);
            writer.Write(text);
            writer.Flush();
            // The key signs as soon as this returns, so it must be safe on the disk before that.
            file.Flush(flushToDisk: true);
        }

        File.Move(beside, path, overwrite);
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
