using System.Text;
using System.Text.Json.Nodes;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using Dapper;
using Inspect.Station.CommandLine;
using Inspect.Station.Custody;
using Inspect.Station.Record;
using Inspect.Station.Storage;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Lanes;
using Inspect.Station.Tests.Record;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.DependencyInjection;

namespace Inspect.Station.Tests.CommandLine;

/// <summary>Every index of a register thrown away by somebody and made again on the command line. The
/// behaviour is defined by this project.</summary>
public sealed class ReindexVerbTests
{
    private static readonly string[] Tables =
    [
        "inspection_index", "inspection_rule", "inspection_instrument", "inspection_model", "tag_index", "ball_name_index", "ruling_index",
        "confirmation_index", "check_index", "photograph_index", "person_name_word",
        "report_index", "spot_check_index", "draw_pool_index", "draw_index", "freeze_alert_index",
    ];

    [Fact]
    public async Task Run_EveryIndexEmptied_GivesTheSameIndexesAndLeavesTheRegisterAlone()
    {
        var folder = StationFixture.NewFolder();
        await using (var station = new StationFixture(folder: folder))
        {
            using var inspector = await station.Client("inspector");
            using var director = await station.Client("director");
            var request = SampleSheets.Request(SampleSheets.TooHeavyOnTheLeft());
            request["tag"] = "Q-17";
            request["observations"] = new JsonArray(
                new JsonObject { ["path"] = "weights.leftRight", ["text"] = "-3.25 oz", ["instrument"] = "Scale 1" });
            using var first = await inspector.Record(request);
            Assert.True(first.IsSuccessStatusCode, await first.Content.ReadAsStringAsync());
            var again = SampleSheets.Request(SampleSheets.Legal());
            again["supersedes"] = "LANTERN-0001";
            using var second = await inspector.Record(again);

            // Measured again after the freeze, compared on the lanes, drawn by lot.
            var rules = await director.GetPage("/events/LANTERN/rules");
            using var frozen = await director.Send(
                rules.QuerySelector<IHtmlFormElement>("form[action$='/rules/terms']")!, ("freezeMinutes", "1440"));
            var changed = SampleSheets.Legal();
            changed["weights"]!["leftRight"] = "-2 oz";
            var third = SampleSheets.Request(changed);
            third["supersedes"] = "LANTERN-0002";
            using var alerted = await inspector.Record(third);
            using var compared = await SpotCheckSteps.SpotCheck(inspector, "LANTERN-0003", """{"isTheBall":false,"differs":["holes"]}""");
            using var drawn = await DrawSteps.Draw(director, await DrawSteps.Fix(director, 1), "4 2 6 1", "Odalys Fenwick");
            using var ruling = new HttpRequestMessage(HttpMethod.Post, "/api/inspections/LANTERN-0003/rulings");
            ruling.Content = new StringContent("""{"decision":"withdraw","reason":"The wrong ball"}""", Encoding.UTF8, "application/json");
            ruling.Headers.Add("Idempotency-Key", "one");
            using var ruled = await director.SendAsync(ruling);
            Assert.True(ruled.IsSuccessStatusCode);
            using var issued = await director.Send(await director.GetPage("/desk/events/LANTERN/reports"));
            Assert.Equal(System.Net.HttpStatusCode.Redirect, issued.StatusCode);

            // What refers to an inspection and is no index stays.
            var kept = station.Services.GetRequiredService<InspectionLookup>().ByNumber(new InspectionNumber("LANTERN", 1))!.Inspection;
            Assert.True(await station.Services.GetRequiredService<WriteGate>().Run(write =>
                BallsInCustody.TakeIn(write, kept, "rack 3", kept.By.Person, kept.At)
                && SaidByBowler.Keep(write, "LANTERN-0001", SaidByBowler.Seen, kept.At) == 1));
        }

        var before = Dump(folder);
        Assert.All([.. Tables[..6], .. Tables[^4..]], table => Assert.Contains($"{table}|", before, StringComparison.Ordinal));
        using (var connection = Open(folder))
        {
            connection.Execute("PRAGMA foreign_keys = OFF; " + string.Join(' ', Tables.Select(table => $"DELETE FROM {table};")));
        }

        Assert.NotEqual(before, Dump(folder));
        using var output = new StringWriter();
        using var error = new StringWriter();
        Assert.Equal(0, ReindexVerb.Run(["--data", folder], output, error));

        Assert.StartsWith("Rebuilt from 9 entries: inspections, ", output.ToString(), StringComparison.Ordinal);
        Assert.Equal(before, Dump(folder));
        SqliteConnection.ClearAllPools();
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task Indexes_AreAllThatTheStationKeeps()
    {
        await using var station = new StationFixture();
        using var client = await station.Client();

        Assert.Equal(
            station.Services.GetServices<RegisterIndex>().Select(index => index.Name).Order(StringComparer.Ordinal),
            ReindexVerb.Indexes().Select(index => index.Name).Order(StringComparer.Ordinal));
    }

    [Fact]
    public async Task Run_WhileTheStationIsOpen_IsRefused()
    {
        await using var station = new StationFixture();
        using var client = await station.Client();
        using var error = new StringWriter();

        Assert.Equal(3, ReindexVerb.Run(["--data", station.Folder], TextWriter.Null, error));
        Assert.Contains(station.Folder, error.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Run_NoStore_SaysSoAndMakesNone()
    {
        var folder = StationFixture.NewFolder();
        using var error = new StringWriter();

        Assert.Equal(3, ReindexVerb.Run(["--data", folder], TextWriter.Null, error));
        Assert.Contains("There is no store in", error.ToString(), StringComparison.Ordinal);
        Assert.Empty(Directory.GetFiles(folder));
        Directory.Delete(folder);
    }

    private static SqliteConnection Open(string folder)
    {
        var connection = new SqliteConnection($"Data Source={Path.Combine(folder, "inspect.db")};Pooling=False");
        connection.Open();
        return connection;
    }

    private static string Dump(string folder)
    {
        using var connection = Open(folder);
        return string.Join('\n', Tables.SelectMany(table => connection.Query($"SELECT * FROM {table}")
            .Select(row => $"{table}|{string.Join('|', ((IEnumerable<KeyValuePair<string, object>>)row).Select(member => member.Value))}")
            .Order(StringComparer.Ordinal)));
    }
}
