using System.Net;
using System.Net.Sockets;
using Inspect.Station.Tests.CommandLine;
using Inspect.Station.Tests.Ground;
using Microsoft.Playwright;

namespace Inspect.Station.Tests.Measure;

/// <summary>What happens at a busy table: reload, back, a second press, a session that ends, a station that goes
/// away, two tables at one sheet.</summary>
[Collection(BrowserTests.Name)]
public sealed class NothingLostTests(BrowserFixture browser)
{
    [Fact]
    public async Task ReloadBackAndASecondPress_LoseNothingAndRecordOnce()
    {
        await using var station = new StationFixture().Listen();
        await using var visit = await browser.Visit(station);
        var page = visit.Page;
        await visit.SignIn("inspector", station.Passcode);
        await Open(page);
        await TypeLegalBall(page);

        // At once, before anything was sent.
        await page.ReloadAsync();
        await Assertions.Expect(page.GetByLabel("Circumference", new() { Exact = true })).ToHaveValueAsync("26.95");
        await Assertions.Expect(page.GetByLabel("middle depth, inches")).ToHaveValueAsync("2");
        await Assertions.Expect(page.Locator("#record")).ToHaveTextAsync("Record as Pass");

        await page.EvaluateAsync("() => { const press = document.getElementById('record'); press.click(); press.click(); }");
        await page.WaitForURLAsync("**/inspections/LANTERN-0001");
        await page.GoBackAsync();
        await Assertions.Expect(page.Locator(".banner, h1").Filter(new() { HasText = "LANTERN-0001" })).ToBeVisibleAsync();

        await page.GotoAsync("/events/LANTERN/entries/103");
        await Assertions.Expect(page.Locator("tbody tr")).ToHaveCountAsync(1);
        await Assertions.Expect(page.Locator(".unfinished li")).ToHaveCountAsync(0);
        visit.AssertNoComplaints();
    }

    /// <summary>The page is made before the save arrives, and shown after the station has said that it has it.</summary>
    [Fact]
    public async Task ReloadWhileASaveIsOnItsWay_ShowsWhatWasTyped()
    {
        await using var station = new StationFixture().Listen();
        await using var visit = await browser.Visit(station);
        var page = visit.Page;
        await visit.SignIn("inspector", station.Passcode);
        await Open(page);
        await page.GetByLabel("Circumference", new() { Exact = true }).FillAsync("26.95");
        var saved = page.WaitForResponseAsync(answer => answer.Url.EndsWith("/keep", StringComparison.Ordinal) && answer.Ok);
        await page.RouteAsync("**/balls/new*", async route =>
        {
            var made = await route.FetchAsync();
            await saved;
            await Task.Delay(500);
            await route.FulfillAsync(new() { Response = made });
        });

        await page.ReloadAsync();

        await Assertions.Expect(page.GetByLabel("Circumference", new() { Exact = true })).ToHaveValueAsync("26.95");
    }

    [Fact]
    public async Task SessionRunsOutWhileTyping_KeepsAllAndLeadsBackAfterSigningIn()
    {
        await using var station = new StationFixture().Listen();
        await using var visit = await browser.Visit(station, width: 820);
        var page = visit.Page;
        await visit.SignIn("inspector", station.Passcode);
        await Open(page);
        await page.GetByLabel("Maker").FillAsync("Ostrava Kiln");
        await page.Context.ClearCookiesAsync(new() { Name = "inspect-session" });

        await page.GetByLabel("Gross weight", new() { Exact = true }).FillAsync("15-1");
        await Assertions.Expect(page.Locator(".banner")).ToContainTextAsync("signed out");
        await Assertions.Expect(page.GetByLabel("Gross weight", new() { Exact = true })).ToBeFocusedAsync();
        await page.GetByLabel("Circumference", new() { Exact = true }).FillAsync("26.95");
        await visit.AssertAccessible();
        await page.Locator(".banner a").ClickAsync();
        await page.GetByLabel("Sign-in name").FillAsync("inspector");
        await page.GetByLabel("Passcode").FillAsync(station.Passcode);
        await page.GetByRole(AriaRole.Main).GetByRole(AriaRole.Button, new() { Name = "Sign in" }).ClickAsync();

        await page.Locator(".table.lively").WaitForAsync();
        await Assertions.Expect(page.GetByLabel("Maker")).ToHaveValueAsync("Ostrava Kiln");
        await Assertions.Expect(page.GetByLabel("Gross weight", new() { Exact = true })).ToHaveValueAsync("15-1");
        await Assertions.Expect(page.GetByLabel("Circumference", new() { Exact = true })).ToHaveValueAsync("26.95");
        await Assertions.Expect(page.Locator(".banner")).ToBeEmptyAsync();
    }

