using System.Net;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using Inspect.Station.Prepare;
using Inspect.Station.Storage;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Import;
using Inspect.Station.Tests.Record;
using Inspect.Station.Web;
using Microsoft.Extensions.DependencyInjection;

namespace Inspect.Station.Tests.Prepare;

/// <summary>How a director prepares an event on pages without script. The behaviour is defined by this project.</summary>
public class PreparePagesTests(SharedStation shared) : IClassFixture<SharedStation>
{
    private static readonly (string Name, string Value)[] Answers =
    [
        ("event", "spring27"), ("name", "Spring Singles"), ("from", "2027-03-13"), ("to", "2027-03-14"), ("timeZone", "europe/berlin"),
        ("rules", "us-national"), ("officials", "one"),
        ("squads[0].name", "B"), ("squads[0].day", "2027-03-14"), ("squads[0].time", "9:30 am"),
        ("squads[1].name", "A"), ("squads[1].day", ""), ("squads[1].time", "14.00"),
    ];

    [Fact]
    public async Task AddEvent_GoodAnswers_IsThereWithItsSquadsInOrder()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");

        using var answer = await director.Send(
            await director.GetPage("/events/new"), [.. Answers, ("plan", "gross-weight"), ("plan", "left-right")]);

        Assert.Equal("/events/SPRING27", answer.Headers.Location!.ToString());
        var added = station.Services.GetRequiredService<Events>().Find("SPRING27")!;
        Assert.Equal((new DateOnly(2027, 3, 13), new DateOnly(2027, 3, 14)), (added.From, added.To));
        Assert.Equal(
            ("Europe/Berlin", "us-national", null, true), (added.TimeZone, added.Authority, added.Edition, added.HasSingleOfficial));
        Assert.Equal(["gross-weight", "left-right"], added.Plan!);
        Assert.Equal(
            [new Squad("A", new DateTime(2027, 3, 13, 14, 0, 0)), new Squad("B", new DateTime(2027, 3, 14, 9, 30, 0))], added.Squads);
        Assert.Contains(
            "gross weight, side weight", (await director.GetPage("/events/SPRING27")).Body!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task AddEvent_AllWrong_SaysSoAtEachFieldAndLosesNothing()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");

        using var answer = await director.Send(
            await director.GetPage("/events/new"),
            ("event", "spring-27"), ("from", "2027-03-14"), ("to", "2027-03-13"), ("timeZone", "Chigago"),
            ("squads[0].name", "A"), ("squads[0].day", ""), ("squads[0].time", "half ten"),
            ("squads[1].name", ""), ("squads[1].day", "2027-13-14"), ("squads[1].time", ""), ("officials", ""));
        var page = await answer.Read();

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        Assert.Equal("\"spring-27\" is not a short name; give 2 to 12 letters A to Z and digits, such as SPRING27.", page.FaultAt("event"));
        Assert.Equal("Give the name in full as it is to appear on slips, at most 200 characters.", page.FaultAt("name"));
        Assert.Equal("\"2027-03-13\" is before the first day; give the same day or a later one.", page.FaultAt("to"));
        Assert.Equal(
            "\"Chigago\" is not a city that time zones are named by; write one in the same zone, such as America/Chicago.",
            page.FaultAt("timeZone"));
        Assert.Equal("Choose the body whose rules apply, or one edition.", page.FaultAt("rules"));
        Assert.Equal("Choose whether the person who measures may also rule.", page.FaultAt("officials"));
        Assert.Equal("\"half ten\" is not a time of day; write it as 9:30 AM or 14:00.", page.FaultAt("squads-0--time"));
        Assert.Equal("\"\" cannot be the name of a squad; give 1 to 40 characters, such as A.", page.FaultAt("squads-1--name"));
        Assert.Equal("\"2027-13-14\" is not a day; write it as 2027-03-14.", page.FaultAt("squads-1--day"));
        Assert.Equal("Say when squad \"\" begins, such as 9:30 AM or 14:00.", page.FaultAt("squads-1--time"));
        Assert.Equal(10, page.QuerySelectorAll(".summary li").Length);
        Assert.All(page.QuerySelectorAll(".summary a"), link => Assert.NotNull(page.QuerySelector(link.GetAttribute("href")!)));
        Assert.Equal("spring-27", page.QuerySelector<IHtmlInputElement>("#event")!.Value);
        Assert.Equal("half ten", page.QuerySelector<IHtmlInputElement>("#squads-0--time")!.Value);
        Assert.Equal("2027-13-14", page.QuerySelector<IHtmlInputElement>("#squads-1--day")!.GetAttribute("value"));
    }

