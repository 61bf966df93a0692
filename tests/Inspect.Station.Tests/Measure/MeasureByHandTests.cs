using Inspect.Station.Tests.Ground;
using Microsoft.Playwright;

namespace Inspect.Station.Tests.Measure;

/// <summary>Balls measured by hand in a browser: the keyboard only, as few keys as can be, and what happens when a hand slips.</summary>
[Collection(BrowserTests.Name)]
public sealed class MeasureByHandTests(BrowserFixture browser)
{
    /// <summary>From finding the bowler to the slip in its own window.</summary>
    private const int MostKeystrokeGroups = 45;

    // What a key takes an average typist who is no secretary, 40 words a minute: Card, Moran and Newell, The Keystroke-Level Model for User
    // Performance Time with Interactive Systems, Communications of the ACM 23 (1980), table 1. Reading a scale or a gauge is not in it.
    private const double SecondsAKey = 0.28;

    /// <summary>What typing a legal ball may take; the aim of this project.</summary>
    private const double MostSecondsOfTyping = 40;

    // What is typed from field to field, Enter after each; a plus answers a row of questions with "in order".
    private static readonly string[] LegalBall =
    [
        "Ostrava Kiln", "Nightjar", "9QF31207", "y", "r", "tmr", "15-1", "1 1/4 t", "1/2 r", "1/4 t",
        "31/32 x 2 3/4", "7/8 x 2", "27/32 x 2", "+", "8.580", "8.582", "26.95",
    ];

    [Fact]
    public async Task Inspector_WithKeyboardOnly_RecordsALegalBallInFewKeysAndReadsItsScanOnAPhone()
    {
        await using var station = new StationFixture().Listen();
        await using var visit = await browser.Visit(station);
        var page = visit.Page;
        await visit.SignIn("inspector", station.Passcode);
        await page.GotoAsync("/events/LANTERN");
        var keys = new Keys(page);

        await keys.Press("/");
        await keys.Type("103");
        await keys.Press("Enter");
        await Assertions.Expect(page.GetByRole(AriaRole.Link, new() { Name = "Inspect a ball" })).ToBeFocusedAsync();
        await keys.Press("Enter");
        await page.Locator(".table.lively").WaitForAsync();
        await Assertions.Expect(page.Locator("#outcome .calm")).ToHaveTextAsync("Nothing measured yet");
        await Assertions.Expect(page.Locator("#outcome .verdict, #record")).ToHaveCountAsync(0);
        await Assertions.Expect(page.Locator(".keybar")).ToBeHiddenAsync();
        foreach (var typed in LegalBall)
        {
            await keys.Type(typed);
            await keys.Press("Enter");
        }

        await keys.Press("+");
        await Assertions.Expect(page.Locator("#record")).ToHaveTextAsync("Record as Pass");
        await visit.AssertAccessible();
        await keys.Press("Control+Enter");

        await page.WaitForURLAsync("**/inspections/LANTERN-0001");
        await visit.AssertAccessible();
        await Assertions.Expect(page.GetByRole(AriaRole.Link, new() { Name = "Print the slip" })).ToBeFocusedAsync();
        var slip = await SlipAnswer(page, () => keys.Press("Enter"));
        Assert.Equal(200, slip.Status);
        Assert.Equal("application/pdf", slip.Headers["content-type"]);
        Assert.True(keys.Groups <= MostKeystrokeGroups, $"It took {keys.Groups} groups of keystrokes.");
        Assert.True(
            keys.Strokes * SecondsAKey <= MostSecondsOfTyping, $"It took {keys.Strokes} keys, {keys.Strokes * SecondsAKey:0} s of typing.");

        await using var phone = await browser.Visit(station, width: 360);
        await phone.Page.GotoAsync(await page.GetByRole(AriaRole.Main).Locator("a[href^='/s/']").GetAttributeAsync("href") ?? "");
        Assert.Equal("Pass", await phone.Page.Locator(".scanned .verdict strong").TextContentAsync());
        await phone.AssertAccessible();

        // The next ball of that maker and model: a letter each, and another letter makes another name of it.
        await page.GotoAsync("/events/LANTERN/entries/104/balls/new");
        await page.Locator(".table.lively").WaitForAsync();
        var (maker, model) = (page.GetByLabel("Maker", new() { Exact = true }), page.GetByLabel("Model", new() { Exact = true }));
        await page.Keyboard.TypeAsync("o");
        await Assertions.Expect(maker).ToHaveValueAsync("Ostrava Kiln");
        await page.Keyboard.PressAsync("Enter");
        await page.Keyboard.TypeAsync("Ni");
        await Assertions.Expect(model).ToHaveValueAsync("Nightjar");
        await page.Keyboard.TypeAsync("b");
        await Assertions.Expect(model).ToHaveValueAsync("Nib");
        await page.Keyboard.PressAsync("Backspace");
        await Assertions.Expect(model).ToHaveValueAsync("Ni");
        await page.Keyboard.TypeAsync("g");
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(model).ToHaveValueAsync("Nightjar");
        await Assertions.Expect(page.GetByLabel("Serial number")).ToBeFocusedAsync();
    }

