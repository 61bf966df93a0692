using System.Globalization;
using Inspect.Station.Tests.Ground;
using Xunit.Abstractions;

namespace Inspect.Station.Tests.Measure;

/// <summary>The usual ball is on one screen with its verdict and the button that records it.</summary>
[Collection(BrowserTests.Name)]
public sealed class OneScreenTests(BrowserFixture browser, ITestOutputHelper output)
{
    // A laptop, a tablet, two phones, and a laptop at 200 % zoom, which halves its width and height (WCAG 2.2, 1.4.4).
    private static readonly (string Name, int Width, int Height, bool HasTouch, bool IsWhole, int FirstReading)[] Screens =
    [
        ("laptop", 1366, 768, false, true, 330), ("tablet", 820, 1180, true, true, 560), ("phone", 390, 844, true, false, 480),
        ("small phone", 320, 640, true, false, 480), ("laptop at 200 %", 683, 384, false, false, 500),
    ];

    [Fact]
    public async Task LegalBall_IsOnOneScreenWithItsVerdict()
    {
        await using var station = new StationFixture().Listen();
        foreach (var screen in Screens)
        {
            await using var visit = await browser.Visit(station, screen.Width, hasTouch: screen.HasTouch);
            var page = visit.Page;
            await page.SetViewportSizeAsync(screen.Width, screen.Height);
            await visit.SignIn("inspector", station.Passcode);
            await page.GotoAsync(TypedBall.Page);
            await page.Locator(".table.lively").WaitForAsync();
            foreach (var (name, value) in TypedBall.Legal)
            {
                await page.Locator($"[name=\"{name}\"]").EvaluateAllAsync<object>(
                    """
                    (fields, value) => {
                      const field = fields.find(each => ["radio", "checkbox"].includes(each.type) ? each.value === value : true);
                      if (field.type === "text") field.value = value; else field.checked = true;
                      field.dispatchEvent(new Event("input", { bubbles: true }));
                    }
                    """, value);
            }

            await page.Locator("#record").WaitForAsync();
            await page.EvaluateAsync("scrollTo(0, 0)");
            var at = await page.EvaluateAsync<double[]>(
                """
                () => {
                  const at = (name, edge) => document.querySelector(name)?.getBoundingClientRect()[edge] ?? 0;
                  document.querySelector("[name='weights.gross']").dispatchEvent(new Event("reveal", { bubbles: true }));
                  const { scrollHeight, scrollWidth } = document.documentElement;
                  const told = [at("[name='weights.gross']", "top"), at(".foot", "bottom"), at("#record", "bottom"), scrollHeight, scrollWidth];
                  document.querySelectorAll(".table details").forEach(each => each.open = true);
                  return [...told, [...document.querySelectorAll(".table .choices")].filter(each => each.scrollWidth > each.clientWidth).length];
                }
                """);

            output.WriteLine(string.Create(
                CultureInfo.InvariantCulture,
                $"{screen.Name} {screen.Width} x {screen.Height}: first reading at {at[0]:0} px, form ends at {at[1]:0} px, "
                + $"page of {at[3] / screen.Height:0.00} screens"));
            Assert.True(at[0] <= screen.FirstReading, $"{screen.Name}: the first reading is at {at[0]} px.");
            Assert.True(at[2] > 0 && at[2] <= screen.Height, $"{screen.Name}: Record ends at {at[2]} px.");
            Assert.True(!screen.IsWhole || at[1] <= screen.Height, $"{screen.Name}: the form ends at {at[1]} px.");
            Assert.True(at[4] <= screen.Width, $"{screen.Name}: the page is {at[4]} px wide.");
            Assert.True(at[5] == 0, $"{screen.Name}: {at[5]} rows of answers are cut.");
        }
    }
}
