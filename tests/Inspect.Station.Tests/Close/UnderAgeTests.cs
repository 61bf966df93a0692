using System.Net;
using System.Text;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using Inspect.Station.Access;
using Inspect.Station.Prepare;
using Inspect.Station.Queue;
using Inspect.Station.Record;
using Inspect.Station.Storage;
using Inspect.Station.Tests.Decide;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Queue;
using Inspect.Station.Tests.Record;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;

namespace Inspect.Station.Tests.Close;

/// <summary>A bowler who is under age has no name for whoever is not signed in. The behaviour is defined by this project.</summary>
public sealed class UnderAgeTests
{
    private const string Name = "Tomás Ibarrondo Quell";

    [Fact]
    public async Task EveryRouteForAnyone_AnswersWithoutTheNameOfABowlerWhoIsUnderAge()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        using var inspector = await station.Client("inspector");
        await UnderAge(director, "103");
        await QueueSteps.In(station, "103", "101");
        await station.Services.GetRequiredService<WriteGate>().Run(write =>
        {
            EventTables.Set(write, "LANTERN", 4, showsNames: true);
            return EventTables.SetWall(write, "LANTERN", isOpen: true);
        });
        var word = station.Services.GetRequiredService<EventTables>().Of("LANTERN").WallWord!;
        var failed = await inspector.Recorded(SampleSheets.TooHeavyOnTheLeft(), "103");
        var open = await inspector.Recorded(RulingSteps.Undecided(), "103");
        using var ruled = await RulingSteps.Rule(director, "LANTERN-0002", "allow", "Quell's coach asked", "Shown again by Tomas");
        Assert.True(ruled.IsSuccessStatusCode, await ruled.Content.ReadAsStringAsync());
        using var other = await RulingSteps.Rule(director, "LANTERN-0001", "remeasure", "Weighed with the ball of Tomás Ibarrondo Quell");
        Assert.True(other.IsSuccessStatusCode, await other.Content.ReadAsStringAsync());
        var events = station.Services.GetRequiredService<Events>();
        var card = (await station.Services.GetRequiredService<EntryCards>().Of(
            events.Find("LANTERN")!, [events.FindEntry("LANTERN", "103")!]))["103"].ToString();
        string[] codes = [failed["code"]!.GetValue<string>(), open["code"]!.GetValue<string>(), card];
        using var anyone = await station.Client();
        var words = NameFold.Words(Name).Concat(Name.Split(' ')).ToList();

        var paths = OpenRoutes(station).SelectMany(route => Filled(route, codes, word)).ToList();
        Assert.Contains($"/s/{codes[1]}", paths);
        Assert.Contains($"/api/slips/{codes[1]}", paths);
        Assert.Contains($"/e/{card}", paths);
        Assert.Contains($"/events/LANTERN/wall/{word}", paths);
        foreach (var path in paths)
        {
            using var answer = await anyone.GetAsync(path);
            var text = WebUtility.HtmlDecode(Encoding.UTF8.GetString(await answer.Content.ReadAsByteArrayAsync()));
            Assert.True(answer.StatusCode != HttpStatusCode.InternalServerError && !path.Contains('{', StringComparison.Ordinal), path);
            Assert.DoesNotContain(words, part => text.Contains(part, StringComparison.OrdinalIgnoreCase));
        }

