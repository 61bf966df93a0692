using System.Globalization;
using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using Inspect.Station.Prepare;
using Inspect.Station.Storage;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Record;
using Microsoft.Extensions.DependencyInjection;

namespace Inspect.Station.Tests.Desk;

/// <summary>A station with five records of two events to find, and how they are asked for.</summary>
internal sealed class DeskRecords : IAsyncLifetime
{
    public const string Cup = "CUP27";

    public StationFixture Station { get; private set; } = default!;
    public HttpClient Director { get; private set; } = default!;

    /// <summary>Legal, entry 101, by the inspector.</summary>
    public JsonObject Legal { get; private set; } = default!;

    /// <summary>Too heavy on the left, entry 103, by the director; replaced by <see cref="Again"/>.</summary>
    public JsonObject Heavy { get; private set; } = default!;

    /// <summary>The same ball again, legal.</summary>
    public JsonObject Again { get; private set; } = default!;

    /// <summary>Not weighed, so that what depends on the weight stays open too; entry 104, by the inspector.</summary>
    public JsonObject Open { get; private set; } = default!;

    /// <summary>Of another event, entry 101.</summary>
    public JsonObject OfCup { get; private set; } = default!;

    public async Task InitializeAsync()
    {
        Station = Start();
        Director = await Station.Client("director");
        using var inspector = await Station.Client("inspector");
        var demo = Station.Services.GetRequiredService<Events>().Find(DemoEvent.Id)!;
        await Station.Services.GetRequiredService<WriteGate>().Run(write =>
        {
            Events.Add(write, demo with { Id = Cup, Name = "Lantern Cup", Squads = [], Edition = "us-national/2018-08-01" });
            Events.Enter(write, Cup, new NewEntry("101", "Þórdís Quellström", null));
            return 0;
        });

        Legal = await inspector.Recorded(SampleSheets.Legal());
        Heavy = await Record(Serial(SampleSheets.TooHeavyOnTheLeft(), "7O-12SZ88"), "103");
        Again = await Record(Serial(SampleSheets.Legal(), "7O-12SZ88"), "103", supersedes: Number(Heavy));
        var open = Serial(SampleSheets.Legal(), "QX 5501");
        open["weights"]!.AsObject().Remove("gross");
        Open = await inspector.Recorded(open, "104");
        OfCup = await Record(Serial(SampleSheets.Legal(), "KK77"), "101", eventId: Cup);
    }

    public async Task DisposeAsync()
    {
        Director.Dispose();
        await Station.DisposeAsync();
    }

    public static StationFixture Start() => new();

    public async Task<JsonObject> Record(JsonObject sheet, string entry, string? supersedes = null, string eventId = DemoEvent.Id)
    {
        var request = SampleSheets.Request(sheet, entry);
        request["event"] = eventId;
        if (supersedes is not null)
        {
            request["supersedes"] = supersedes;
        }

        using var answer = await Director.Record(request);
        Assert.Equal(HttpStatusCode.Created, answer.StatusCode);
        return (await answer.Content.ReadFromJsonAsync<JsonObject>())!;
    }

    public async Task Finds(string query, params JsonObject[] wanted)
    {
        var answer = await Answer(query);
        Assert.Equal((query, string.Join(' ', wanted.Select(Number))), (query, string.Join(' ', Numbers(answer))));
        Assert.Equal(wanted.Length, answer["count"]!["found"]!.GetValue<int>());
        Assert.False(answer["count"]!["more"]!.GetValue<bool>());
    }

    public async Task<JsonObject> Answer(string query)
    {
        using var answer = await Director.GetAsync($"/api/inspections?{query}");
        Assert.True(answer.StatusCode == HttpStatusCode.OK, $"{query}: {await answer.Content.ReadAsStringAsync()}");
        return (await answer.Content.ReadFromJsonAsync<JsonObject>())!;
    }

    public static JsonObject Serial(JsonObject sheet, string serial)
    {
        sheet["ball"]!["serial"] = serial;
        return sheet;
    }

    public static string Number(JsonObject recorded) => recorded["number"]!.GetValue<string>();

    public static List<string> Numbers(JsonObject answer) =>
        [.. answer["inspections"]!.AsArray().Select(row => row!["number"]!.GetValue<string>())];

    public static string Day(int offset) => StationClock.Today.AddDays(offset).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