    [Theory]
    [InlineData("event", "LANTERN", "\"LANTERN\" is the short name of another event on this station; give another one.")]
    [InlineData("event", "new", "\"NEW\" cannot be a short name here; give another one, such as SPRING27.")]
    [InlineData("rules", "nowhere", "\"nowhere\" is not a body whose rules are on this station; choose one of ")]
    [InlineData("rules", "us-national/2020-08-02", "There is no edition \"us-national/2020-08-02\" here; choose one from the list, or "
        + "the one in force on the day of play.")]
    [InlineData(
        "plan", "gross-wait", "\"gross-wait\" is not a rule of us-national on these days; take it out of the rules that are checked.")]
    [InlineData("timeZone", "../etc/passwd", "\"../etc/passwd\" is not a city that time zones are named by; write one in the same zone, "
        + "such as America/Chicago or Europe/Berlin.")]
    [InlineData("from", "14 March", "\"14 March\" is not a day; write it as 2027-03-14.")]
    [InlineData(
        "squads[0].day", "2027-03-15", "\"2027-03-15\" is not in the event, which runs from 2027-03-13 to 2027-03-14.")]
    [InlineData("squads[1].name", "b", "Squad \"b\" is in an earlier row already; give each squad a different name.")]
    [InlineData("squads[1].time", "9", "\"9\" is not a time of day; write it as 9:30 AM or 14:00.")]
    public async Task AddEvent_OneFault_SaysWhatWouldBeRight(string path, string typed, string message)
    {
        var station = shared.Station;
        using var director = await station.Client("director");

        using var answer = await director.Send(
            await director.GetPage("/events/new"), [.. Answers.Select(each => each.Name == path ? (path, typed) : each),
            .. path == "plan" ? [(path, typed)] : Array.Empty<(string, string)>()]);

        Assert.StartsWith(message, (await answer.Read()).FaultAt(FieldId.Of(path)), StringComparison.Ordinal);
        Assert.Single(station.Services.GetRequiredService<Events>().All());
    }

    [Theory]
    [InlineData("/events/new")]
    [InlineData("/events/LANTERN/entries/add")]
    [InlineData("/people")]
    public async Task Get_AsInspector_IsRefused(string path)
    {
        var station = shared.Station;
        using var inspector = await station.Client("inspector");

        Assert.Equal(HttpStatusCode.Forbidden, (await inspector.GetAsync(path)).StatusCode);
        Assert.Null((await inspector.GetPage("/events/LANTERN")).QuerySelector($"a[href='{path}']"));
    }

    [Theory]
    [InlineData("nowhere", null, null, "\"nowhere\" is not a body whose rules are on this station")]
    [InlineData("us-national", "us-national/1999-01-01", null, "There is no edition \"us-national/1999-01-01\" here")]
    [InlineData("us-national", null, "gross-wait", "\"gross-wait\" is not a rule of us-national on these days")]
    public async Task EventPage_WhatItLaysDownIsUnknown_SaysSo(string authority, string? edition, string? rule, string message)
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        var odd = DemoEvent.On(new DateOnly(2027, 3, 14)) with
        {
            Id = "ODD",
            Authority = authority,
            Edition = edition,
            Plan = rule is null ? null : [rule],
        };
        await station.Services.GetRequiredService<WriteGate>().Run(write => Events.TryAdd(write, odd));

        var page = await inspector.GetPage("/events/ODD");

        Assert.StartsWith(message, page.QuerySelector(".overruled li")!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task PreparedEvent_RecordsABallOverHttp()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        (string Name, string Value)[] days = [
            ("from", SampleSheets.Today), ("to", SampleSheets.Today), ("timeZone", "America/Chicago"),
            ("rules", "us-national/2020-08-01"), ("squads[0].day", ""), ("squads[1].day", "")];
        using var made = await director.Send(
            await director.GetPage("/events/new"), [.. Answers.ExceptBy(days.Select(day => day.Name), each => each.Name), .. days]);
        await director.Add(await director.Paste("7\tMirembe Stoat", "SPRING27"));
        using var inspector = await station.Client("inspector");
        var request = SampleSheets.Request(SampleSheets.Legal(), "7");
        request["event"] = "SPRING27";

        using var answer = await inspector.Record(request);

        Assert.Equal(HttpStatusCode.Created, answer.StatusCode);
        Assert.Contains("SPRING27-0001", await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.DoesNotContain(
            "are not on this station", (await inspector.GetPage("/events/SPRING27")).Body!.TextContent, StringComparison.Ordinal);
    }
}
