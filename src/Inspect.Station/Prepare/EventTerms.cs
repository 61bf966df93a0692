using System.Data.Common;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Dapper;
using Inspect.Rules.Judging;
using Inspect.Rules.Rulesets;
using Inspect.Sheets.Json;
using Inspect.Station.Access;
using Inspect.Station.Storage;

namespace Inspect.Station.Prepare;

/// <summary>What an event adds to the edition now.</summary>
/// <param name="Judging">Supplements, decision rule, uncertainties and confirmed limits.</param>
/// <param name="FreezeMinutes">How many minutes before its squad a ball is frozen; null when it never is.</param>
/// <param name="Shares">Spot checks, the rules checked on a drawn share of the balls: rule id to per cent.</param>
/// <param name="DrawSalt">The secret that makes the draw unpredictable.</param>
public sealed record TermsOfEvent(JudgingTerms Judging, int? FreezeMinutes, IReadOnlyDictionary<string, int> Shares, byte[] DrawSalt)
{
    /// <summary>Whether a rule is checked on this ball. It is drawn once for each ball of an entry, so the answer is
    /// the same every time.</summary>
    /// <param name="rule">The rule's id.</param>
    /// <param name="entry">The bowler's number.</param>
    /// <param name="foldedSerial">The ball's serial number, folded as for look-alikes; empty when it has none.</param>
    public bool Draws(string rule, string entry, string foldedSerial)
    {
        if (!Shares.TryGetValue(rule, out var percent))
        {
            return true;
        }

        var ticket = HMACSHA256.HashData(DrawSalt, Encoding.UTF8.GetBytes($"{rule}\n{entry}\n{foldedSerial}"));
        return BitConverter.ToUInt32(ticket, 0) % 100 < percent;
    }
}

/// <summary>The terms of this station's events.</summary>
public static class EventTerms
{
    private const string ConfirmationKind = "confirmation";

    /// <summary>The index of confirmed limits.</summary>
    public static readonly RegisterIndex Confirmations = new("confirmed limits", ConfirmationKind, ["confirmation_index"], AddConfirmation);

    /// <summary>The terms of an event; empty when it sets none.</summary>
    /// <exception cref="InvalidDataException">The stored terms cannot be read any more.</exception>
    public static TermsOfEvent Of(DbConnection connection, string eventId, DbTransaction? transaction = null)
    {
        var row = connection.QuerySingleOrDefault<TermsRow>(
            "SELECT terms AS Terms, freeze_minutes AS FreezeMinutes, shares AS Shares, "
            + "draw_salt AS DrawSalt FROM event_terms WHERE event = @eventId",
            new { eventId },
            transaction);
        var members = row is null ? [] : JsonNode.Parse(row.Terms)!.AsObject();
        var confirmations = connection.Query<string>(
            "SELECT confirmation FROM confirmation_index WHERE event = @eventId ORDER BY seq DESC", new { eventId }, transaction).AsList();
        if (confirmations.Count > 0)
        {
            members["confirmations"] = new JsonArray([.. confirmations.Select(text => JsonNode.Parse(text))]);
        }

        var (faults, supplements) = (new List<Fault>(), Supplements(connection, eventId, transaction));
        var judging = members.Count == 0
            ? JudgingTerms.None with { Supplements = supplements }
            : TermsReader.Read(Encoding.UTF8.GetBytes(members.ToJsonString()), faults, supplements)
            ?? throw new InvalidDataException($"The terms of {eventId} cannot be read: {faults[0].Path}: {faults[0].Message}");
        return new TermsOfEvent(
            judging,
            row?.FreezeMinutes is { } minutes ? checked((int)minutes) : null,
            row is null ? new Dictionary<string, int>() : JsonSerializer.Deserialize<Dictionary<string, int>>(row.Shares)!,
            row?.DrawSalt ?? []);
    }

    /// <summary>The event's supplements by their short names.</summary>
    public static IReadOnlyList<Supplement> Supplements(DbConnection connection, string eventId, DbTransaction? transaction = null)
    {
        var faults = new List<Fault>();
        return connection.Query<byte[]>("SELECT body FROM event_supplement WHERE event = @eventId ORDER BY supplement", new { eventId },
            transaction)
            .Select(body => SupplementLoader.Load(body, faults)
                ?? throw new InvalidDataException($"A supplement of {eventId} cannot be read: {faults[0].Path}: {faults[0].Message}"))
            .ToList();
    }

