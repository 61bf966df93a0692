using System.Net;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using Inspect.Station.Prepare;
using Inspect.Station.Queue;
using Inspect.Station.Record;
using Inspect.Station.Storage;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Measure;
using Inspect.Station.Tests.Record;
using Microsoft.Extensions.DependencyInjection;

namespace Inspect.Station.Tests.Bring;

/// <summary>The list of balls that a bowler writes with the code on the entry's card, and that an inspector then measures. Common
/// practice of check-in, no source.</summary>
public sealed class EnteredBallTests
{
    private const string Entry = "/events/LANTERN/entries/103";
    private const string List = $"{Entry}/balls/list";

    [Fact]
    public async Task Bowler_WithTheCard_WritesAListThatTheTableMeasuresWithoutTyping()
    {
        await using var station = new StationFixture();
        using var bowler = await station.Client();
        using var inspector = await station.Client("inspector");
        var card = await Card(station, "103");
        var empty = await bowler.GetPage(card);

        using var first = await bowler.Send(Write(empty), Nightjar);
        using var second = await bowler.Send(
            Write(empty), ("ball.model", "Low Lantern"), ("ball.serial", "7TT01884"), ("grip.hand", "left"));

        Assert.Equal(HttpStatusCode.Redirect, first.StatusCode);
        var page = await bowler.GetPage(card);
        Assert.Equal(
            [
                "Ostrava Kiln Nightjar 9QF31207 right hand, thumb middle ring. Not inspected yet.",
                "Low Lantern 7TT01884 left hand. Not inspected yet.",
            ],
            page.QuerySelectorAll(".people li p").Select(Html.Words));
        Assert.DoesNotContain(EntryOf(station, "103").Bowler!, page.DocumentElement.OuterHtml, StringComparison.Ordinal);

        // At the table the next ball is one key away, and what the bowler wrote stands in the form; nothing measured does.
        var entry = await inspector.GetPage(Entry);
        var links = entry.QuerySelectorAll<IHtmlAnchorElement>("a[href*='entered=']").ToList();
        Assert.Equal(["1", "2"], links.Select(link => link.GetAttribute("data-key")));
        Assert.True(links[0].HasAttribute("autofocus"));
        var form = await inspector.GetPage(links[0].GetAttribute("href")!);
        Assert.Equal(
            ("Ostrava Kiln", "Nightjar", "9QF31207"), (form.Typed("ball.maker"), form.Typed("ball.model"), form.Typed("ball.serial")));
        Assert.Equal(
            ["right", "thumb", "middle", "ring"],
            form.QuerySelectorAll<IHtmlInputElement>("[name^='grip.']:checked").Select(input => input.Value));
        Assert.Equal("", form.Typed("weights.gross"));

        // Once it is recorded it stands on the bowler's page with its slip, and is no longer to be inspected.
        var number = (string)(await inspector.Recorded(SampleSheets.Legal(), "103"))["number"]!;
        Assert.StartsWith(
            $"Ostrava Kiln Nightjar 9QF31207 right hand, thumb middle ring. Inspected, slip {number}.",
            (await bowler.GetPage(card)).QuerySelector(".people li")!.Words(), StringComparison.Ordinal);
        Assert.EndsWith("entered=2", Assert.Single(
            (await inspector.GetPage(Entry)).QuerySelectorAll("a[href*='entered=']")).GetAttribute("href"), StringComparison.Ordinal);
        Assert.Equal(
            ("Next ball of this bowler, 1 on the list b", Entry),
            (await inspector.GetPage($"/inspections/{number}")).QuerySelector("[data-key=b]") is { } next
                ? (next.Words(), next.GetAttribute("href")) : default);
    }

    [Fact]
    public async Task Bowler_WritesWhatCannotBe_IsToldAtTheFieldAndLosesNothing()
    {
        await using var station = new StationFixture();
        using var bowler = await station.Client();
        var page = await bowler.GetPage(await Card(station, "103"));

        using var nothing = await bowler.Send(Write(page));
        using var tooLong = await bowler.Send(Write(page), ("ball.model", "Nightjar"), ("ball.serial", new string('7', 121)));
        using var noHand = await bowler.Send(Write(page), ("ball.model", "Nightjar"), ("grip.hand", "both"));

        Assert.Equal(HttpStatusCode.UnprocessableEntity, nothing.StatusCode);
        Assert.Equal(
            "Write what is on the ball: the model and the serial number, or at least one of them.",
            (await nothing.Read()).FaultAt("ball-model"));
        var long120 = await tooLong.Read();
        Assert.Contains("121 characters long; at most 120 are kept", long120.FaultAt("ball-serial"), StringComparison.Ordinal);
        Assert.Equal("Nightjar", long120.Typed("ball.model"));
        Assert.Contains("\"both\"", (await noHand.Read()).FaultAt("grip-hand"), StringComparison.Ordinal);
        Assert.Empty(station.Services.GetRequiredService<EnteredBalls>().OfEntry("LANTERN", "103"));
    }

