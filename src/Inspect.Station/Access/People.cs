using System.Data.Common;
using Dapper;
using Inspect.Station.Storage;

namespace Inspect.Station.Access;

/// <summary>The people this station knows by name, and their salts.</summary>
public sealed class People(Database database)
{
    /// <summary>Adds a person under a new id and a new salt.</summary>
    public static PersonId Add(WriteTransaction write, string name)
    {
        var id = PersonId.New();
        AddAll(write, [(id, name)]);
        return id;
    }

    /// <summary>Adds people under new ids, each with a new salt, in two statements.</summary>
    public static void AddAll(WriteTransaction write, IReadOnlyList<(PersonId Id, string Name)> people)
    {
        write.Connection.Execute(
            $"""
            INSERT INTO person (id, name, salt)
            SELECT {EngineSql.Member(0)}, {EngineSql.Member(1)}, {EngineSql.Bytes(EngineSql.Member(2))} FROM {EngineSql.Each("people")}
            """,
            new
            {
                people = EngineSql.List(people.Select(each =>
                    (string[])[each.Id.ToString(), each.Name, Convert.ToHexStringLower(Pseudonym.NewSalt())])),
            },
            write.Transaction);
        NameWords.Add(write, people.Select(each => (each.Id.ToString(), each.Name)));
    }

    /// <summary>Puts a person's name right. What was recorded before has the hash of the earlier name, under the same salt.</summary>
    public static void Rename(WriteTransaction write, PersonId person, string name)
    {
        write.Connection.Execute(
            "UPDATE person SET name = @name WHERE id = @id AND name IS NOT NULL", new { id = person.ToString(), name }, write.Transaction);
        NameWords.Add(write, person, name);
    }

    /// <summary>The name of a person; null when it was struck or the id is unknown.</summary>
    public string? NameOf(PersonId person)
    {
        using var connection = database.OpenForReading();
        return connection.ExecuteScalar<string?>("SELECT name FROM person WHERE id = @id", new { id = person.ToString() });
    }

    /// <summary>The hash that replaces a person's name in the register.</summary>
    /// <exception cref="InvalidOperationException">The name was struck, so it has no hash any more.</exception>
    public static string PseudonymOfName(WriteTransaction write, PersonId person) =>
        PseudonymOfName(write.Connection, write.Transaction, person);

    /// <summary>The same from any connection, within a transaction if one is given.</summary>
    /// <exception cref="InvalidOperationException">The name was struck, so it has no hash any more.</exception>
    public static string PseudonymOfName(DbConnection connection, DbTransaction? transaction, PersonId person)
    {
        var row = Row(connection, transaction, person);
        return Pseudonym.Of(row.Salt, row.Name);
    }

    /// <summary>The hash that replaces a text of this person in the register, within a write transaction.</summary>
    /// <exception cref="InvalidOperationException">The salt was struck.</exception>
    public static string PseudonymOf(WriteTransaction write, PersonId person, string text) =>
        Pseudonym.Of(Row(write.Connection, write.Transaction, person).Salt, text);

    private static PersonRow Row(DbConnection connection, DbTransaction? transaction, PersonId person) =>
        connection.QuerySingleOrDefault<PersonRow>(
            "SELECT name AS Name, salt AS Salt FROM person WHERE id = @id AND name IS NOT NULL", new { id = person.ToString() },
            transaction)
        ?? throw new InvalidOperationException($"Person {person} is unknown here or was struck.");

    private sealed record PersonRow(string Name, byte[] Salt);

    /// <summary>The hash that replaces a text of this person (the name, a remark) in the register; null when the salt was struck.</summary>
    public string? PseudonymOf(PersonId person, string text)
    {
        using var connection = database.OpenForReading();
        var salt = connection.ExecuteScalar<byte[]?>("SELECT salt FROM person WHERE id = @id", new { id = person.ToString() });
        return salt is null ? null : Pseudonym.Of(salt, text);
    }
}