    [Fact]
    public async Task StationRestartedWhileTyping_KeepsAllOnTheDeviceAndSendsItWhenItIsBack()
    {
        var address = new Uri($"http://127.0.0.1:{FreePort()}");
        var folder = StationFixture.NewFolder();
        string[] arguments = ["--data", folder, "--demo", "--urls", address.ToString()];
        try
        {
            await using var visit = await browser.Visit(address);
            var page = visit.Page;
            using (var first = StationProcess.Start(arguments, "kept over the restart"))
            {
                first.LineWith("Sign in as");
                await visit.SignIn("inspector", "kept over the restart");
                await Open(page);
                await page.GetByLabel("Maker").FillAsync("Ostrava Kiln");
                first.KillHard();
                await first.Ended();
            }

            await page.GetByLabel("Gross weight", new() { Exact = true }).FillAsync("15-1");
            await Assertions.Expect(page.Locator(".banner")).ToContainTextAsync("not reached since");
            await page.GetByLabel("Circumference", new() { Exact = true }).FillAsync("26.95");
            Assert.Equal("15-1", await page.GetByLabel("Gross weight", new() { Exact = true }).InputValueAsync());

            using var second = StationProcess.Start(arguments, "kept over the restart");
            second.LineWith("Sign in as");
            await Assertions.Expect(page.Locator(".banner")).ToBeEmptyAsync();
            await using var other = await browser.Visit(address);
            await other.SignIn("director", "kept over the restart");
            await other.Page.GotoAsync("/events/LANTERN/unfinished");
            await Assertions.Expect(other.Page.Locator(".unfinished li")).ToContainTextAsync("Measured: gross weight, circumference.");
            await other.AssertAccessible();
            second.AskToStop();
            await second.Ended();
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    [Fact]
    public async Task TwoTablesAtOneSheet_FillItTogetherAndChooseWhereTheyDiffer()
    {
        await using var station = new StationFixture().Listen();
        await using var scale = await browser.Visit(station);
        await using var gauge = await browser.Visit(station, width: 820);
        await scale.SignIn("inspector", station.Passcode);
        await gauge.SignIn("director", station.Passcode);
        await Open(scale.Page);
        await scale.Page.GetByLabel("Gross weight", new() { Exact = true }).FillAsync("15-1");
        await scale.Page.Locator(".more > summary").ClickAsync();
        await Kept(scale.Page, () => scale.Page.GetByLabel("Name of this table").FillAsync("Table 2"));

        await gauge.Page.GotoAsync("/events/LANTERN/entries/103");
        await gauge.Page.GetByRole(AriaRole.Link, new() { Name = "Continue" }).ClickAsync();
        await gauge.Page.Locator(".table.lively").WaitForAsync();
        Assert.Equal("15-1", await gauge.Page.GetByLabel("Gross weight", new() { Exact = true }).InputValueAsync());
        await Kept(gauge.Page, () => gauge.Page.GetByLabel("thumb diameter, inches", new() { Exact = true }).FillAsync("31/32"));
        await Kept(scale.Page, () => scale.Page.GetByLabel("Gross weight", new() { Exact = true }).FillAsync("15-2"));
        await Assertions.Expect(scale.Page.GetByLabel("thumb diameter, inches", new() { Exact = true })).ToHaveValueAsync("31/32");

        // Both write the same field before either has heard of the other.
        await gauge.Page.GetByLabel("Gross weight", new() { Exact = true }).FillAsync("15-3");
        await Assertions.Expect(gauge.Page.Locator(".conflict")).ToContainTextAsync("wrote “15-2” here; you wrote “15-3”");
        await gauge.AssertAccessible();
        await Kept(gauge.Page, () => gauge.Page.GetByRole(AriaRole.Button, new() { Name = "Use theirs" }).ClickAsync());
        await Assertions.Expect(gauge.Page.GetByLabel("Gross weight", new() { Exact = true })).ToHaveValueAsync("15-2");
        await Assertions.Expect(gauge.Page.Locator(".conflict")).ToHaveCountAsync(0);

        // The one answer for all that is looked at follows what another table answered, and a table that finds something takes it back.
        const string InOrder = "[name='marks.inOrder'][value=yes]";
        var (here, there) = (gauge.Page.Locator(InOrder), scale.Page.Locator(InOrder));
        await Kept(gauge.Page, () => here.PressAsync("y"));
        await Kept(scale.Page, () => scale.Page.GetByLabel("Circumference", new() { Exact = true }).FillAsync("26.95"));
        await Assertions.Expect(there).ToBeCheckedAsync();
        await scale.Page.Locator(".each-looked > summary").ClickAsync();
        await Kept(scale.Page, () => scale.Page.Locator("[name='marks.foreignMaterial'][value=yes]").PressAsync("y"));
        await Assertions.Expect(there).Not.ToBeCheckedAsync();
        await Kept(gauge.Page, () => gauge.Page.GetByLabel("middle depth, inches", new() { Exact = true }).FillAsync("2"));
        await Assertions.Expect(here).Not.ToBeCheckedAsync();
    }

    [Fact]
    public async Task TwoTabsOfOneDevice_AreTwoPagesAndAReloadIsTheSame()
    {
        await using var station = new StationFixture().Listen();
        await using var visit = await browser.Visit(station);
        var one = visit.Page;
        await visit.SignIn("inspector", station.Passcode);
        await Open(one);
        await Kept(one, () => one.GetByLabel("Maker").FillAsync("Ostrava Kiln"));
        var two = await one.Context.NewPageAsync();
        await two.GotoAsync(one.Url);
        await two.Locator(".table.lively").WaitForAsync();
        await Assertions.Expect(two.GetByLabel("Maker")).ToHaveValueAsync("Ostrava Kiln");

        // What a page wrote itself is no question to it, not even after a reload.
        await Kept(one, () => one.GetByLabel("Gross weight", new() { Exact = true }).FillAsync("15-1"));
        await one.ReloadAsync();
        await one.Locator(".table.lively").WaitForAsync();
        await Kept(one, () => one.GetByLabel("Gross weight", new() { Exact = true }).FillAsync("15-2"));
        await Assertions.Expect(one.Locator(".conflict")).ToHaveCountAsync(0);

        await two.GetByLabel("Gross weight", new() { Exact = true }).FillAsync("15-3");
        await Assertions.Expect(two.Locator(".conflict")).ToContainTextAsync("wrote “15-2” here; you wrote “15-3”");
        Assert.Equal("15-2", await one.GetByLabel("Gross weight", new() { Exact = true }).InputValueAsync());
    }

    private static async Task Open(IPage page)
    {
        await page.GotoAsync(TypedBall.Page);
        await page.Locator(".table.lively").WaitForAsync();
    }

    private static Task<IResponse> Kept(IPage page, Func<Task> act) =>
        page.RunAndWaitForResponseAsync(act, answer => answer.Url.EndsWith("/keep", StringComparison.Ordinal) && answer.Ok);

    private static async Task TypeLegalBall(IPage page)
    {
        foreach (var (name, value) in TypedBall.Legal)
        {
            var field = page.Locator($"[name=\"{name}\"]");
            if (await field.First.GetAttributeAsync("type") is "radio" or "checkbox")
            {
                await page.Locator($"[name=\"{name}\"][value=\"{value}\"]").EvaluateAsync("answer => answer.click()");
            }
            else
            {
                await field.FillAsync(value);
            }
        }
    }

    private static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }
}