    [Fact]
    public async Task Bowler_WithAsManyBallsAsTheEventTakes_TakesOneOffFirst()
    {
        await using var station = new StationFixture();
        using var bowler = await station.Client();
        using var inspector = await station.Client("inspector");
        await station.Services.GetRequiredService<WriteGate>().Run(write => EventTables.Set(write, "LANTERN", 2, false));
        var card = await Card(station, "103");
        var page = await bowler.GetPage(card);
        foreach (var serial in (string[])["9QF31207", "9QF31208"])
        {
            using var added = await bowler.Send(Write(page), ("ball.serial", serial));
            Assert.Equal(HttpStatusCode.Redirect, added.StatusCode);
        }

        using var third = await bowler.Send(Write(page), ("ball.serial", "9QF31209"));

        Assert.Contains(
            "This event takes 2 balls a bowler; take one off the list to enter another.",
            (await third.Read()).QuerySelector("[role=alert]")!.Words(), StringComparison.Ordinal);
        var full = await bowler.GetPage(card);
        Assert.Equal("On your list: 2 of 2", full.QuerySelector("#list")!.Words());
        Assert.Null(full.QuerySelector("[name='ball.serial']"));

        // One that was measured is the table's to take off; the other is the bowler's.
        await inspector.Recorded(SampleSheets.Legal(), "103");
        var remove = full.QuerySelectorAll<IHtmlFormElement>("form[action$='/remove']").ToList();
        using var measured = await bowler.Send(remove[0]);
        using var off = await bowler.Send(remove[1]);
        Assert.Contains("has been inspected", (await measured.Read()).QuerySelector("[role=alert]")!.Words(), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Redirect, off.StatusCode);
        var list = await inspector.GetPage(List);
        Assert.Equal("9QF31207", list.QuerySelector(".one-ball strong")!.Words());
        Assert.Matches(
            "^9QF31208 Written down .* by the bowler. Taken off .* by the bowler.$", list.QuerySelector("ul.plain li")!.Words());
    }

    /// <summary>A card that got about fills neither the store nor the page. A code with other dashes leads back as on the card.</summary>
    [Fact]
    public async Task Bowler_WithoutACap_WritesNoMoreThanABowlerCanHave()
    {
        await using var station = new StationFixture();
        using var bowler = await station.Client();
        var card = await Card(station, "103");
        var written = card[3..];
        using var added = await bowler.PostAsync(
            $"/e/{written[..4]}\u2011{written[4..]}",
            new FormUrlEncodedContent([.. Token(await bowler.GetPage(card)), KeyValuePair.Create("ball.serial", "9QF31207")]));
        Assert.Equal($"{card}#list", added.Headers.Location!.ToString());

        var held = station.Services.GetRequiredService<Events>().Find("LANTERN")!;
        var refusals = await station.Services.GetRequiredService<WriteGate>().Run(write =>
        {
            var most = Add(write, 99);
            for (var i = 1; i <= 100; i++)
            {
                EnteredBalls.Remove(write, held.Id, "103", i, null, StationClock.Only.GetUtcNow());
                Add(write, 1);
            }

            for (var i = 101; i <= 199; i++)
            {
                EnteredBalls.Remove(write, held.Id, "103", i, null, StationClock.Only.GetUtcNow());
            }

            return (most, Ever: Add(write, 2));
        });

        Assert.Equal("This event takes 99 balls a bowler; take one off the list to enter another.", refusals.most);
        Assert.Equal("This list has been changed too often; ask at the inspection table.", refusals.Ever);

        string? Add(WriteTransaction write, int many) => Enumerable.Range(0, many).Select(i => EnteredBalls.Add(
            write, held, "103", new BallAsWritten(null, "Low Lantern", null), null, StationClock.Only.GetUtcNow(), null)).ToList()[^1];
    }

    [Fact]
    public async Task Ball_MovedAndLent_StandsWhereItIsAndSaysWhereItWas()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        var page = await inspector.GetPage(List);
        using var one = await inspector.Send(page, Nightjar);
        using var two = await inspector.Send(page, ("ball.model", "Low Lantern"), ("ball.serial", "7TT01884"));
        var list = await inspector.GetPage(List);
        var forms = list.QuerySelectorAll<IHtmlFormElement>(".one-ball form").ToList();

