using System.Text.RegularExpressions;
using Inspect.Station.Tests.Ground;

namespace Inspect.Station.Tests.Storage;

/// <summary>The engine's own words stand in few files; all others would run on another engine.</summary>
public partial class EngineSqlTests
{
    private static readonly string[] EnginesOwn = ["Database.cs", "EngineGuard.cs", "EngineSql.cs", "KeptStatements.cs", "Migrator.cs"];

    [Fact]
    public void Source_OutsideTheEnginesFiles_SaysNothingOnlySqliteUnderstands()
    {
        var station = Path.Combine(Repository.Root, "src", "Inspect.Station");
        var storage = Path.Combine(station, "Storage");
        var files = Directory.EnumerateFiles(station, "*", SearchOption.AllDirectories)
            .Where(file => file.EndsWith(".cs", StringComparison.Ordinal) || file.EndsWith(".razor", StringComparison.Ordinal))
            .Where(file => !Array.Exists(
                ["bin", "obj"],
                folder => file.Contains($"{Path.DirectorySeparatorChar}{folder}{Path.DirectorySeparatorChar}", StringComparison.Ordinal)))
            .Where(file => Path.GetDirectoryName(file) != storage || !EnginesOwn.Contains(Path.GetFileName(file)))
            .ToList();

        Assert.NotEmpty(files);
        Assert.Empty(files.SelectMany(
            file => OnlySqlite().Matches(File.ReadAllText(file)).Select(match => $"{Path.GetRelativePath(station, file)}: {match.Value}")));
    }

    [Theory]
    [InlineData("using Microsoft.Data.Sqlite;")]
    [InlineData("INSERT OR IGNORE INTO t VALUES (1)")]
    [InlineData("SELECT a FROM t INDEXED BY x")]
    [InlineData("SELECT a FROM t NOT INDEXED")]
    [InlineData("SELECT 1 FROM a CROSS JOIN b ON b.x = a.x")]
    [InlineData("SELECT value FROM json_each(@list)")]
    [InlineData("SELECT body ->> '$.kind' FROM t")]
    [InlineData("SELECT group_concat(rule, ' ') FROM r")]
    [InlineData("SELECT a FROM t WHERE b IS NOT @b")]
    [InlineData("SELECT count(*) FROM sqlite_schema")]
    [InlineData("PRAGMA defer_foreign_keys = ON")]
    [InlineData("SELECT max(rowid) FROM t")]
    [InlineData("SELECT changes()")]
    public void OnlySqlite_SuchText_IsFound(string text) => Assert.Matches(OnlySqlite(), text);

    [Theory]
    [InlineData("INSERT INTO t VALUES (1) ON CONFLICT DO NOTHING")]
    [InlineData("SELECT a FROM t WHERE b IS NOT NULL AND c IS DISTINCT FROM @c")]
    [InlineData("SELECT string_agg(rule, ' ') FROM r WHERE (@day IS NULL OR day = @day)")]
    public void OnlySqlite_StandardSql_IsNotFound(string text) => Assert.DoesNotMatch(OnlySqlite(), text);

    [GeneratedRegex(
        """
        Sqlite|sqlite_|PRAGMA|INSERT\ OR\ |REPLACE\ INTO|UPDATE\ OR\ |INDEXED|CROSS\ JOIN|json_\w+\(|jsonb_\w+\(|->|\browid\b|\bGLOB\b|COLLATE\ NOCASE
        |\b(?:group_concat|ifnull|iif|changes|total_changes|last_insert_rowid|strftime|julianday|unixepoch|datetime|randomblob|zeroblob|instr|printf)\(
        |\bIS\ (?:NOT\ )?@|==\ @|\bWITHOUT\ ROWID|\bAUTOINCREMENT
        """,
        RegexOptions.CultureInvariant | RegexOptions.IgnorePatternWhitespace)]
    private static partial Regex OnlySqlite();
}
