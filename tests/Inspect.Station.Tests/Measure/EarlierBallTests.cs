using System.Net;
using System.Text.Json.Nodes;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using Inspect.Station.Prepare;
using Inspect.Station.Storage;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Import;
using Inspect.Station.Tests.Record;
using Microsoft.Extensions.DependencyInjection;

namespace Inspect.Station.Tests.Measure;

/// <summary>Bowlers and balls that are known from another event. The behaviour is defined by this project.</summary>
public class EarlierBallTests
{
    private const string Autumn = "AUTUMN27";

    [Fact]
    public async Task Entries_OfAKnownName_AreOfferedAndNothingIsDecidedWhereTwoCouldBeMeant()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        await Hold(station, new NewEntry("9", "Rurik Aldenmoor", null), new NewEntry("10", "Rurik Aldenmoor", null), new NewEntry(
            "11", "Desmond Okwuosa-Lyle", null));
        var events = station.Services.GetRequiredService<Events>();
        var khue = events.FindEntry(DemoEvent.Id, "104")!;

        var page = await director.Paste("1, NGUYEN THI BICH KHUE\n2, Mirembe Halloway\n3, Łucja", Autumn);

        var offered = Assert.Single(page.QuerySelectorAll<IHtmlSelectElement>("[aria-labelledby=doubt-Known] tbody select"));
        Assert.Equal(("row.1", khue.Person.ToString()), (offered.Name, offered.Value));
        Assert.Contains($"104 at Quillhaven Lantern Open, {khue.Bowler}", offered.SelectedOptions[0].TextContent, StringComparison.Ordinal);
        await director.Add(page);
        Assert.Equal(khue.Person, events.FindEntry(Autumn, "1")!.Person);
        Assert.Equal(khue.Bowler, events.FindEntry(Autumn, "1")!.Bowler);
        Assert.NotEqual(khue.Person, events.FindEntry(Autumn, "2")!.Person);

