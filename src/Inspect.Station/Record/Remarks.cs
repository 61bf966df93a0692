using Dapper;
using Inspect.Station.Access;
using Inspect.Station.Storage;

namespace Inspect.Station.Record;

/// <summary>Free text that people wrote. The register has its hash with the writer's salt; the text is stored here, where
/// it can be struck.</summary>
public sealed class Remarks(Database database)
{
    /// <summary>The text of a hash in the register; null when it was struck.</summary>
    public string? TextOf(PersonId writer, string hash)
    {
        using var connection = database.OpenForReading();
        return connection.ExecuteScalar<string?>("SELECT text FROM remark WHERE person = @person AND hash = @hash",
            new { person = writer.ToString(), hash });
    }

    /// <summary>Saves a text of a person and returns its hash for the register.</summary>
    public static string Seal(WriteTransaction write, PersonId person, string text)
    {
        var hash = People.PseudonymOf(write, person, text);
        write.Connection.Execute(
            "INSERT INTO remark (person, hash, text) VALUES (@person, @hash, @text) ON CONFLICT DO NOTHING",
            new { person = person.ToString(), hash, text },
            write.Transaction);
        return hash;
    }
}
