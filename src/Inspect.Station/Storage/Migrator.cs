using System.Data.Common;
using System.Text;
using Dapper;
using DbUp;
using DbUp.Engine;
using DbUp.Engine.Output;
using DbUp.Sqlite.Helpers;

namespace Inspect.Station.Storage;

/// <summary>Updates a store to the schema of this program: runs the numbered files that have not run on it yet, once
/// each and in order.</summary>
/// <remarks>Each file runs in its own transaction. If one fails, the store is as the file before it left it.</remarks>
public static class Migrator
{
    private const string Folder = "Inspect.Station.Storage.migrations.";

    /// <summary>The numbered files in the program, in the order in which they run: name and text.</summary>
    public static IReadOnlyList<(string Name, string Sql)> Files { get; } = [.. ReadFiles()];

    /// <summary>Runs the files that have not run yet.</summary>
    /// <exception cref="CannotStartException">A later program has already changed the store, or a file fails.</exception>
    public static void Migrate(Database database)
    {
        using var connection = database.OpenForWriting();
        RefuseLaterSchema(connection);
        using var shared = new SharedConnection(connection);
        var result = DeployChanges.To
            .SqliteDatabase(shared)
            .WithScripts(Files.Select(file => new SqlScript(file.Name, file.Sql)))
            .WithScriptNameComparer(StringComparer.Ordinal)
            // The files use dollar signs as text, not as variables.
            .WithVariablesDisabled()
            .WithTransactionPerScript()
            .LogTo(new NoOpUpgradeLog())
            .Build()
            .PerformUpgrade();
        if (!result.Successful)
        {
            throw new CannotStartException(
                $"The store could not be brought up to date: '{result.ErrorScript?.Name}' failed with \"{result.Error.Message}\".");
        }
    }

    /// <summary>Whether a store has the schema of this program.</summary>
    public static bool IsUpToDate(Database database)
    {
        using var connection = database.OpenForReading();
        return connection.Query<string>("SELECT ScriptName FROM SchemaVersions").ToHashSet(StringComparer.Ordinal)
            .SetEquals(Files.Select(file => file.Name));
    }

    private static void RefuseLaterSchema(DbConnection connection)
    {
        if (connection.ExecuteScalar<long>("SELECT count(*) FROM sqlite_schema WHERE name = 'SchemaVersions'") == 0)
        {
            return;
        }

        var unknown = connection.Query<string>("SELECT ScriptName FROM SchemaVersions")
            .Except(Files.Select(file => file.Name))
            .FirstOrDefault();
        if (unknown is not null)
        {
            throw new CannotStartException(
                $"A later version of this program has changed the store ('{unknown}'): start that version, or restore a backup.");
        }
    }

    private static IEnumerable<(string Name, string Sql)> ReadFiles()
    {
        var assembly = typeof(Migrator).Assembly;
        foreach (var resource in assembly.GetManifestResourceNames().Where(name => name.StartsWith(Folder, StringComparison.Ordinal))
            .Order(StringComparer.Ordinal))
        {
            using var reader = new StreamReader(assembly.GetManifestResourceStream(resource)!, Encoding.UTF8);
            yield return (resource[Folder.Length..], reader.ReadToEnd());
        }
    }
}
