using System.Data.Common;
using System.Text.Json.Nodes;
using Dapper;
using Inspect.Rules.Rulesets;
using Inspect.Station.Access;
using Inspect.Station.Storage;

namespace Inspect.Station.Prepare;

/// <summary>A change of the edition that an event is fixed to, from the register.</summary>
/// <param name="From">The edition until then.</param>
/// <param name="To">The revision from then on.</param>
/// <param name="By">The director who confirmed it.</param>
/// <param name="At">When.</param>
public sealed record EditionChange(string From, string To, PersonId By, DateTimeOffset At);

/// <summary>Moves an event to a revision of the edition that it is fixed to, once its director has confirmed it.</summary>
public static class EventEdition
{
    private const string Kind = "edition";

    /// <summary>Uses the revision from now on. Recorded verdicts stay as they are. False when the event is no longer fixed to the
    /// edition that was shown.</summary>
    public static bool Use(WriteTransaction write, Event held, Edition revision, PersonId by, DateTimeOffset at)
    {
        const string Sql = "UPDATE event SET edition = @to WHERE event = @event AND edition = @from";
        if (write.Connection.Execute(Sql, new { to = revision.Id, @event = held.Id, from = held.Edition }, write.Transaction) == 0)
        {
            return false;
        }

        Register.Append(write, Kind, 1, new JsonObject
        {
            ["at"] = UtcText.Of(at),
            ["event"] = held.Id,
            ["by"] = new JsonObject { ["person"] = by.ToString(), ["name"] = People.PseudonymOfName(write, by) },
            ["edition"] = new JsonObject { ["from"] = held.Edition, ["to"] = revision.Id, ["sha256"] = revision.Sha256 },
        });
        return true;
    }

    /// <summary>Every such change of an event, oldest first.</summary>
    public static IReadOnlyList<EditionChange> ChangesOf(
        DbConnection connection, string eventId, DbTransaction? transaction = null) =>
        [.. Register.Bodies(
                connection, $"SELECT {Register.Entry("r")} FROM register_entry r WHERE r.kind = '{Kind}' ORDER BY r.seq", null, transaction)
            .Select(entry => JsonNode.Parse(entry.Body)!).Where(entry => entry["event"]!.GetValue<string>() == eventId)
            .Select(entry => new EditionChange(
                entry["edition"]!["from"]!.GetValue<string>(),
                entry["edition"]!["to"]!.GetValue<string>(),
                PersonId.From(entry["by"]!["person"]!.GetValue<string>()),
                UtcText.Parse(entry["at"]!.GetValue<string>())))];
}
