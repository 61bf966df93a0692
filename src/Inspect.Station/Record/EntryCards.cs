using System.Data.Common;
using Dapper;
using Inspect.Station.Prepare;
using Inspect.Station.Storage;

namespace Inspect.Station.Record;

/// <summary>The secret codes on the cards of entries.</summary>
public sealed class EntryCards(Database database, WriteGate gate)
{
    /// <summary>The code of each entry; drawn where it has none yet, and the same from then on.</summary>
    public async Task<IReadOnlyDictionary<string, SlipCode>> Of(Event held, IReadOnlyList<Entry> entries)
    {
        using (var connection = database.OpenForReading())
        {
            var there = Read(connection, held.Id);
            if (entries.All(entry => there.ContainsKey(entry.Number)))
            {
                return there;
            }
        }

        return await gate.Run(write =>
        {
            var there = Read(write.Connection, held.Id, write.Transaction);
            foreach (var entry in entries.Where(entry => !there.ContainsKey(entry.Number)))
            {
                there[entry.Number] = SlipCode.Draw();
                write.Connection.Execute(
                    "INSERT INTO entry_card (event, entry, code) VALUES (@Id, @Number, @code)",
                    new { held.Id, entry.Number, code = there[entry.Number].ToString() },
                    write.Transaction);
            }

            return there;
        });
    }

    /// <summary>The entry whose card has a code; null when none has.</summary>
    public EntryAddress? Find(SlipCode code)
    {
        using var connection = database.OpenForReading();
        return connection.QuerySingleOrDefault<EntryAddress>(
            "SELECT event AS Event, entry AS Entry FROM entry_card WHERE code = @code", new { code = code.ToString() });
    }

    private static Dictionary<string, SlipCode> Read(DbConnection connection, string eventId, DbTransaction? transaction = null) =>
        connection.Query<(string Entry, string Code)>(
            "SELECT entry, code FROM entry_card WHERE event = @eventId", new { eventId }, transaction)
            .Where(row => SlipCode.TryParse(row.Code, out _))
            .ToDictionary(row => row.Entry, row => SlipCode.TryParse(row.Code, out var code) ? code : default);
}
