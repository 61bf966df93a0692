using Inspect.Station.Prepare;
using Inspect.Station.Storage;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Instruments;
using Inspect.Station.Tests.Record;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Playwright;

namespace Inspect.Station.Tests.Measure;

/// <summary>Balls measured by hand in a browser: the keyboard only, as few keys as can be, and what happens when a hand slips.</summary>
[Collection(BrowserTests.Name)]
public sealed class MeasureByHandTests(BrowserFixture browser)
{
    // What a key takes an average typist who is no secretary, 40 words a minute: Card, Moran and Newell, The Keystroke-Level Model for User
    // Performance Time with Interactive Systems, Communications of the ACM 23 (1980), table 1. Reading a scale or a gauge is not in it.
    private const double SecondsAKey = 0.28;

    // What is typed from field to field; \n is Enter. An answer or a side that is chosen by its letter moves on by itself, and a plus
    // answers a question with "in order".
    private const string Readings = "15-1\n1 1/4t1/2r1/4t31/32x2 3/4\n7/8x2\n27/32x2\n8.58\n8.582\n26.95\n+";
    private const string LegalBall = "Ostrava Kiln\nNightjar\n9QF31207\nyrtmr\n" + Readings;

    /// <summary>From finding the bowler to the record. The first ball of its maker and model; one whose maker and model were seen before;
    /// the next ball of the same bowler; one that fails by depth and side; and one without a thumb hole, bowled with two hands.</summary>
    private static readonly (string Ball, int MostKeys)[] Most =
        [("first", 115), ("names seen", 95), ("next", 90), ("fails", 120), ("no thumb hole", 95)];

    [Fact]
    public async Task Inspector_WithKeyboardOnly_RecordsALegalBallInFewKeysAndReadsItsScanOnAPhone()
    {
        await using var station = new StationFixture().Listen();
        await using var visit = await browser.Visit(station);
        var page = visit.Page;
        await visit.SignIn("inspector", station.Passcode);
        await page.GotoAsync("/events/LANTERN");
        var keys = new Keys(page);

        await keys.Find("103");
        await Assertions.Expect(page.Locator("#outcome .calm")).ToHaveTextAsync("Nothing measured yet");
        await Assertions.Expect(page.Locator("#outcome .verdict, #record")).ToHaveCountAsync(0);
        await Assertions.Expect(page.Locator(".keybar")).ToBeHiddenAsync();
        await keys.Type(LegalBall);
        await Assertions.Expect(page.Locator("#record")).ToHaveTextAsync("Record as Pass");
        await visit.AssertAccessible();
        await keys.Press("Control+Enter");

        await page.WaitForURLAsync("**/inspections/LANTERN-0001");
        await visit.AssertAccessible();
        await Assertions.Expect(page.GetByRole(AriaRole.Link, new() { Name = "Print the slip" })).ToBeFocusedAsync();
        var slip = await SlipAnswer(page, () => keys.Press("Enter"));
        Assert.Equal(200, slip.Status);
        Assert.Equal("application/pdf", slip.Headers["content-type"]);
        var counts = new List<(string Ball, int Keys)> { ("first", keys.Strokes) };

        await using var phone = await browser.Visit(station, width: 360);
        await phone.Page.GotoAsync(await page.GetByRole(AriaRole.Main).Locator("a[href^='/s/']").GetAttributeAsync("href") ?? "");
        Assert.Equal("Pass", await phone.Page.Locator(".scanned .verdict strong").TextContentAsync());
        await phone.AssertAccessible();

        // The next ball of that bowler has the grip of the one before.
        keys = new Keys(page);
        await keys.Press("b");
        await page.Locator(".table.lively").WaitForAsync();
        await Assertions.Expect(page.Locator("[name='grip.digits']:checked")).ToHaveCountAsync(3);
        await keys.Type("o\nn\n4TN88812\ny" + Readings);
        counts.Add(("next", await Recorded(keys, page, "Record as Pass", 2)));

        // Another bowler's of that maker and model: a letter each, and another letter makes another name of it.
        keys = new Keys(page);
        await keys.Find("104");
        var (maker, model) = (page.GetByLabel("Maker", new() { Exact = true }), page.GetByLabel("Model", new() { Exact = true }));
        await page.Keyboard.TypeAsync("Os");
        await Assertions.Expect(maker).ToHaveValueAsync("Ostrava Kiln");
        await page.Keyboard.TypeAsync("b");
        await Assertions.Expect(maker).ToHaveValueAsync("Osb");
        await page.Keyboard.PressAsync("Backspace");
        await Assertions.Expect(maker).ToHaveValueAsync("Os");
        await maker.FillAsync("");
        await keys.Type("o\nn\n");
        await Assertions.Expect(model).ToHaveValueAsync("Nightjar");
        await Assertions.Expect(page.GetByLabel("Serial number")).ToBeFocusedAsync();
        await keys.Type("7KD55120\nyrtmr\n" + Readings);
        counts.Add(("names seen", await Recorded(keys, page, "Record as Pass", 3)));

        keys = new Keys(page);
        await keys.Find("105");
        await keys.Type("o\nn\n2BX40071\nyrtmr\n" + Readings
            .Replace("1/2r", "3 3/4r", StringComparison.Ordinal).Replace("7/8x2", "7/8x4 3/4", StringComparison.Ordinal));
        counts.Add(("fails", await Recorded(keys, page, "Record as Fail", 4)));

        // An Enter passes over each field of the thumb, and the one right behind a letter does nothing. The plus mark is asked for
        // by itself.
        keys = new Keys(page);
        await keys.Find("106");
        await keys.Type("o\nn\n3PL66210\nyrmr\n" + Readings.Replace("31/32x2 3/4\n", "\n\n\n", StringComparison.Ordinal));
        await Assertions.Expect(page.GetByLabel("Plus (+) marks")).ToBeFocusedAsync();
        await keys.Type("1\n");
        counts.Add(("no thumb hole", await Recorded(keys, page, "Record as Pass", 5)));

        Assert.All(Most, most => Assert.True(
            counts.Single(each => each.Ball == most.Ball).Keys <= most.MostKeys,
            string.Join("; ", counts.Select(each => $"{each.Ball}: {each.Keys} keys, {each.Keys * SecondsAKey:0} s"))));
    }

