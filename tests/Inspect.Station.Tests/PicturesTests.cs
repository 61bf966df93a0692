using System.Text.Json.Nodes;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Measure;
using Inspect.Station.Tests.Record;
using Inspect.Station.Tests.Slip;
using Microsoft.Playwright;

namespace Inspect.Station.Tests;

/// <summary>
/// The pictures of README.md, taken of a station with invented balls: what is on them can still be brought about, and each stays small. Run
/// once with INSPECT_REFRESH_PICTURES=1 they are written anew, each beside what it shows. The behaviour is defined by this project.
/// </summary>
[Collection(BrowserLooks.Name)]
public sealed class PicturesTests(BrowserFixture browser)
{
    private const int MostBytes = 200_000;

    [Fact]
    public async Task MeasuringPage_BallTooHeavyOnOneSide_ShowsTheVerdictBesideTheReadings()
    {
        await using var station = new StationFixture().Listen();
        await using var visit = await browser.Visit(station);
        await visit.SignIn("inspector", station.Passcode);
        await visit.Page.GotoAsync(TypedBall.Page);
        foreach (var (name, value) in TypedBall.With(("weights.leftRight", "3 1/4")))
        {
            var field = visit.Page.Locator($"[name='{name}']");
            if (await field.First.GetAttributeAsync("type") is "radio" or "checkbox")
            {
                await visit.Page.Locator($"[name='{name}'][value='{value}']").EvaluateAsync("answer => answer.click()");
            }
            else
            {
                await field.FillAsync(value);
            }
        }

        await Assertions.Expect(visit.Page.Locator("#outcome .verdict strong")).ToHaveTextAsync("Fail");
        await Assertions.Expect(visit.Page.Locator("#outcome .advice .remedy").First).ToBeAttachedAsync();
        await visit.Page.Locator("[name='weights.leftRight']").FocusAsync();

        await Keep("Measure/measuring.png", await Seen(visit.Page, 1200, 700));
    }

    [Fact]
    public async Task Slip_LegalBall_IsDrawn()
    {
        await using var station = new StationFixture();
        using var client = await station.Client("inspector");
        var recorded = await client.Recorded(SampleSheets.Legal(), "103");

        var pdf = await client.GetByteArrayAsync($"/api/inspections/{recorded["number"]}/slip.pdf?stock=label");

        await Keep("Slip/slip.png", PrintedPage.Png(pdf, 110));
    }

    [Fact]
    public async Task Desk_AfterAMorning_ListsWhatWasFound()
    {
        await using var station = new StationFixture().Listen();
        using var client = await station.Client("inspector");
        await client.Recorded(Ball("Nightjar", "9QF31207"), "101");
        await client.Recorded(Ball("Saltglass", "7RD20418", ("weights", "leftRight", "-3.25 oz")), "102");
        await client.Recorded(Ball("Quarry", "8KM11530", ("size", "circumference", null)), "105");
        await client.Recorded(Ball("Low Lantern", "4TB90266"), "108");
        await client.Recorded(Ball("Second Harvest", "6WN55071", ("weights", "topBottom", "3.5 oz")), "110");
        await client.Recorded(Ball("Nightjar", "9QF31388"), "112");
        await using var visit = await browser.Visit(station);
        await visit.SignIn("director", station.Passcode);

        await visit.Page.GotoAsync("/desk?event=LANTERN");

        await Assertions.Expect(visit.Page.Locator(".finds tbody tr")).ToHaveCountAsync(6);
        await Keep("Desk/desk.png", await Seen(visit.Page, 1240, 860));
    }

    private static JsonObject Ball(string model, string serial, (string Part, string Member, string? Text)? other = null)
    {
        var sheet = SampleSheets.Legal();
        sheet["ball"]!["model"] = model;
        sheet["ball"]!["serial"] = serial;
        if (other is { } changed)
        {
            sheet[changed.Part]!.AsObject().Remove(changed.Member);
            if (changed.Text is not null)
            {
                sheet[changed.Part]![changed.Member] = changed.Text;
            }
        }

        return sheet;
    }

    private static async Task<byte[]> Seen(IPage page, int width, int height)
    {
        await page.SetViewportSizeAsync(width, height);
        await page.EvaluateAsync("document.fonts.ready");
        return await page.ScreenshotAsync(new() { Animations = ScreenshotAnimations.Disabled });
    }

    private static async Task Keep(string path, byte[] png)
    {
        var file = Path.Combine(Repository.Root, "src", "Inspect.Station", path);
        if (Environment.GetEnvironmentVariable("INSPECT_REFRESH_PICTURES") == "1")
        {
            await File.WriteAllBytesAsync(file, png);
        }

        Assert.True(File.Exists(file), $"src/Inspect.Station/{path} is not there; run these tests once with INSPECT_REFRESH_PICTURES=1.");
        Assert.InRange(new FileInfo(file).Length, 1, MostBytes);
    }
}
