using Dapper;
using Inspect.Station.Access;
using Inspect.Station.Storage;

namespace Inspect.Station.Record;

/// <summary>Free text that people wrote: the register has its hash under the writer's salt, and the text stands here, where it can be struck.</summary>
public sealed class Remarks(Database database)
{
    /// <summary>The text that a hash in the register stands for, or null once it was struck.</summary>
    public string? TextOf(PersonId writer, string hash)
    {
        using var connection = database.OpenForReading();
        return connection.ExecuteScalar<string?>("SELECT text FROM remark WHERE person = @person AND hash = @hash", new { person = writer.ToString(), hash });
    }

    /// <summary>Keeps a text of a person's, and gives the hash that stands for it in the register.</summary>
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
