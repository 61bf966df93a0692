using System.Data.Common;
using Dapper;
using Inspect.Station.Storage;

namespace Inspect.Station.Prepare;

/// <summary>How a guardian of a bowler who is under age is reached, at one event. Only directors see it, and it is struck first.</summary>
public static class GuardianContacts
{
    /// <summary>The word for the contacts of an event that were struck.</summary>
    public const string Struck = "contacts of guardians struck";

    /// <summary>The contact of an entry; empty for none.</summary>
    public static string Of(Database database, string eventId, string entry)
    {
        using var connection = database.OpenForReading();
        return Of(connection, null, eventId, entry);
    }

    internal static string Of(DbConnection connection, DbTransaction? transaction, string eventId, string entry) =>
        connection.ExecuteScalar<string?>(
            "SELECT contact FROM guardian_contact WHERE event = @eventId AND entry = @entry", new { eventId, entry }, transaction) ?? "";

    /// <summary>The sentence that contacts of an event that is over can be struck; empty when it has none.</summary>
    public static string Left(DbConnection connection, string eventId)
    {
        var left = connection.ExecuteScalar<long>("SELECT count(*) FROM guardian_contact WHERE event = @eventId", new { eventId });
        return left == 0 ? "" : $" {EventCorrections.Count(left, "contact of a guardian", "contacts of guardians")} can be struck now.";
    }

    /// <summary>Sets the contact of an entry; empty takes it away.</summary>
    public static void Set(WriteTransaction write, string eventId, string entry, string contact)
    {
        write.Connection.Execute(
            "DELETE FROM guardian_contact WHERE event = @eventId AND entry = @entry", new { eventId, entry }, write.Transaction);
        if (contact.Length > 0)
        {
            write.Connection.Execute(
                "INSERT INTO guardian_contact (event, entry, contact) VALUES (@eventId, @entry, @contact)",
                new { eventId, entry, contact }, write.Transaction);
        }
    }

    /// <summary>Strikes those of an event. Returns how many there were.</summary>
    public static int Strike(WriteTransaction write, string eventId) =>
        write.Connection.Execute("DELETE FROM guardian_contact WHERE event = @eventId", new { eventId }, write.Transaction);
}
