using System.Diagnostics.CodeAnalysis;

namespace Inspect.Station.Storage;

/// <summary>Refuses a SQLite engine with a published fault that can lose committed records.</summary>
/// <remarks>
/// From 3.7.0 to 3.51.2 a write that meets a checkpoint in write-ahead mode can lose a commit or corrupt an index; 3.51.3 mends it
/// (https://sqlite.org/wal.html). The package that is pinned brings a later one; this guards against a build that quietly brings another.
/// </remarks>
public static class EngineGuard
{
    private static readonly Version FirstSound = new(3, 51, 3);

    /// <summary>Lets a sound engine pass.</summary>
    /// <param name="version">What <c>sqlite_version()</c> answers.</param>
    /// <exception cref="CannotStartException">The engine is older than 3.51.3, or does not say how old it is.</exception>
    public static void Require([NotNull] string? version)
    {
        if (!Version.TryParse(version, out var engine) || engine < FirstSound)
        {
            throw new CannotStartException(
                $"The database engine is SQLite '{version}', which can lose records: the station needs {FirstSound} or later.");
        }
    }
}
