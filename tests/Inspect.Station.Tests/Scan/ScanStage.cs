using System.Text.Json.Nodes;
using Inspect.Station.Tests.Decide;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Record;

namespace Inspect.Station.Tests.Scan;

/// <summary>One station with a slip of every standing, for tests that only look at what a scan shows.</summary>
public sealed class ScanStage : IAsyncLifetime
{
    /// <summary>Every standing, by its word here.</summary>
    public static readonly string[] Standings = ["passed", "failed", "held", "accepted", "allowed", "recalled", "withdrawn", "superseded"];

    private readonly Dictionary<string, string> _codes = [];

    /// <summary>The station.</summary>
    public StationFixture Station { get; } = new StationFixture().Listen();

    public async Task InitializeAsync()
    {
        using var inspector = await Station.Client("inspector");
        using var director = await Station.Client("director");
        var twice = SampleSheets.TooHeavyOnTheLeft();
        twice["holes"]![0]!["depth"] = "4 5/8 in";
        await Keep("passed", SampleSheets.Legal(), "101");
        await Keep("failed", twice, "102");
        await Keep("held", RulingSteps.Undecided(), "103");
        await Keep("accepted", RulingSteps.Undecided(), "104");
        await Keep("allowed", RulingSteps.Undecided(), "105");
        await Keep("recalled", SampleSheets.Legal(), "106");
        await Keep("withdrawn", SampleSheets.Legal(), "107");
        var old = await Keep("superseded", RulingSteps.Undecided(), "101");
        await Rule("accepted", "accept", "The maker's letter settles it");
        await Rule("allowed", "allow", "The tape is at the other centre", "measured after the block");
        await Rule("recalled", "remeasure", "The bowler appeals");
        await Rule("withdrawn", "withdraw", "Recorded under the wrong entry");
        var again = SampleSheets.Request(SampleSheets.Legal(), "101");
        again["supersedes"] = old["number"]!.GetValue<string>();
        using var later = await inspector.Record(again);
        later.EnsureSuccessStatusCode();

        async Task<JsonObject> Keep(string word, JsonObject sheet, string entry)
        {
            var recorded = await inspector.Recorded(JsonNode.Parse(sheet.ToJsonString())!.AsObject(), entry);
            _codes[word] = recorded["code"]!.GetValue<string>();
            _numbers[word] = recorded["number"]!.GetValue<string>();
            return recorded;
        }

        async Task Rule(string word, string decision, string reason, string? condition = null)
        {
            using var answer = await RulingSteps.Rule(director, _numbers[word], decision, reason, condition);
            Assert.True(answer.IsSuccessStatusCode, await answer.Content.ReadAsStringAsync());
        }
    }

    public async Task DisposeAsync() => await Station.DisposeAsync();

    /// <summary>The address of the page of a standing; of a code that nobody has for "unknown".</summary>
    public string Path(string standing) => $"/s/{_codes.GetValueOrDefault(standing, "00000000000000")}";

    /// <summary>The number of the inspection of a standing.</summary>
    public string Number(string standing) => _numbers[standing];

    private readonly Dictionary<string, string> _numbers = [];
}