    /// <summary>The terms when a verdict was reached. A record has only the hashes of its supplements; their rules are
    /// read from the event.</summary>
    /// <param name="connection">The connection to read the event's supplements.</param>
    /// <param name="eventId">The event.</param>
    /// <param name="recorded">The terms from the record.</param>
    /// <param name="verdict">The verdict, which names the supplements.</param>
    /// <returns>The terms, and the names of supplements that were changed or removed since, so that their rules
    /// are no longer known.</returns>
    public static (JudgingTerms Terms, IReadOnlyList<string> Gone) AsJudged(
        DbConnection connection, string eventId, JudgingTerms recorded, Verdict verdict)
    {
        if (verdict.Supplements.Count == 0)
        {
            return (recorded, []);
        }

        var now = Supplements(connection, eventId).ToDictionary(supplement => supplement.Sha256);
        return (
            recorded with
            {
                Supplements = [.. verdict.Supplements.Select(
                mark => now.GetValueOrDefault(mark.Sha256)).OfType<Supplement>()]
            },
            [.. verdict.Supplements.Where(mark => !now.ContainsKey(mark.Sha256)).Select(mark => mark.Id)]);
    }

    /// <summary>Sets how the event decides near a limit, its freeze and its shares.</summary>
    public static void Set(
        WriteTransaction write, string eventId, JudgingTerms judging, int? freezeMinutes, IReadOnlyDictionary<string, int> shares)
    {
        const string Sql = """
            INSERT INTO event_terms (event, terms, freeze_minutes, shares, draw_salt)
            VALUES (@eventId, @terms, @freezeMinutes, @shares, @salt)
            ON CONFLICT (event) DO UPDATE SET terms = excluded.terms, freeze_minutes = excluded.freeze_minutes, shares = excluded.shares
            """;
        var terms = TermsJson.Write(judging with { Confirmations = [] }).ToJsonString();
        var salt = RandomNumberGenerator.GetBytes(32);
        write.Connection.Execute(
            Sql, new { eventId, terms, freezeMinutes, shares = JsonSerializer.Serialize(shares), salt }, write.Transaction);
    }

    /// <summary>Adds a supplement, or replaces the one of the same name.</summary>
    public static void Add(WriteTransaction write, string eventId, Supplement supplement, byte[] body, PersonId by, DateTimeOffset at)
    {
        const string Sql = """
            INSERT INTO event_supplement (event, supplement, body, added_at, added_by) VALUES (@eventId, @id, @body, @at, @by)
            ON CONFLICT (event, supplement) DO UPDATE SET body = excluded.body, added_at = excluded.added_at, added_by = excluded.added_by
            """;
        write.Connection.Execute(
            Sql, new { eventId, id = supplement.Id, body, at = UtcText.Of(at), by = by.ToString() }, write.Transaction);
    }

    /// <summary>Removes a supplement. Verdicts recorded under it stay as they are.</summary>
    public static void Remove(WriteTransaction write, string eventId, string supplement) => write.Connection.Execute(
        "DELETE FROM event_supplement WHERE event = @eventId AND supplement = @supplement", new { eventId, supplement }, write.Transaction);

    /// <summary>Records that a director confirmed a limit from a document. It is an entry of the register and
    /// applies from then on.</summary>
    public static void Confirm(WriteTransaction write, string eventId, Confirmation confirmation, DateTimeOffset at)
    {
        var written = TermsJson.Write(JudgingTerms.None with { Confirmations = [confirmation] })["confirmations"]![0]!;
        Register.Append(write, ConfirmationKind, 1, new JsonObject
        {
            ["at"] = UtcText.Of(at),
            ["event"] = eventId,
            ["by"] = new JsonObject
            {
                ["person"] = confirmation.By,
                ["name"] = People.PseudonymOfName(write, PersonId.From(confirmation.By)),
            },
            ["confirmation"] = written.DeepClone(),
        });
    }

    private static void AddConfirmation(WriteTransaction write, RegisterEntry entry) => write.Connection.Execute(
        "INSERT INTO confirmation_index (seq, event, confirmation) VALUES (@Seq, @eventId, @confirmation)",
        new { entry.Seq, eventId = entry.Text("event"), confirmation = entry.Body.GetProperty("confirmation").GetRawText() },
        write.Transaction);

    private sealed record TermsRow(string Terms, long? FreezeMinutes, string Shares, byte[] DrawSalt);
}