    [Fact]
    public async Task Inspector_BallFailsAndComesBackRedrilled_IsMeasuredAgainWithNothingPrefilledAndPasses()
    {
        await using var station = new StationFixture().Listen();
        await using var visit = await browser.Visit(station, width: 820);
        var page = visit.Page;
        await visit.SignIn("inspector", station.Passcode);
        await page.GotoAsync(TypedBall.Page);
        var keys = new Keys(page);
        await page.Locator(".table.lively").WaitForAsync();
        foreach (var typed in LegalBall.Select(typed => typed == "1/2 r" ? "3 1/4 r" : typed))
        {
            await keys.Type(typed);
            await keys.Press("Enter");
        }

        await keys.Press("+");
        await Assertions.Expect(page.Locator("#record")).ToHaveTextAsync("Record as Fail");
        await Assertions.Expect(page.Locator("#outcome .reason.fail")).ToContainTextAsync("3 1/4 oz");
        await Assertions.Expect(page.Locator("#outcome .advice .remedy").First).ToBeVisibleAsync();

        // Near the limit: once more, without seeing the first.
        await keys.Press("Enter");
        await Assertions.Expect(page.GetByLabel("Left or right, second reading", new() { Exact = true })).ToBeFocusedAsync();
        Assert.Equal("rgba(0, 0, 0, 0)", await page.GetByLabel("Left or right", new() { Exact = true }).EvaluateAsync<string>(
            "field => getComputedStyle(field).color"));
        await Assertions.Expect(page.Locator("#outcome .reason.fail")).ToBeHiddenAsync();
        await keys.Type("3 1/8 r");
        await keys.Press("Enter");
        await Assertions.Expect(page.Locator("#record")).ToBeFocusedAsync();
        await Assertions.Expect(page.Locator("#outcome .several")).ToContainTextAsync("3 3/16 oz");

        // A reading that cannot be taken says why, and is no value.
        await page.GetByLabel("Circumference", new() { Exact = true }).FillAsync("");
        await keys.Press("Alt+n");
        await Assertions.Expect(page.GetByLabel("Why it was not taken")).ToBeFocusedAsync();
        await keys.Type("tape is missing");
        await Assertions.Expect(page.Locator("#outcome")).ToContainTextAsync("Circumference: tape is missing");

        // With every folded part open, as nobody has it and a screen reader may.
        await page.EvaluateAsync("document.querySelectorAll('.readings details').forEach(each => each.open = true)");
        await visit.AssertAccessible();
        await page.Locator("#record").ClickAsync();
        await page.WaitForURLAsync("**/inspections/LANTERN-0001");
        await Assertions.Expect(page.GetByRole(AriaRole.Main)).ToContainTextAsync("Circumference: tape is missing");

        await page.GetByRole(AriaRole.Link, new() { Name = "Measure this ball again" }).ClickAsync();
        await page.Locator(".table.lively").WaitForAsync();
        Assert.Equal("9QF31207", await page.GetByLabel("Serial number").InputValueAsync());
        Assert.Equal("", await page.GetByLabel("Gross weight", new() { Exact = true }).InputValueAsync());
        await Assertions.Expect(page.GetByLabel("Work done since")).ToBeFocusedAsync();
        await keys.Type("slug changed");
        await keys.Press("Enter");
        await Assertions.Expect(page.GetByLabel("Gross weight", new() { Exact = true })).ToBeFocusedAsync();
        foreach (var typed in LegalBall.SkipWhile(typed => typed != "15-1"))
        {
            await keys.Type(typed);
            await keys.Press("Enter");
        }

        await keys.Press("+");
        await Assertions.Expect(page.Locator("#record")).ToHaveTextAsync("Record as Pass");
        await keys.Press("Control+Enter");

        await page.WaitForURLAsync("**/inspections/LANTERN-0002");
        await page.GotoAsync("/inspections/LANTERN-0001");
        await Assertions.Expect(page.Locator(".overruled")).ToContainTextAsync("LANTERN-0002");
    }

