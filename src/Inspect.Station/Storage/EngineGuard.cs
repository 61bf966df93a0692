using System.Diagnostics.CodeAnalysis;

namespace Inspect.Station.Storage;

/// <summary>Refuses a SQLite engine with a published fault that can lose committed records.</summary>
/// <remarks>
/// From 3.7.0 to 3.51.2, a write at the same time as a checkpoint in write-ahead mode can lose a commit or corrupt an index; 3.51.3 fixes
/// it (https://sqlite.org/wal.html). The pinned package has a later version; this check guards against a build with another one.
/// </remarks>
public static class EngineGuard
{
    private static readonly Version FirstSound = new(3, 51, 3);

    /// <summary>Returns if the engine is 3.51.3 or later.</summary>
    /// <param name="version">What <c>sqlite_version()</c> answers.</param>
    /// <exception cref="CannotStartException">The engine is older than 3.51.3, or its version cannot be read.</exception>
    public static void Require([NotNull] string? version)
    {
        if (!Version.TryParse(version, out var engine) || engine < FirstSound)
        {
            throw new CannotStartException(
                $"The database engine is SQLite '{version}', which can lose records: the station needs {FirstSound} or later.");
        }
    }
}