        using var nowhere = await inspector.Send(forms[0], ("to.1", "9999"), ("act", "move"));
        using var here = await inspector.Send(forms[0], ("to.1", "103"), ("act", "lend"));
        using var moved = await inspector.Send(forms[0], ("to.1", "117"), ("act", "move"));
        using var movedAgain = await inspector.Send(forms[0], ("to.1", "117"), ("act", "move"));
        using var lent = await inspector.Send(forms[1], ("to.2", "118"), ("act", "lend"));

        Assert.Equal("There is no entry \"9999\" in Quillhaven Lantern Open.", (await nowhere.Read()).FaultAt("to-1"));
        Assert.Equal("It is on the list of entry 103 already.", (await here.Read()).FaultAt("to-1"));
        Assert.All([moved, movedAgain, lent], answer => Assert.Equal(HttpStatusCode.Redirect, answer.StatusCode));
        list = await inspector.GetPage(List);
        Assert.Contains("Lent to entry 118.", list.QuerySelector(".one-ball")!.Words(), StringComparison.Ordinal);
        Assert.Contains("Moved to entry 117", list.QuerySelector("ul.plain li")!.Words(), StringComparison.Ordinal);
        var mover = Assert.Single((await inspector.GetPage("/events/LANTERN/entries/117/balls/list")).QuerySelectorAll(".one-ball"));
        Assert.Contains("It was on the list of entry 103 before.", mover.Words(), StringComparison.Ordinal);
        var borrower = await inspector.GetPage("/events/LANTERN/entries/118");
        Assert.Contains("Lent by entry 103.", borrower.QuerySelector(".people li")!.Words(), StringComparison.Ordinal);
        Assert.DoesNotContain("look at both", borrower.DocumentElement.TextContent, StringComparison.Ordinal);

