using System.Data.Common;
using System.IO.Compression;
using System.Security.Cryptography;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using Dapper;
using Inspect.Ledger;
using Inspect.Station.Prepare;
using Inspect.Station.Rulesets;
using Inspect.Station.Storage;

namespace Inspect.Station.Close;

/// <summary>Makes the archive of an event: one ZIP file with all that is needed to check it without this station.</summary>
/// <remarks>Files are written one after the other and hashed on the way, so memory stays flat. The manifest comes last.</remarks>
public sealed class EventArchives(Database database, WriteGate gate, StationKey key, RulesetBook book, TimeProvider time)
{
    private static readonly JsonSerializerOptions Readable =
        new() { WriteIndented = true, Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>Writes the archive.</summary>
    /// <param name="output">Takes the file; it need not be able to seek.</param>
    /// <param name="held">The event.</param>
    /// <param name="hasNames">Whether the names that were not struck are in it, and the closing reports, which name people.</param>
    public async Task Write(Stream output, Event held, bool hasNames)
    {
        var now = time.GetUtcNow();
        using var zip = new ZipArchive(output, ZipArchiveMode.Create, leaveOpen: true, Encoding.UTF8);
        var files = new List<ArchivedFile>();
        RegisterClosing? closing = null;
        await Add("register.jsonl", async to => closing = await RegisterExport.Write(database, gate, key, to));
        await AddText("checkpoint.txt", closing!.Checkpoint);
        await AddText("key.txt", closing.Key.Text + "\n");
        await AddText("keys.txt", Keys());
        if (closing.Successions.Count > 0)
        {
            await AddText("key-changes.txt", KeySuccession.Join(closing.Successions));
        }

        await AddText("event.json", OfEvent(held, hasNames).ToJsonString(Readable) + "\n");
        var absent = new List<(string, string)>();
        foreach (var (name, sha256) in RulesNamed(held).Order())
        {
            if (RulesOf(held, name).FirstOrDefault(bytes => Convert.ToHexStringLower(SHA256.HashData(bytes)) == sha256) is { } rules)
            {
                await AddBytes(name, rules);
            }
            else
            {
                absent.Add((name, sha256));
            }
        }

        foreach (var (number, pdf) in hasNames ? Reports(held, closing) : [])
        {
            await AddBytes(NamedInRegister.Report(number), pdf);
        }

        var manifest = new ArchiveManifest(held.Id, UtcText.Of(now), hasNames, files, absent);
        await AddText(ArchiveManifest.FileName, key.SignText(manifest.Text));

        Task AddText(string name, string text) => AddBytes(name, Encoding.UTF8.GetBytes(text));

        Task AddBytes(string name, byte[] bytes) => Add(name, to => to.WriteAsync(bytes).AsTask());

        async Task Add(string name, Func<Stream, Task> write)
        {
            var entry = zip.CreateEntry(name, CompressionLevel.Optimal);
            entry.LastWriteTime = now;
            await using var hashed = new HashingStream(entry.Open());
            await write(hashed);
            files.Add(hashed.Finish(name));
        }
    }

    // Every key that has signed here: its number, since when, its fingerprint and its text.
    private string Keys()
    {
        using var connection = database.OpenForReading();
        return string.Concat(connection.Query<(long Number, string Since, string Key)>(
            "SELECT number, since, public_key FROM station_key ORDER BY number").Select(row =>
                $"{row.Number} {row.Since} {(PublicKey.TryParse(row.Key, out var read) ? read.Fingerprint : "")}\n{row.Key}\n"));
    }

    private JsonObject OfEvent(Event held, bool hasNames)
    {
        using var connection = database.OpenForReading();
        return new JsonObject
        {
            ["event"] = held.Id,
            ["name"] = held.Name,
            ["from"] = $"{held.From:yyyy-MM-dd}",
            ["to"] = $"{held.To:yyyy-MM-dd}",
            ["timeZone"] = held.TimeZone,
            ["rules"] = held.Edition ?? held.Authority,
            ["squads"] = new JsonArray([.. held.Squads.Select(squad => new JsonObject
            {
                ["squad"] = squad.Name,
                ["starts"] = $"{squad.Starts:yyyy-MM-ddTHH:mm}",
            })]),
            ["entries"] = new JsonArray([.. Events.EntriesOf(connection, held.Id).Select(entry => OfEntry(entry, hasNames))]),
            ["balls"] = Rows(connection, """
                SELECT entry, maker, model, serial, added_at AS added, removed_at AS removed FROM entered_ball WHERE event = @Id ORDER BY id
                """, held),
            ["custody"] = Rows(connection, """
                SELECT entry, number, place, in_at AS "takenIn", out_at AS "givenOut", out_to AS "givenTo" FROM custody
                WHERE event = @Id ORDER BY id
                """, held),
        };
    }

    // Each row as an object; what is not said is left out.
    private static JsonArray Rows(DbConnection connection, string sql, Event held) => [.. connection.Query(sql, new { held.Id })
        .Cast<IDictionary<string, object?>>().Select(row => new JsonObject(
            row.Where(cell => cell.Value is string).Select(cell => KeyValuePair.Create(cell.Key, (JsonNode?)(string)cell.Value!))))];

    private static JsonObject OfEntry(Entry entry, bool hasNames)
    {
        var members = new JsonObject { ["entry"] = entry.Number, ["person"] = entry.Person.ToString() };
        foreach (var (name, text) in new[]
            { ("bowler", hasNames ? entry.Bowler : null), ("squad", entry.Squad), ("mergedInto", entry.MergedInto) })
        {
            if (text is not null)
            {
                members[name] = text;
            }
        }

        if (entry.IsWithdrawn)
        {
            members["withdrawn"] = true;
        }

        return members;
    }

    private HashSet<(string Name, string Sha256)> RulesNamed(Event held)
    {
        var named = new NamedInRegister(held.Id);
        using var connection = database.OpenForReading();
        foreach (var entry in Register.Bodies(
            connection, $"SELECT {Register.Entry("r")} FROM inspection_index i JOIN register_entry r ON r.seq = i.seq WHERE i.event = @Id",
            new { held.Id }))
        {
            named.Add(entry.Body);
        }

        return named.Rules;
    }

    // What the station has under that name: an edition of the book, a supplement of the event, or a version of a list of models.
    private IEnumerable<byte[]> RulesOf(Event held, string name)
    {
        using var connection = database.OpenForReading();
        return
        [
            .. book.Editions.All.Where(edition => NamedInRegister.Edition(edition.Id) == name).Select(edition => book.BytesOf(edition.Id)!),
            .. connection.Query<(string Id, byte[] Body)>(
                "SELECT supplement, body FROM event_supplement WHERE event = @Id", new { held.Id })
                .Where(row => NamedInRegister.Supplement(row.Id) == name).Select(row => row.Body),
            .. connection.Query<byte[]>(
                "SELECT file FROM model_list_version WHERE @name = 'lists/' || sha256 || '.csv'", new { name }),
        ];
    }

    // The files of the reports that are in the exported register and were not struck, one at a time.
    private IEnumerable<(string Number, byte[] Pdf)> Reports(Event held, RegisterClosing closing)
    {
        if (!Checkpoint.TryParse(closing.Checkpoint, out var exported, out _))
        {
            yield break;
        }

        using var connection = database.OpenForReading();
        foreach (var row in connection.Query<(string, byte[])>(
            """
            SELECT i.number, f.pdf FROM report_index i JOIN report_file f ON f.seq = i.seq WHERE i.event = @Id AND i.seq <= @Size ORDER BY i.seq
            """, new { held.Id, exported.Size }, buffered: false))
        {
            yield return row;
        }
    }
}
