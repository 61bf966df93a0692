using Inspect.Station.Tests.Ground;
using Microsoft.Playwright;

namespace Inspect.Station.Tests.Measure;

/// <summary>What the table asks of its device: a screen that stays awake (W3C Screen Wake Lock), and a sound (W3C Web
/// Audio) only where it is wanted.</summary>
[Collection(BrowserTests.Name)]
public sealed class SensesTests(BrowserFixture browser)
{
    // Notes what the page asks for, before its own script runs: locks by their kind, tones by their pitch.
    private const string Listening = """
        const note = (name, what) => { const noted = document.documentElement.dataset; noted[name] = `${noted[name] ?? ""} ${what}`.trim(); };
        Object.defineProperty(navigator, "wakeLock", { value: { request: kind => { note("locks", kind); return Promise.resolve({}); } } });
        globalThis.AudioContext = class extends AudioContext {
          createOscillator() {
            const made = super.createOscillator(), start = made.start.bind(made);
            made.start = at => { note("tones", made.frequency.value); start(at); };
            return made;
          }
        };
        """;

    [Fact]
    public async Task Screen_IsHeldAwakeWhileMeasuringAndAgainWhenThePageIsBack()
    {
        await using var station = new StationFixture().Listen();
        await using var visit = await browser.Visit(station, width: 820);
        var page = visit.Page;
        await page.AddInitScriptAsync(Listening);
        await visit.SignIn("inspector", station.Passcode);
        await Noted(page, "locks", "");

        foreach (var awake in (string[])[TypedBall.Page, "/events/LANTERN/wall"])
        {
            await page.GotoAsync(awake);
            await Noted(page, "locks", "screen");

            // A browser lets the lock go when the page is put behind another; it is asked for again when the page is back.
            await page.EvaluateAsync("() => { Object.defineProperty(document, 'hidden', { value: true, configurable: true }); "
                + "document.dispatchEvent(new Event('visibilitychange')); }");
            await Noted(page, "locks", "screen");
            await page.EvaluateAsync("() => { delete document.hidden; document.dispatchEvent(new Event('visibilitychange')); }");
            await Noted(page, "locks", "screen screen");
        }

        visit.AssertNoComplaints();
    }

    [Fact]
    public async Task Sound_IsOffUntilWantedThenTellsAChangedWordAndIsRemembered()
    {
        await using var station = new StationFixture().Listen();
        await using var visit = await browser.Visit(station, width: 820);
        var page = visit.Page;
        await page.AddInitScriptAsync(Listening);
        await visit.SignIn("inspector", station.Passcode);
        await page.GotoAsync(TypedBall.Page);
        await page.Locator(".table.lively").WaitForAsync();
        var (gross, word) = (page.GetByLabel("Gross weight", new() { Exact = true }), page.Locator("#outcome .verdict strong"));

        await gross.FillAsync("15-1");
        await Assertions.Expect(word).ToHaveTextAsync("Hold");
        await gross.FillAsync("17-1");
        await Assertions.Expect(word).ToHaveTextAsync("Fail");
        await Noted(page, "tones", "");

        // The press that turns it on lets it be heard.
        await page.GetByRole(AriaRole.Button, new() { Name = "Sound: off" }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Button, new() { Name = "Sound: on" })).ToHaveAttributeAsync("aria-pressed", "true");
        await Noted(page, "tones", "523");
        await gross.FillAsync("15-1");
        await Noted(page, "tones", "523 523");
        await gross.FillAsync("17-2");
        await Noted(page, "tones", "523 523 294 220");

        // Another reading of the same word is silent.
        await page.RunAndWaitForResponseAsync(
            () => gross.FillAsync("17-3"), answer => answer.Url.EndsWith("/live", StringComparison.Ordinal) && answer.Ok);
        await Assertions.Expect(page.Locator("#outcome .reason.fail")).ToContainTextAsync("17 lb 3 oz");
        await Noted(page, "tones", "523 523 294 220");

        await page.ReloadAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Sound: on" }).ClickAsync();
        await gross.FillAsync("15-1");
        await Assertions.Expect(word).ToHaveTextAsync("Hold");
        await Noted(page, "tones", "");
        visit.AssertNoComplaints();
    }

    private static Task Noted(IPage page, string name, string expected) => expected.Length == 0
        ? Assertions.Expect(page.Locator($"html[data-{name}]")).ToHaveCountAsync(0)
        : Assertions.Expect(page.Locator("html")).ToHaveAttributeAsync($"data-{name}", expected);
}
