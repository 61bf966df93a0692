using System.Diagnostics.CodeAnalysis;

namespace Inspect.Station.Storage;

/// <summary>The folder with everything that one station keeps. It is locked for this process until it is disposed.</summary>
public sealed class DataFolder : IDisposable
{
    private readonly FileStream _hold;

    private DataFolder(string path, FileStream hold)
    {
        FullPath = path;
        _hold = hold;
    }

    /// <summary>The folder itself.</summary>
    public string FullPath { get; }

    /// <summary>The database file.</summary>
    public string DatabaseFile => Path.Combine(FullPath, "inspect.db");

    /// <summary>The folder of the keys that protect cookies and forms.</summary>
    public string CookieKeysFolder => Path.Combine(FullPath, "cookie-keys");

    /// <summary>
    /// Creates the folder if it does not exist, and locks it. The register's edge is in memory, so two stations on one folder would break
    /// the register: the second is refused here. A fault is one plain sentence.
    /// </summary>
    public static bool TryHold(string path, [NotNullWhen(true)] out DataFolder? folder, [NotNullWhen(false)] out string? fault)
    {
        folder = null;
        try
        {
            CreatePrivately(path);
            CreatePrivately(Path.Combine(path, "cookie-keys"));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            fault = $"The data folder \"{path}\" cannot be created: choose a folder that this user may write to with --data.";
            return false;
        }

        try
        {
            var hold = new FileStream(Path.Combine(path, "station.lock"), FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None);
            folder = new DataFolder(path, hold);
            fault = null;
            return true;
        }
        catch (UnauthorizedAccessException)
        {
            fault = $"The data folder \"{path}\" cannot be written: choose a folder that this user may write to with --data.";
            return false;
        }
        catch (IOException)
        {
            fault = $"The data folder \"{path}\" cannot be used: another station is running on it, or the disk refuses to write.";
            return false;
        }
    }

    /// <summary>The names of files and folders in it that the station did not make, such as copies of the store.</summary>
    public IReadOnlyList<string> Others() =>
        [.. Directory.EnumerateFileSystemEntries(FullPath).Select(path => Path.GetFileName(path)!)
            .Except(["inspect.db", "inspect.db-wal", "inspect.db-shm", "station-key.pem", "station-key.next.pem", "cookie-keys",
                "station.lock", StoreWitness.FileName])
            .Order(StringComparer.Ordinal)];

    /// <summary>Deletes everything in the folder; it stays locked. Only for a trial, and only while no store is open.</summary>
    public void Clear()
    {
        foreach (var file in Directory.EnumerateFiles(FullPath).Where(file => file != _hold.Name))
        {
            File.Delete(file);
        }

        Directory.Delete(CookieKeysFolder, recursive: true);
        CreatePrivately(CookieKeysFolder);
    }

    /// <summary>Releases the folder.</summary>
    public void Dispose() => _hold.Dispose();

    private static void CreatePrivately(string path)
    {
        if (OperatingSystem.IsWindows())
        {
            Directory.CreateDirectory(path);
        }
        else
        {
            Directory.CreateDirectory(path, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
        }
    }
}