    [Fact]
    public async Task Inspector_TypesNonsense_SeesTheSentenceOnceTheFieldIsLeftAndKeepsTheFocus()
    {
        await using var station = new StationFixture().Listen();
        await using var visit = await browser.Visit(station, width: 360, hasTouch: true);
        var page = visit.Page;
        await visit.SignIn("inspector", station.Passcode);
        await page.GotoAsync(TypedBall.Page);
        await page.Locator(".table.lively").WaitForAsync();
        var gross = page.GetByLabel("Gross weight", new() { Exact = true });
        await gross.FocusAsync();
        await page.RunAndWaitForResponseAsync(
            () => page.Keyboard.TypeAsync("15,1"), answer => answer.Url.EndsWith("/live", StringComparison.Ordinal));

        await Assertions.Expect(page.Locator("#weights-gross-fault")).ToHaveCountAsync(0);
        await Assertions.Expect(gross).ToBeFocusedAsync();
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.Locator("#weights-gross-fault")).ToContainTextAsync("\"15,1\" has a comma");
        await Assertions.Expect(page.GetByLabel("Top or bottom", new() { Exact = true })).ToBeFocusedAsync();
        await Assertions.Expect(page.Locator("#outcome .faults a")).ToContainTextAsync("\"15,1\" has a comma");

        // The sentence pushed the next field down, yet not under the bar of keys for thumbs.
        await Assertions.Expect(page.Locator(".keybar")).ToBeVisibleAsync();
        Assert.True(await page.EvaluateAsync<bool>(
            "document.activeElement.getBoundingClientRect().bottom <= document.querySelector('.keybar').getBoundingClientRect().top"),
            "The bar of keys covers the field.");
        Assert.Equal("15,1", await gross.InputValueAsync());
        await visit.AssertAccessible();

        await gross.FillAsync("15-1");
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.Locator("#weights-gross-fault")).ToHaveCountAsync(0);
        await Assertions.Expect(gross).Not.ToHaveAttributeAsync("aria-invalid", "true");

        // Whoever turned the keys off is not surprised by a letter outside a field.
        var legend = page.Locator("#keys");
        await page.Locator("#keys summary").FocusAsync();
        await page.Keyboard.PressAsync("?");
        await Assertions.Expect(legend).ToHaveAttributeAsync("open", "");
        await page.Locator("[data-keys-switch]").ClickAsync();
        await page.Keyboard.PressAsync("?");
        await Assertions.Expect(legend).ToHaveAttributeAsync("open", "");
        await Assertions.Expect(legend.GetByText("Shift", new() { Exact = true })).ToBeVisibleAsync();
        await visit.AssertAccessible();
    }

    /// <summary>What the station answers in the window that a press opens.</summary>
    private static async Task<IResponse> SlipAnswer(IPage page, Func<Task> press)
    {
        var answered = new TaskCompletionSource<IResponse>();
        page.Context.Response += (_, response) =>
        {
            if (response.Url.EndsWith("/slip.pdf", StringComparison.Ordinal))
            {
                answered.TrySetResult(response);
            }
        };
        await press();
        return await answered.Task.WaitAsync(TimeSpan.FromSeconds(20));
    }

    /// <summary>Counts keystroke groups: what is typed into one field is one, and so is each other key. Shift and
    /// Control are keys of their own.</summary>
    private sealed class Keys(IPage page)
    {
        public int Groups { get; private set; }

        public int Strokes { get; private set; }

        public async Task Type(string text)
        {
            Groups++;
            Strokes += text.Length + text.Count(letter => char.IsUpper(letter) || letter == '+');
            await page.Keyboard.TypeAsync(text);
        }

        public async Task Press(string key)
        {
            Groups++;
            Strokes += key.Split('+', StringSplitOptions.RemoveEmptyEntries).Length + (key == "+" ? 2 : 0);
            await page.Keyboard.PressAsync(key);
        }
    }
}
