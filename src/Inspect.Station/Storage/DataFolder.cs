using System.Diagnostics.CodeAnalysis;

namespace Inspect.Station.Storage;

/// <summary>The folder that holds everything one station keeps, held for this process alone until it is disposed.</summary>
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
    /// Makes the folder if need be and takes hold of it. The register keeps its edge in memory, so two stations on one
    /// folder would break it: the second is refused here. A fault is one plain sentence.
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
            fault = $"The data folder \"{path}\" cannot be made: choose a folder that this user may write to with --data.";
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

    /// <summary>Lets go of the folder.</summary>
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
