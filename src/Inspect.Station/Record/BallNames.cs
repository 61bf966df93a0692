using Dapper;
using Inspect.Station.Storage;

namespace Inspect.Station.Record;

/// <summary>The makers and models recorded before, which the form suggests while somebody types.</summary>
/// <param name="Makers">The makers, most frequent first.</param>
/// <param name="Models">The models of all makers, most frequent first.</param>
/// <remarks>The index is made from the register's entries alone: of an inspection's body it
/// reads <c>sheet.ball.maker</c> and <c>sheet.ball.model</c>.</remarks>
public sealed record BallNames(IReadOnlyList<string> Makers, IReadOnlyList<string> Models)
{
    /// <summary>The index.</summary>
    public static readonly RegisterIndex Index = new("names of balls", InspectionBody.Kind, ["ball_name_index"], Add);

    // As many as fit in a page without slowing it on a poor network.
    private const int Most = 200;

    /// <summary>The most frequent names, at most two hundred models.</summary>
    public static BallNames MostSeen(Database database)
    {
        using var connection = database.OpenForReading();
        var rows = connection.Query<(string Maker, string Model)>(
            "SELECT maker, model FROM ball_name_index ORDER BY times DESC, maker, model LIMIT @Most", new { Most }).AsList();
        return new BallNames([.. rows.Select(row => row.Maker).Distinct()], [.. rows.Select(row => row.Model).Distinct()]);
    }

    private static void Add(WriteTransaction write, RegisterEntry entry)
    {
        if (entry.As(IndexedInspection.Of) is { Maker: { } maker, Model: { } model })
        {
            write.Connection.Execute(
                """
                INSERT INTO ball_name_index (maker, model, times) VALUES (@maker, @model, 1)
                ON CONFLICT (maker, model) DO UPDATE SET times = ball_name_index.times + 1
                """,
                new { maker, model },
                write.Transaction);
        }
    }
}
