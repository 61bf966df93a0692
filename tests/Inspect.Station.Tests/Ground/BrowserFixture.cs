using Deque.AxeCore.Commons;
using Microsoft.Playwright;

namespace Inspect.Station.Tests.Ground;

/// <summary>One Chromium for all tests of a collection; each test opens a profile of its own.</summary>
public sealed class BrowserFixture : IAsyncLifetime
{
    private static readonly string[] Arguments =
    [
        "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
        "--disable-background-networking", "--disable-component-update", "--disable-sync",
    ];

    private IPlaywright? _playwright;
    private IBrowser? _browser;

    public async Task InitializeAsync()
    {
        // What is expected comes at once on a quiet machine; a busy one is given time and fails nothing.
        Assertions.SetDefaultExpectTimeout(180_000);
        _playwright = await Playwright.CreateAsync();
        _browser = await _playwright.Chromium.LaunchAsync(new() { ExecutablePath = Executable(), Args = Arguments });
    }

    public async Task DisposeAsync()
    {
        if (_browser is not null)
        {
            await _browser.DisposeAsync();
        }

        _playwright?.Dispose();
    }

    /// <summary>A new profile on a station, at a width in CSS pixels and in one theme. Only 127.0.0.1 can be reached.</summary>
    public Task<BrowserVisit> Visit(
        StationFixture station, int width = 1440, ColorScheme theme = ColorScheme.Light, bool hasTouch = false) =>
        Visit(station.ClientOptions.BaseAddress, width, theme, hasTouch);

    /// <summary>The same, on a station that is a process of its own.</summary>
    public async Task<BrowserVisit> Visit(Uri station, int width = 1440, ColorScheme theme = ColorScheme.Light, bool hasTouch = false)
    {
        var context = await _browser!.NewContextAsync(new()
        {
            BaseURL = station.ToString(),
            ViewportSize = new() { Width = width, Height = BrowserVisit.Height },
            ColorScheme = theme,
            HasTouch = hasTouch,
            ReducedMotion = ReducedMotion.Reduce,
        });

        // A machine that builds something else beside the tests may take long to answer; nothing here is timed.
        context.SetDefaultTimeout(180_000);
        await context.RouteAsync(url => new Uri(url).Host != "127.0.0.1", route => route.AbortAsync());
        return new BrowserVisit(context, await context.NewPageAsync());
    }

    private static string Executable() =>
        Environment.GetEnvironmentVariable("INSPECT_TEST_CHROMIUM")
        ?? Array.Find(["/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome"], File.Exists)
        ?? throw new InvalidOperationException("Browser tests need Chromium: tests/run installs it, or name it in INSPECT_TEST_CHROMIUM.");
}

/// <summary>One person's visit: a page in a profile of its own, and what the browser complained about.</summary>
public sealed class BrowserVisit : IAsyncDisposable
{
    /// <summary>The height of every page, in CSS pixels.</summary>
    internal const int Height = 900;

    // A theme changes colours and nothing else, so these are all that can fail in the second one alone.
    private static readonly string[] OfColour = ["color-contrast", "link-in-text-block"];

    private static readonly string Axe = new BundledAxeScriptProvider().GetScript();

    private readonly IBrowserContext _context;
    private readonly List<string> _complaints = [];

    public BrowserVisit(IBrowserContext context, IPage page)
    {
        _context = context;
        Page = page;
        page.PageError += (_, error) => _complaints.Add(error);

        // An answer of 4xx is shown in the console too, and is often what the test is about.
        page.Console += (_, message) =>
        {
            if (message.Type == "error" && !message.Text.StartsWith("Failed to load resource", StringComparison.Ordinal))
            {
                _complaints.Add(message.Text);
            }
        };
    }

    /// <summary>The page.</summary>
    public IPage Page { get; }

    /// <summary>Signs in on the page, as a person does.</summary>
    public async Task SignIn(string name, string passcode)
    {
        await Page.GotoAsync("/sign-in");
        await Page.GetByLabel("Sign-in name").FillAsync(name);
        await Page.GetByLabel("Passcode").FillAsync(passcode);
        await Page.GetByRole(AriaRole.Main).GetByRole(AriaRole.Button, new() { Name = "Sign in" }).ClickAsync();
        await Assertions.Expect(Page).Not.ToHaveURLAsync(new System.Text.RegularExpressions.Regex("/sign-in"));
    }

    /// <summary>Asserts that axe finds nothing on the page as it stands, in light and in dark, and that nothing is wider than the screen:
    /// as wide as the page is now, or at each of these widths.</summary>
    public async Task AssertAccessible(params int[] widths)
    {
        if (await Page.EvaluateAsync<bool>("!('axe' in globalThis)"))
        {
            await Page.EvaluateAsync(Axe);
        }

        await AssertNothingFound(ColorScheme.Light, null, widths.FirstOrDefault());
        await AssertNothingFound(ColorScheme.Dark, OfColour, 0);
        foreach (var width in widths.Skip(1))
        {
            await AssertNothingFound(ColorScheme.Light, null, width);
        }

        AssertNoComplaints();
    }

    /// <summary>Asserts that no script failed and no content policy was broken.</summary>
    public void AssertNoComplaints() => Assert.True(_complaints.Count == 0, string.Join('\n', _complaints));

    /// <summary>Starts anew on the next page of the same visit.</summary>
    public void ForgetComplaints() => _complaints.Clear();

    public async ValueTask DisposeAsync() => await _context.DisposeAsync();

    // The script of the check stays in the page; nothing of it is sent back but what was found.
    private async Task AssertNothingFound(ColorScheme theme, string[]? rules, int width)
    {
        if (width > 0)
        {
            await Page.SetViewportSizeAsync(width, Height);
        }

        await Page.EmulateMediaAsync(new() { ColorScheme = theme });
        var found = await Page.EvaluateAsync<string[]>(
            """
            async rules => (await axe.run({ resultTypes: ["violations"], ...(rules && { runOnly: rules }) })).violations
              .map(found => [`${found.id}: ${found.help}`, ...found.nodes.map(node => `    ${node.html}`)].join("\n"))
            """,
            rules);
        var place = $"{Page.Url}, {theme}, {Page.ViewportSize!.Width} px wide";
        Assert.True(found.Length == 0, $"{place}:\n{string.Join('\n', found)}");
        Assert.True(await Page.EvaluateAsync<bool>("document.documentElement.scrollWidth <= "
            + "document.documentElement.clientWidth"), $"{place}, scrolls sideways.");
    }
}

/// <summary>The tests that type and press in a browser.</summary>
[CollectionDefinition(Name)]
public sealed class BrowserTests : ICollectionFixture<BrowserFixture>
{
    public const string Name = "browser: by hand";
}

/// <summary>The tests that only look at pages, in a browser of their own beside the others.</summary>
[CollectionDefinition(Name)]
public sealed class BrowserLooks : ICollectionFixture<BrowserFixture>
{
    public const string Name = "browser: looks";
}