    /// <summary>Records with the keyboard what the verdict says: how many keys it took so far.</summary>
    private static async Task<int> Recorded(Keys keys, IPage page, string verdict, int number, string held = "LANTERN")
    {
        await Assertions.Expect(page.Locator("#record")).ToHaveTextAsync(verdict);
        await keys.Press("Control+Enter");
        await page.WaitForURLAsync($"**/inspections/{held}-{number:0000}");
        return keys.Strokes;
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
        await keys.Type(LegalBall.Replace("1/2r", "3 1/4 right", StringComparison.Ordinal));
        await Assertions.Expect(page.Locator("#record")).ToHaveTextAsync("Record as Fail");
        await Assertions.Expect(page.Locator("#outcome .reason.fail")).ToContainTextAsync("3 1/4 oz");
        await Assertions.Expect(page.Locator("#outcome .advice .remedy").First).ToBeAttachedAsync();

        // Near the limit: once more, without seeing the first. An Enter by habit behind the letter that moved on changes nothing.
        await Assertions.Expect(page.GetByLabel("Left or right, second reading", new() { Exact = true })).ToBeFocusedAsync();
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
        await keys.Type(Readings);
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
        await Assertions.Expect(gross).ToBeHiddenAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Scale" }).ClickAsync();
        await Assertions.Expect(gross).ToBeFocusedAsync();
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

    /// <summary>A ball that the bowler brought to an event before, at a table with a ring gauge: the gauges show the same again.</summary>
    [Fact]
    public async Task Inspector_WithKeyboardOnly_RecordsAKnownBallInAtMost60Keys()
    {
        await using var station = new StationFixture().Listen();
        using (var client = await station.Client("director"))
        {
            await client.Recorded(SampleSheets.Legal(), "103");
            using var added = await client.Add(("kind", "ring-gauge"), ("name", "Ring 1"), ("ringCircumference", "26.704 to 27.002 in"));
            using var used = await client.Send(await client.GetPage("/instruments"), ("use.ring-gauge", "Ring 1"));
        }

        await BringsBallsOf103To(station, "AUTUMN27");
        await using var visit = await browser.Visit(station);
        var page = visit.Page;
        await visit.SignIn("director", station.Passcode);
        await page.GotoAsync("/events/AUTUMN27");
        var keys = new Keys(page);

        await keys.Find("7", known: true);
        await Assertions.Expect(page.GetByText("= 31/32")).ToBeVisibleAsync();
        await visit.AssertAccessible();
        await keys.Type("y15-1\n1 1/4t1/2r1/4t======8.58\n8.582\ng+");

        await Assertions.Expect(page.GetByLabel("thumb depth, inches")).ToHaveValueAsync("2 3/4");
        await Assertions.Expect(page.GetByLabel("Circumference, gauge: go")).ToBeCheckedAsync();
        var strokes = await Recorded(keys, page, "Record as Pass", 1, "AUTUMN27");
        Assert.True(strokes <= 60, $"{strokes} keys, {strokes * SecondsAKey:0} s");
    }

    /// <summary>Enters the bowler of entry 103 in another event, under 7.</summary>
    private static async Task BringsBallsOf103To(StationFixture station, string id)
    {
        var bowler = station.Services.GetRequiredService<Events>().FindEntry(DemoEvent.Id, "103")!;
        var lantern = station.Services.GetRequiredService<Events>().Find(DemoEvent.Id)!;
        await station.Services.GetRequiredService<WriteGate>().Run(write =>
        {
            Events.Add(write, lantern with { Id = id, Name = "Quillhaven Autumn Cup", Squads = [] });
            return Events.TryEnter(write, id, [new NewEntry("7", bowler.Bowler!, null, bowler.Person)]);
        });
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
        return await answered.Task.WaitAsync(TimeSpan.FromMinutes(3));
    }

    /// <summary>Counts keys. Shift and Control are keys of their own; \n is Enter.</summary>
    private sealed class Keys(IPage page)
    {
        public int Strokes { get; private set; }

        /// <summary>Finds a bowler from any page of the event and begins a ball.</summary>
        public async Task Find(string entry, bool known = false)
        {
            await Press("/");
            await Assertions.Expect(page.Locator("#bowler")).ToBeFocusedAsync();
            await Type($"{entry}\n");
            await Assertions.Expect(page.GetByRole(AriaRole.Link, new() { Name = "Inspect a ball" })).ToBeFocusedAsync();
            await Press(known ? "1" : "Enter");
            await page.Locator(".table.lively").WaitForAsync();
        }

        public async Task Type(string text)
        {
            Strokes += text.Length + text.Count(letter => char.IsUpper(letter) || letter == '+');
            foreach (var line in text.Split('\n').Index())
            {
                if (line.Index > 0)
                {
                    await page.Keyboard.PressAsync("Enter");
                }

                await page.Keyboard.TypeAsync(line.Item);
            }
        }

        public async Task Press(string key)
        {
            Strokes += key.Split('+', StringSplitOptions.RemoveEmptyEntries).Length;
            await page.Keyboard.PressAsync(key);
        }
    }
}
