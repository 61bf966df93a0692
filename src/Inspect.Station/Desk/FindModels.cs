using System.Data.Common;
using Dapper;
using Inspect.Station.Access;

namespace Inspect.Station.Desk;

/// <summary>Finds what is written on balls, maker and model, by any words of it.</summary>
internal static class FindModels
{
    /// <summary>How many ways of writing it a text may fit.</summary>
    public const int Most = 500;

    /// <summary>Every way of writing maker and model in which each typed word begins another word.</summary>
    public static IReadOnlyList<string> Like(DbConnection connection, string typed)
    {
        // From name to name by the index, so that as many rows are looked at as there are names.
        const string Sql = """
            WITH RECURSIVE used (name) AS (
              SELECT min(name) FROM inspection_model
              UNION ALL
              SELECT (SELECT min(m.name) FROM inspection_model m WHERE m.name > used.name) FROM used WHERE used.name IS NOT NULL)
            SELECT name FROM used WHERE name IS NOT NULL
            """;
        return [.. connection.Query<string>(Sql, buffered: false).Where(name => NameFold.Matches(typed, name)).Take(Most + 1)];
    }
}