        // The grip of the one who lends it says nothing of the other's.
        var form = await inspector.GetPage(borrower.QuerySelector("a[href*='entered=']")!.GetAttribute("href")!);
        Assert.Equal("7TT01884", form.Typed("ball.serial"));
        Assert.Null(form.QuerySelector("[name='grip.hand']:checked"));
    }

    [Fact]
    public async Task Serial_ThatLooksLikeAnother_IsPointedOutAndTaken()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        using var one = await inspector.Send(await inspector.GetPage(List), ("ball.serial", "9QF31207"));
        using var two = await inspector.Send(
            await inspector.GetPage("/events/LANTERN/entries/117/balls/list"), ("ball.serial", "9QF3l2O7"));

        Assert.Equal(HttpStatusCode.Redirect, two.StatusCode);
        const string Doubt = "Serial 9QF31207 is on the list of entry 103 as well: look at both balls.";
        Assert.Contains(
            Doubt, (await inspector.GetPage("/events/LANTERN/entries/117/balls/list")).QuerySelector(".one-ball")!.Words(),
            StringComparison.Ordinal);
        Assert.Contains(
            Doubt, (await inspector.GetPage("/events/LANTERN/entries/117")).QuerySelector(".people li")!.Words(), StringComparison.Ordinal);

        // A ball that was inspected for somebody else is pointed out too.
        await inspector.Recorded(SampleSheets.Legal(), "102");
        using var off = await inspector.Send(
            (await inspector.GetPage(List)).QuerySelector<IHtmlFormElement>(".one-ball form")!, ("act", "remove"));
        Assert.Contains(
            "looks like 9QF31207 of entry 102",
            (await inspector.GetPage("/events/LANTERN/entries/117")).QuerySelector(".people li")!.Words(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task BallOfAnotherEvent_IsBroughtByATapAndKeepsItsHistory()
    {
        await using var station = new StationFixture();
        using var bowler = await station.Client();
        using var inspector = await station.Client("inspector");
        var person = EntryOf(station, "103");
        var autumn = DemoEvent.On(StationClock.Today) with { Id = "AUTUMN27", Name = "Autumn Doubles" };
        await station.Services.GetRequiredService<WriteGate>().Run(write => Events.TryAdd(write, autumn)
            && Events.TryEnter(write, autumn.Id, [new NewEntry("7", person.Bowler!, null, person.Person)]));
        await inspector.Recorded(SampleSheets.Legal(), "103");
        var card = await Card(station, "7", autumn);

        var page = await bowler.GetPage(card);
        using var brought = await bowler.Send(page.QuerySelector<IHtmlFormElement>("form[action$='/again']")!);
        using var twice = await bowler.Send(page.QuerySelector<IHtmlFormElement>("form[action$='/again']")!);

        Assert.Equal(HttpStatusCode.Redirect, brought.StatusCode);
        Assert.Contains("is on the list already", (await twice.Read()).QuerySelector("[role=alert]")!.Words(), StringComparison.Ordinal);
        var listed = await bowler.GetPage(card);
        Assert.Null(listed.QuerySelector("form[action$='/again']"));
        var entry = await inspector.GetPage("/events/AUTUMN27/entries/7");
        Assert.Null(entry.QuerySelector("a[href*='?ball=']"));
        var form = await inspector.GetPage(entry.QuerySelector("a[href*='entered=']")!.GetAttribute("href")!);
        Assert.Contains("inspected before as LANTERN-0001", form.QuerySelector(".overline")!.TextContent, StringComparison.Ordinal);

        // Written down by its serial it is the same ball too.
        using var off = await bowler.Send(listed.QuerySelector<IHtmlFormElement>("form[action$='/remove']")!);
        using var written = await bowler.Send(Write(await bowler.GetPage(card)), ("ball.serial", "9qf3 1207"));
        form = await inspector.GetPage((await inspector.GetPage("/events/AUTUMN27/entries/7"))
            .QuerySelector("a[href*='entered=']")!.GetAttribute("href")!);
        Assert.Contains("inspected before as LANTERN-0001", form.QuerySelector(".overline")!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Card_OfAnEntryThatChanged_LeadsWhereItShould()
    {
        await using var station = new StationFixture();
        using var bowler = await station.Client();
        using var director = await station.Client("director");
        var (card, other) = (await Card(station, "103"), await Card(station, "117"));
        using var kept = await bowler.Send(Write(await bowler.GetPage(other)), Nightjar);

        using var unknown = await bowler.GetAsync("/e/00000000000000");
        using var official = await director.GetAsync(card);
        using var merged = await director.Send(
            await director.GetPage("/events/LANTERN/entries/103/merge?other=117"), ("stays", "103"), ("other", "117"));

        Assert.Equal(HttpStatusCode.NotFound, unknown.StatusCode);
        Assert.Equal(Entry, official.Headers.Location!.ToString());
        Assert.All(
            new[] { await bowler.GetPage(card), await bowler.GetPage(other) },
            page => Assert.Equal("Entry 103", page.QuerySelector(".overline")!.Words()[..9]));
        Assert.Equal("Ostrava Kiln Nightjar 9QF31207", (await bowler.GetPage(card)).QuerySelector(".people strong")!.Words());

        using var withdrawn = await director.Send(
            (await director.GetPage($"{Entry}/change")).QuerySelector<IHtmlFormElement>("form[action$='/withdraw']")!);
        var closed = await bowler.GetPage(card);
        Assert.StartsWith("Entry 103 is withdrawn.", closed.QuerySelector("[role=status]")!.Words(), StringComparison.Ordinal);
        Assert.Null(closed.QuerySelector("main form"));
    }

    [Fact]
    public async Task BallTakenOffTheList_IsNotMeasuredFromIt()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        using var added = await inspector.Send(await inspector.GetPage(List), Nightjar);
        using var off = await inspector.Send(
            (await inspector.GetPage(List)).QuerySelector<IHtmlFormElement>(".one-ball form")!, ("act", "remove"));

        using var gone = await inspector.GetAsync($"{Entry}/balls/new?entered=1");
        using var others = await inspector.GetAsync("/events/LANTERN/entries/117/balls/new?entered=1");

        Assert.Equal(HttpStatusCode.NotFound, gone.StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, others.StatusCode);
        Assert.Contains(
            "There is no ball \"1\" on the list of entry 103; it may have been taken off.",
            (await gone.Read()).Body!.TextContent, StringComparison.Ordinal);
    }

    private static (string, string)[] Nightjar =>
    [
        ("ball.maker", "Ostrava Kiln"), ("ball.model", "Nightjar"), ("ball.serial", "9QF31207"), ("grip.hand", "right"),
        ("grip.digits", "thumb"), ("grip.digits", "middle"), ("grip.digits", "ring"),
    ];

    private static IHtmlFormElement Write(IDocument page) =>
        page.QuerySelectorAll<IHtmlFormElement>("main form").Single(form => form.QuerySelector("[name='ball.serial']") is not null);

    private static IEnumerable<KeyValuePair<string, string>> Token(IDocument page) => Write(page)
        .QuerySelectorAll<IHtmlInputElement>("input[type=hidden]").Select(input => KeyValuePair.Create(input.Name!, input.Value));

    private static Entry EntryOf(StationFixture station, string number) =>
        station.Services.GetRequiredService<Events>().FindEntry("LANTERN", number)!;

    private static async Task<string> Card(StationFixture station, string number, Event? held = null)
    {
        var events = station.Services.GetRequiredService<Events>();
        held ??= events.Find("LANTERN")!;
        var cards = await station.Services.GetRequiredService<EntryCards>().Of(held, [events.FindEntry(held.Id, number)!]);
        return $"/e/{cards[number]}";
    }
}
