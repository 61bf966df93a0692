using Microsoft.Playwright;

namespace Inspect.Station.Tests.Ground;

/// <summary>A scanner that acts as a keyboard, at a pace that does not depend on the machine: while it
/// types, no time passes in the page.</summary>
internal static class Scanner
{
    /// <summary>Before a page is opened: from here on a hand needs a second for each key.</summary>
    public static Task Attach(IPage page) => page.AddInitScriptAsync(
        """
        globalThis.isScanning = false;
        globalThis.clockOfKeys = 0;
        Object.defineProperty(Event.prototype, "timeStamp", { get: () => isScanning ? clockOfKeys : clockOfKeys += 1000 });
        """);

    /// <summary>Reads a code: its characters, and Enter.</summary>
    public static async Task Read(IPage page, string code)
    {
        await page.EvaluateAsync("() => { clockOfKeys += 1000; isScanning = true; }");
        await page.Keyboard.TypeAsync(code);
        await page.Keyboard.PressAsync("Enter");
    }

    /// <summary>A hand is at the keys again, on a page that the code did not leave.</summary>
    public static Task LayDown(IPage page) => page.EvaluateAsync("() => { isScanning = false; }");
}
