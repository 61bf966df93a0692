using System.Text.Json;

namespace Inspect.Station.Storage;

/// <summary>The SQL that only SQLite understands. All other statements are standard SQL.</summary>
/// <remarks>
/// To change the engine, replace these, <see cref="Database"/>, <see cref="Migrator"/>, <see cref="EngineGuard"/> and the migrations. A
/// test fails when any other file has SQL that only this engine understands.
/// </remarks>
public static class EngineSql
{
    /// <summary>Written after a table and its alias: its rows are read in the order of its key.</summary>
    public const string ByKey = "NOT INDEXED";

    /// <summary>Joins a table whose rows are looked up for each row of the tables before it; the planner keeps this order.</summary>
    public const string ThenJoin = "CROSS JOIN";

    /// <summary>Run first in a transaction: references between tables are checked only when it commits.</summary>
    public const string ReferencesAtTheEnd = "PRAGMA defer_foreign_keys = ON";

    /// <summary>Run first in a transaction: what it deletes is overwritten with zeroes.</summary>
    public const string OverwriteDeleted = "PRAGMA secure_delete = ON";

    /// <summary>Run last in a transaction that had <see cref="OverwriteDeleted"/>.</summary>
    public const string LeaveDeleted = "PRAGMA secure_delete = OFF";

    /// <summary>Written after a table and its alias: its rows are read by this index, whatever the planner would choose.</summary>
    public static string By(string index) => $"INDEXED BY {index}";

    /// <summary>A parameter that <see cref="List"/> made as a table, whose one column is <c>value</c>.</summary>
    public static string Each(string parameter) => $"json_each(@{parameter})";

    /// <summary>A member of what <see cref="Each"/> made a row of, where each is a list itself.</summary>
    public static string Member(int index) => $"value ->> {index}";

    /// <summary>The bytes that a text says in hexadecimal digits.</summary>
    public static string Bytes(string text) => $"unhex({text})";

    /// <summary>Numbers, texts or lists of them as one parameter, for <see cref="Each"/>.</summary>
    public static object List<T>(IEnumerable<T> values) => JsonSerializer.Serialize(values);
}
