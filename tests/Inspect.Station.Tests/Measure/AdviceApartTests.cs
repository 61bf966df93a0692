using System.Text;
using Inspect.Rules.Rulesets;
using Inspect.Sheets;
using Inspect.Station.Judge;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Record;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Playwright;

namespace Inspect.Station.Tests.Measure;

/// <summary>A verdict does not wait for what could cure the ball: that is worked out once, on request, for whoever still waits.</summary>
[Collection(BrowserTests.Name)]
public class AdviceApartTests(BrowserFixture browser)
{
    private static readonly (string, string)[] TooHeavyOnTop = TypedBall.With(("weights.topBottom", "3 1/4"));

    [Fact]
    public async Task Verdict_OfAFailedBall_ComesWithoutAdvice_WhichIsWorkedOutOnceForAll()
    {
        await using var station = new StationFixture();
        using var client = await station.Client("inspector");
        var kept = station.Services.GetRequiredService<KeptAdvice>();
        var page = await client.GetPage(TypedBall.Page);

        using var first = await client.SendLive(page, TooHeavyOnTop);
        var verdict = await first.Read();
        Assert.Equal("Fail", verdict.QuerySelector(".verdict strong")!.TextContent);
        Assert.Equal(
            "This is being worked out; the verdict stands without it.", verdict.QuerySelector("#advice [role=status]")!.TextContent);
        Assert.Equal((0, 0), (verdict.QuerySelectorAll(".remedy").Length, kept.Count));

        var advice = await client.SendAdvice(page, TooHeavyOnTop);
        Assert.NotEmpty(advice.QuerySelectorAll(".advice .remedy"));
        Assert.Equal(
            verdict.QuerySelector("#advice")!.GetAttribute("data-readings"),
            advice.QuerySelector("#live-advice")!.GetAttribute("data-readings"));

        using var again = await client.SendLive(page, TooHeavyOnTop);
        Assert.NotEmpty((await again.Read()).QuerySelectorAll("#live-outcome .advice .remedy"));
        var number = (await client.RecordForm(page, TooHeavyOnTop))["number"];
        Assert.NotEmpty((await client.GetPage($"/inspections/{number}")).QuerySelectorAll(".advice .remedy"));
        using var slip = await client.GetAsync($"/api/inspections/{number}/slip.pdf");
        Assert.True(slip.IsSuccessStatusCode);
        Assert.Equal(1, kept.Count);
    }

    [Fact]
    public async Task WithoutScript_VerdictAndAdviceComeTogether()
    {
        await using var station = new StationFixture();
        using var client = await station.Client("inspector");

        using var judged = await client.Send(await client.GetPage(TypedBall.Page), [.. TooHeavyOnTop, ("act", "judge")]);

        Assert.NotEmpty((await judged.Read()).QuerySelectorAll("#outcome .advice .remedy"));
    }

    [Fact]
    public async Task GivenUp_NothingIsWorkedOut_AndAsManyAreKeptAsThereIsRoomFor()
    {
        await using var station = new StationFixture();
        using var kept = new KeptAdvice();
        var edition = station.Services.GetRequiredService<EditionLibrary>().InForceOn("us-national", StationClock.Today)!;

        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => kept.Of(Asked("first"), new CancellationToken(canceled: true)));
        Assert.Equal(0, kept.Count);
        foreach (var serial in Enumerable.Range(0, 66))
        {
            Assert.NotNull(await kept.Of(Asked($"{serial}"), default));
        }

        Assert.Equal((64, null), (kept.Count, kept.Find(Asked("1"))));
        Assert.NotNull(kept.Find(Asked("2")));

        AdviceAsked Asked(string serial)
        {
            var json = SampleSheets.Legal();
            json["ball"]!["serial"] = serial;
            json["marks"]!["surfacePattern"] = true;
            var sheet = SheetReader.Read(Encoding.UTF8.GetBytes(json.ToJsonString()), [], new SheetDefaults("us-national"))!;
            return new AdviceAsked(sheet, edition, Rules.Judging.Judge.Under(edition, sheet), null);
        }
    }

    [Fact]
    public async Task AdviceOnOlderReadings_IsNeverShown()
    {
        await using var station = new StationFixture().Listen();
        await using var visit = await browser.Visit(station);
        var page = visit.Page;
        await visit.SignIn("inspector", station.Passcode);
        var late = new TaskCompletionSource();
        await page.RouteAsync("**/balls/advice", async route =>
        {
            await late.Task;
            await route.ContinueAsync();
        });
        await page.GotoAsync(TypedBall.Page);
        await page.Locator(".table.lively").WaitForAsync();
        await page.GetByLabel("Gross weight", new() { Exact = true }).FillAsync("16-9");
        await Assertions.Expect(page.Locator("#advice [role=status]")).ToContainTextAsync("being worked out");

        await page.GetByLabel("Gross weight", new() { Exact = true }).FillAsync("15-1");
        await Assertions.Expect(page.Locator("#outcome .verdict")).ToHaveTextAsync("Hold");
        late.SetResult();
        await page.UnrouteAllAsync(new() { Behavior = UnrouteBehavior.Wait });

        Assert.Equal(0, await page.Locator("#outcome .advice").CountAsync());
    }

    [Fact]
    public async Task NetworkOff_TheVerdictIsGreyAndCannotBeRecorded_UntilTheStationAnswers()
    {
        await using var station = new StationFixture().Listen();
        await using var visit = await browser.Visit(station);
        var page = visit.Page;
        await visit.SignIn("inspector", station.Passcode);
        await page.GotoAsync(TypedBall.Page);
        await page.Locator(".table.lively").WaitForAsync();
        await page.GetByLabel("Gross weight", new() { Exact = true }).FillAsync("16-9");
        await Assertions.Expect(page.Locator("#record")).ToHaveTextAsync("Record as Fail");
        var colour = await Colour();

        await page.Context.SetOfflineAsync(true);
        await page.GetByLabel("Gross weight", new() { Exact = true }).FillAsync("15-1");

        await Assertions.Expect(page.Locator("#outcome .no-verdict")).ToHaveTextAsync("No verdict: the station is not reached");
        await Assertions.Expect(page.Locator("#record")).ToBeDisabledAsync();
        await Assertions.Expect(page.Locator("#record + .why-off")).ToHaveTextAsync("Off until the station gives a verdict.");
        Assert.NotEqual(colour, await Colour());

        await page.Context.SetOfflineAsync(false);
        await Assertions.Expect(page.Locator("#outcome .verdict")).ToHaveTextAsync("Hold");
        await Assertions.Expect(page.Locator("#record")).ToBeEnabledAsync();
        await Assertions.Expect(page.Locator("#outcome .no-verdict")).ToHaveCountAsync(0);

        Task<string> Colour() => page.Locator("#outcome .verdict").EvaluateAsync<string>("verdict => getComputedStyle(verdict).color");
    }
}