        var scanned = await anyone.GetPage($"/s/{codes[1]}");
        Assert.Contains("it names a young bowler and is not shown here", scanned.Body!.TextContent, StringComparison.Ordinal);
        var shown = (await anyone.GetPage($"/events/LANTERN/wall/{word}")).Body!.TextContent;
        Assert.Contains("103 a young bowler", shown, StringComparison.Ordinal);
        Assert.Contains("101 Aoife B.", shown, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Officials_SeeTheNameWithAMarkAndOnlyDirectorsTheContact()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        using var inspector = await station.Client("inspector");
        await UnderAge(director, "103");

        var page = await inspector.GetPage("/events/LANTERN/entries/103");
        Assert.Equal("Entry 103, squad C, under age", page.QuerySelector(".overline")!.Words());
        Assert.Equal(Name, page.QuerySelector("h1")!.Words());
        Assert.Contains($"{Name} under age", (await inspector.GetPage("/events/LANTERN")).QuerySelector("main")!.Words(),
            StringComparison.Ordinal);
        foreach (var path in (string[])[
            "/events/LANTERN", "/events/LANTERN/entries/103", "/events/LANTERN/changes", "/events/LANTERN/door"])
        {
            Assert.DoesNotContain("Vantablossom", (await inspector.GetPage(path)).DocumentElement.OuterHtml, StringComparison.Ordinal);
        }

        var form = await director.GetPage("/events/LANTERN/entries/103/change");
        Assert.Equal("Mirela Vantablossom", form.QuerySelector<IHtmlInputElement>("#guardian")!.Value);
        var changes = (await director.GetPage("/events/LANTERN/changes")).QuerySelector("main")!.Words();
        Assert.Contains("entry 103, under age: no → yes", changes, StringComparison.Ordinal);
        Assert.DoesNotContain("Vantablossom", changes, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Contact_OfABowlerWhoIsNotUnderAge_IsRefused()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");

        using var change = await director.Send(
            Form(await director.GetPage("/events/LANTERN/entries/103/change")), ("guardian", "Mirela Vantablossom"));
        using var add = await director.Send(
            (await director.GetPage("/events/LANTERN")).QuerySelector<IHtmlFormElement>("form[action$='/entries']")!,
            ("name", "Orsolya Vantablossom"), ("guardian", "Mirela Vantablossom"));

        foreach (var answer in new[] { change, add })
        {
            Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
            Assert.Equal(
                "A guardian's contact is kept only for a bowler who is under age; tick that, or leave the contact empty.",
                (await answer.Read()).FaultAt("guardian"));
        }
    }

    [Fact]
    public async Task ClosingReport_OfABowlerWhoIsUnderAge_HasNoName()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        using var inspector = await station.Client("inspector");
        await UnderAge(director, "103");
        await inspector.Recorded(RulingSteps.Undecided(), "103");
        await inspector.Recorded(RulingSteps.Undecided(), "101");
        using var young = await RulingSteps.Rule(director, "LANTERN-0001", "allow", "Quell's coach asked", "Shown again by Tomas");
        using var other = await RulingSteps.Rule(director, "LANTERN-0002", "allow", "Aoife asked", "Shown again by Aoife");
        Assert.True(young.IsSuccessStatusCode && other.IsSuccessStatusCode);

        using var pdf = UglyToad.PdfPig.PdfDocument.Open(
            await director.GetByteArrayAsync("/desk/events/LANTERN/closing-report.pdf?paper=a4"));
        var text = string.Join(' ', pdf.GetPages().SelectMany(page => page.GetWords()).Select(word => word.Text));

        Assert.Contains("it names a young bowler", text, StringComparison.Ordinal);
        Assert.Contains("Aoife asked", text, StringComparison.Ordinal);
        Assert.DoesNotContain("Quell", text, StringComparison.Ordinal);
        Assert.DoesNotContain("Tomas", text, StringComparison.Ordinal);
    }

    private static async Task UnderAge(HttpClient director, string entry)
    {
        using var set = await director.Send(
            Form(await director.GetPage($"/events/LANTERN/entries/{entry}/change")), ("underAge", "yes"),
            ("guardian", "Mirela Vantablossom"));
        Assert.Equal(HttpStatusCode.Redirect, set.StatusCode);
    }

    private static IHtmlFormElement Form(IDocument page) => page.QuerySelector<IHtmlFormElement>("main form[action$='/change']")!;

    // Every route that answers GET and asks for no sign-in.
    private static IEnumerable<string> OpenRoutes(StationFixture station) => station.Services
        .GetRequiredService<EndpointDataSource>().Endpoints
        .OfType<RouteEndpoint>()
        .Where(route => route.Metadata.GetMetadata<HttpMethodMetadata>()?.HttpMethods.Contains("GET") != false
            && route.Metadata.GetMetadata<IAuthorizeData>() is null)
        .Select(route => "/" + route.RoutePattern.RawText!.Trim('/'));

    private static IEnumerable<string> Filled(string route, string[] codes, string word) => codes.Select(code => route
            .Replace("{code}", code, StringComparison.Ordinal)
            .Replace("{event}", "LANTERN", StringComparison.Ordinal)
            .Replace("{word}", word, StringComparison.Ordinal)
            .Replace("{authority}", "us-national", StringComparison.Ordinal)
            .Replace("{date}", "2020-08-01", StringComparison.Ordinal)
            .Replace("{documentName}", "v1", StringComparison.Ordinal))
        .Distinct();
}
