using System.Net.Http.Json;
using System.Text;
using System.Text.Json.Nodes;
using Inspect.Station.Prepare;
using Inspect.Station.Record;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Import;
using Inspect.Station.Tests.Instruments;
using Inspect.Station.Tests.Lanes;
using Inspect.Station.Tests.ModelLists;
using Inspect.Station.Tests.Record;
using Microsoft.Extensions.DependencyInjection;

namespace Inspect.Station.Tests.Web;

/// <summary>One station with something on every page, and one visit for each who looks at it: opening both
/// anew for each page takes minutes.</summary>
public sealed class PageStage(BrowserFixture browser) : IAsyncLifetime
{
    private readonly Dictionary<string, BrowserVisit> _visits = [];
    private readonly Dictionary<string, string> _codes = [];

    public async Task InitializeAsync()
    {
        using var inspector = await Station.Client("inspector");
        using var director = await Station.Client("director");
        var undecided = SampleSheets.Legal();
        undecided.Remove("size");
        await Keep("passed", SampleSheets.Legal(), "101");
        await Keep("failed", SampleSheets.TooHeavyOnTheLeft(), "102");
        await Keep("open", undecided, "103");
        await Keep("allowed", undecided, "104");
        await Keep("withdrawn", SampleSheets.Legal(), "105");
        await Rule(4, """{"decision":"allow","reason":"The tape is at the other centre","condition":"measured after the block"}""");
        await Rule(5, """{"decision":"withdraw","reason":"Recorded under the wrong entry"}""");
        using var compared = await SpotCheckSteps.SpotCheck(
            inspector, "LANTERN-0001", """{"isTheBall":false,"differs":["serial","holes"],"remark":"A fourth hole"}""");
        _codes["draw"] = await DrawSteps.Fix(director, 1);
        using var drawn = await DrawSteps.Draw(director, _codes["draw"], "4 2 6 1", "Odalys Fenwick");
        _codes["pool"] = await DrawSteps.Fix(director, 1);

        using var added = await director.Add(Bench.Scale);
        var begun = await inspector.GetPage("/events/LANTERN/entries/106/balls/new");
        using var aside = await inspector.Send(begun, ("weights.gross", "15-1"), ("act", "aside"));
        _codes["begun"] = begun.QuerySelector("[name=key]")!.GetAttribute("value")!;
        await director.BringIn(
            "Maker,Model,Status,From,Weight,RG,Diff\nOstrava Kiln,Nightjar,approved,2025-05-01,15,2.480,0.050", "2026-01-01");
        var list = await director.Paste(
            "108,Zsofia Kohalmos,B\n109,Renée Aubercourt,A\n301,-- vacant --,A\n302,Mirembe Stoat,E\n303,Wilf Tarn,A");
        _codes["list"] = list.QuerySelector("form[action$=discard]")!.GetAttribute("action")!.Split('/')[^2];
        _codes["ball"] = (await director.GetFromJsonAsync<JsonObject>("/api/inspections/LANTERN-0002"))!["ball"]!.GetValue<string>();

        var events = Station.Services.GetRequiredService<Events>();
        var (held, lister) = (events.Find("LANTERN")!, events.FindEntry("LANTERN", "107")!);
        _codes["card"] = (await Station.Services.GetRequiredService<EntryCards>().Of(held, [lister]))["107"].ToString();
        foreach (var serial in (string[])["7TT01884", "9QF3l2O7"])
        {
            using var bowler = await Station.Client();
            using var listed = await bowler.Send(
                await bowler.GetPage(Path("/e/{card}")), ("ball.model", "Low Lantern"), ("ball.serial", serial), ("grip.hand", "left"));
        }

        async Task Keep(string word, JsonObject sheet, string entry) =>
            _codes[word] = (await inspector.Recorded(JsonNode.Parse(sheet.ToJsonString())!.AsObject(), entry))["code"]!.GetValue<string>();

        async Task Rule(int number, string body)
        {
            using var request = new HttpRequestMessage(HttpMethod.Post, $"/api/inspections/LANTERN-{number:0000}/rulings");
            request.Content = new StringContent(body, Encoding.UTF8, "application/json");
            request.Headers.Add("Idempotency-Key", Guid.NewGuid().ToString("N"));
            using var answer = await director.SendAsync(request);
            answer.EnsureSuccessStatusCode();
        }
    }

    public async Task DisposeAsync()
    {
        foreach (var visit in _visits.Values)
        {
            await visit.DisposeAsync();
        }

        await Station.DisposeAsync();
    }

    /// <summary>The station.</summary>
    public StationFixture Station { get; } = new StationFixture().Listen();

    /// <summary>The visit of a sign-in, or of somebody who has none.</summary>
    public async Task<BrowserVisit> As(string? signIn)
    {
        if (!_visits.TryGetValue(signIn ?? "", out var visit))
        {
            _visits[signIn ?? ""] = visit = await browser.Visit(Station);
            if (signIn is not null)
            {
                await visit.SignIn(signIn, Station.Passcode);
            }
        }

        visit.ForgetComplaints();
        return visit;
    }

    /// <summary>A path with the words of what stands on this stage replaced by their codes.</summary>
    public string Path(string path) =>
        _codes.Aggregate(path, (made, code) => made.Replace($"{{{code.Key}}}", code.Value, StringComparison.Ordinal));
}