        // Two people of one name at an event, and two lines of one name that could both be the one person.
        var doubtful = await director.Paste("201, Rurik Aldenmoor\n202, Desmond Okwuosa-Lyle\n203, Desmond Okwuosa-Lyle");
        var selects = doubtful.QuerySelectorAll<IHtmlSelectElement>("section tbody select").ToList();
        Assert.Equal(["row.2", "row.3", "row.1"], selects.Select(select => select.Name));
        Assert.Equal(["", "", ""], selects.Select(select => select.Value));
        Assert.Equal([3, 3, 4], selects.Select(select => select.Options.Length));
    }

    [Fact]
    public async Task Entry_WhoeverIsChosenAsSomebodyElse_IsNewAndAnIdThatWasNotOfferedIsNotTaken()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        await Hold(station);
        var events = station.Services.GetRequiredService<Events>();
        var (khue, other) = (events.FindEntry(DemoEvent.Id, "104")!, events.FindEntry(DemoEvent.Id, "105")!);
        await director.Add(await director.Paste("1, Nguyễn Thị Bích Khuê", Autumn), ("row.1", "new"));
        var page = await director.Paste("2, Nguyễn Thị Bích Khuê", Autumn);
        await director.Add(page, ("row.1", other.Person.ToString()));
        Assert.Null(events.FindEntry(Autumn, "2"));
        await director.Add(page, ("row.1", "enter"));

        string[] people = [.. new[] { khue, other, events.FindEntry(Autumn, "1")!, events.FindEntry(Autumn, "2")! }.Select(
            entry => entry.Person.ToString())];
        Assert.Distinct(people);
    }

    [Fact]
    public async Task BallOfAnotherEvent_IsTakenUpWithWhatIsKnownAndNothingMeasured()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        var events = station.Services.GetRequiredService<Events>();
        var bowler = events.FindEntry(DemoEvent.Id, "104")!;
        await Hold(station, new NewEntry("7", bowler.Bowler!, null, bowler.Person), new NewEntry("8", "Somebody Else", null));
        var earlier = await inspector.Recorded(SampleSheets.Legal(), "104");
        var number = earlier["number"]!.GetValue<string>();

        var entry = await inspector.GetPage($"/events/{Autumn}/entries/7");
        var link = entry.QuerySelector("a[href*='?ball=']")!;
        var form = await inspector.GetPage(link.GetAttribute("href")!);

        Assert.Contains("Ostrava Kiln Nightjar 9QF31207", entry.QuerySelector("main")!.TextContent, StringComparison.Ordinal);
        Assert.Contains($"inspected before as {number}", form.QuerySelector(".overline")!.TextContent, StringComparison.Ordinal);
        Assert.Equal(["Ostrava Kiln", "Nightjar", "9QF31207", "2023-04"],
            new[] { "maker", "model", "serial", "made" }.Select(name => Typed(form, $"ball.{name}")));
        Assert.Equal("right", form.QuerySelector<IHtmlInputElement>("[name='grip.hand']:checked")!.Value);
        Assert.Null(form.QuerySelector("[name='ball.listed']:checked"));
        Assert.All(
            form.QuerySelectorAll<IHtmlInputElement>("[name^='weights.'],[name^='hole.'],[name^='size.'],[name^='hardness.']")
                .Where(field => field.Type == "text"), field => Assert.Equal("", field.Value));

        // Recorded there, it is the same ball: its story runs on, the first record stands, and it is not offered again.
        var request = SampleSheets.Request(SampleSheets.Legal(), "7");
        (request["event"], request["ball"]) = (Autumn, new Uri(new Uri("http://x"), link.GetAttribute("href")).Query.Split('=')[1]);
        using var recorded = await inspector.Record(request);
        Assert.Equal(HttpStatusCode.Created, recorded.StatusCode);
        var story = await (await station.Client("director")).GetPage($"/desk/balls/{request["ball"]}");
        Assert.Contains(number, story.Body!.TextContent, StringComparison.Ordinal);
        Assert.Contains($"{Autumn}-0001", story.Body!.TextContent, StringComparison.Ordinal);
        Assert.Null((await inspector.GetPage($"/events/{Autumn}/entries/7")).QuerySelector("a[href*='?ball=']"));
        var code = (await (await inspector.GetAsync($"/api/slips/{earlier["code"]}")).Content.ReadAsStringAsync())!;
        Assert.Equal("stands", JsonNode.Parse(code)!["standing"]!.GetValue<string>());

        // Nobody takes up another bowler's ball.
        request["entry"] = "8";
        using var refused = await inspector.Record(request);
        Assert.StartsWith("The bowler of entry 8 has no ball", await refused.ProblemAt("ball"), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NotFound, (
            await inspector.GetAsync(link.GetAttribute("href")!.Replace("/7/", "/8/", StringComparison.Ordinal))).StatusCode);
    }

    [Fact]
    public async Task NamesOfBalls_OnceWrittenDown_AreSuggestedTheMostSeenFirst()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        var seldom = SampleSheets.Legal();
        (seldom["ball"]!["maker"], seldom["ball"]!["model"]) = ("Aldergate", "Low Lantern");
        Assert.Empty(Suggested(await inspector.GetPage(TypedBall.Page), "ball-maker"));
        await inspector.Recorded(seldom);
        await inspector.Recorded(SampleSheets.Legal(), "102");
        await inspector.Recorded(SampleSheets.Legal(), "103");

        var form = await inspector.GetPage(TypedBall.Page);

        Assert.Equal(["Ostrava Kiln", "Aldergate"], Suggested(form, "ball-maker"));
        Assert.Equal(["Nightjar", "Low Lantern"], Suggested(form, "ball-model"));
        Assert.Equal("", Typed(form, "ball.maker"));
    }

    private static IEnumerable<string?> Suggested(IDocument form, string id) =>
        form.GetElementById(form.GetElementById(id)!.GetAttribute("list")!)!
            .QuerySelectorAll("option").Select(option => option.GetAttribute("value"));

    private static string Typed(IDocument form, string field) => form.QuerySelector<IHtmlInputElement>($"[name='{field}']")!.Value;

    private static Task<bool> Hold(StationFixture station, params NewEntry[] entries)
    {
        var held = DemoEvent.On(StationClock.Today) with { Id = Autumn, Name = "Autumn Doubles" };
        return station.Services.GetRequiredService<WriteGate>()
            .Run(write => Events.TryAdd(write, held) && Events.TryEnter(write, Autumn, entries));
    }
}
