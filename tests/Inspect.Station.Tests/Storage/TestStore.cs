using System.Globalization;
using System.Text.Json.Nodes;
using Inspect.Station.Record;
using Inspect.Station.Storage;
using Inspect.Station.Tests.Ground;

namespace Inspect.Station.Tests.Storage;

/// <summary>A real store in a folder of its own, deleted with the test.</summary>
internal sealed class TestStore : IDisposable
{
    public TestStore()
    {
        PreparedStore.CopyTo(Folder, demo: false);
        Database = new Database(File, keepsOpen: false);
        Gate = new WriteGate(Database, []);
    }

    public string Folder { get; } = Directory.CreateTempSubdirectory("inspect-test-").FullName;

    public string File => Path.Combine(Folder, "inspect.db");

    public Database Database { get; }

    public WriteGate Gate { get; private set; }

    /// <summary>Ends and starts again on the same file.</summary>
    public void Restart()
    {
        Gate.Dispose();
        Gate = new WriteGate(Database, []);
    }

    /// <summary>Appends an inspection and indexes it, as recording does.</summary>
    public Task<EntryPosition> Record(int running, string eventName = "OPEN") => Gate.Run(transaction =>
    {
        var entry = Register.Append(transaction, InspectionBody.Kind, 1, Inspection(running, eventName));
        using var read = RegisterEntry.Read(entry.Seq, entry.Body);
        InspectionIndex.Index.Add(transaction, read);
        return entry;
    });

    /// <summary>An inspection's body with what the index reads; every third fails and every fifth replaces the one before.</summary>
    public static JsonObject Inspection(int running, string eventName = "OPEN")
    {
        var number = string.Create(CultureInfo.InvariantCulture, $"{eventName}-{running:0000}");
        var fails = running % 3 == 0;
        var body = new JsonObject
        {
            ["number"] = number,
            ["code"] = string.Create(CultureInfo.InvariantCulture, $"CODE{eventName}{running:0000}"),
            ["event"] = eventName,
            ["entry"] = (100 + (running / 4)).ToString(CultureInfo.InvariantCulture),
            ["at"] = "2027-03-14T09:26:53.589Z",
            ["by"] = new JsonObject { ["person"] = "p-7" },
            ["edition"] = new JsonObject { ["id"] = "us-national/2020-08-01", ["sha256"] = new string('0', 64) },
            ["sheet"] = new JsonObject
            {
                ["play"] = "2027-03-14",
                ["ball"] = new JsonObject { ["serial"] = string.Create(CultureInfo.InvariantCulture, $"7O{running:0000}I") },
            },
            ["verdict"] = new JsonObject
            {
                ["outcome"] = fails ? "fail" : "pass",
                ["findings"] = new JsonArray(
                    new JsonObject { ["rule"] = "left-right", ["outcome"] = fails ? "fail" : "pass" },
                    new JsonObject { ["rule"] = "grip-hole-depth", ["outcome"] = fails ? "hold" : "pass" },
                    new JsonObject { ["rule"] = "grip-hole-depth", ["outcome"] = fails ? "fail" : "pass" }),
            },
        };
        if (running % 5 == 0)
        {
            body["supersedes"] = string.Create(CultureInfo.InvariantCulture, $"{eventName}-{running - 1:0000}");
        }

        return body;
    }

    public void Dispose()
    {
        Gate.Dispose();
        Directory.Delete(Folder, recursive: true);
    }
}
