using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Record;

namespace Inspect.Station.Tests.Measure;

/// <summary>A ball measured under the wrong bowler: its readings go to the right entry, from the form, from an unfinished sheet, and after
/// the record was taken back. Common practice of officiating, no source.</summary>
public sealed class AnotherBowlersBallTests
{
    private const string Right = "/events/LANTERN/entries/117/balls/new";

    [Fact]
    public async Task Form_MovedToAnotherEntry_KeepsWhatWasTypedAndIsRecordedThere()
    {
        await using var station = new StationFixture();
        using var client = await station.Client("inspector");
        var page = await client.GetPage(TypedBall.Page);

        using var nobody = await client.Send(page, [.. TypedBall.Legal, ("moveTo", "9999"), ("act", "move")]);
        using var own = await client.Send(page, [.. TypedBall.Legal, ("moveTo", "103"), ("act", "move")]);
        using var moved = await client.Send(page, [.. TypedBall.Legal, ("moveTo", "117"), ("act", "move")]);

        var refused = await nobody.Read();
        Assert.Equal("There is no entry \"9999\" in Quillhaven Lantern Open.", refused.FaultAt("moveTo"));
        Assert.Equal("15-1", refused.Typed("weights.gross"));
        Assert.Equal("The readings are with entry 103 already.", (await own.Read()).FaultAt("moveTo"));
        Assert.StartsWith($"{Right}?form=", moved.Headers.Location!.ToString(), StringComparison.Ordinal);
        var there = await client.GetPage(moved.Headers.Location.ToString());
        Assert.Equal("Entry 117", there.QuerySelector(".table-head .overline")!.TextContent.Trim());
        Assert.All(TypedBall.Legal.Where(field => !field.Name.EndsWith(".side", StringComparison.Ordinal)), field =>
            Assert.Contains(there.QuerySelectorAll<IHtmlInputElement>($"[name='{field.Name}']"), input => input.Value == field.Value));
        using var recorded = await client.Send(there, ("act", "record"));
        var record = await client.GetFromJsonAsync<JsonNode>($"/api{recorded.Headers.Location}");
        Assert.Equal(("117", "pass"), ((string)record!["entry"]!, (string)record["verdict"]!["outcome"]!));
        Assert.Equal("None yet.", (await client.GetPage("/events/LANTERN/entries/103")).QuerySelector("#balls + p")!.TextContent);
    }

    [Fact]
    public async Task UnfinishedSheet_MovedToAnotherEntry_IsContinuedThere()
    {
        await using var station = new StationFixture();
        using var client = await station.Client("inspector");
        using var aside = await client.Send(await client.GetPage(TypedBall.Page), ("weights.gross", "15-1"), ("act", "aside"));
        var list = await client.GetPage("/events/LANTERN/unfinished");
        var sheet = await client.GetPage(list.QuerySelector("a[href*='/unfinished/']")!.GetAttribute("href")!);
        var move = sheet.QuerySelector<IHtmlFormElement>("form[action$='/move']")!;

        using var nobody = await client.Send(move, ("moveTo", ""));
        using var moved = await client.Send(move, ("moveTo", "117"));

        Assert.Equal(HttpStatusCode.UnprocessableEntity, nobody.StatusCode);
        Assert.Equal("Write the number of the entry whose ball it is.", (await nobody.Read()).FaultAt("moveTo"));
        Assert.Equal("15-1", (await client.GetPage(moved.Headers.Location!.ToString())).Typed("weights.gross"));
        Assert.StartsWith("117 ·", (await client.GetPage("/events/LANTERN/unfinished")).QuerySelector(".unfinished strong")!.TextContent,
            StringComparison.Ordinal);
    }

    /// <summary>A sheet that measures a recorded ball again stays with its bowler while that record stands.</summary>
    [Fact]
    public async Task SheetOfARecordedBall_IsNotMoved()
    {
        await using var station = new StationFixture();
        using var client = await station.Client("inspector");
        var number = (string)(await client.Recorded(SampleSheets.Legal(), "103"))["number"]!;
        var again = await client.GetPage($"{TypedBall.Page}?supersedes={number}");
        using var aside = await client.Send(again, ("weights.gross", "15-1"), ("act", "aside"));
        var list = await client.GetPage("/events/LANTERN/unfinished");
        var sheet = await client.GetPage(list.QuerySelector("a[href*='/unfinished/']")!.GetAttribute("href")!);

        using var moved = await client.Send(sheet.QuerySelector<IHtmlFormElement>("form[action$='/move']")!, ("moveTo", "117"));

        Assert.Equal(HttpStatusCode.UnprocessableEntity, moved.StatusCode);
        Assert.StartsWith(
            "This sheet is of a ball that entry 103 has already", (await moved.Read()).FaultAt("moveTo"), StringComparison.Ordinal);
        Assert.Null(again.QuerySelector("[name=moveTo]"));
    }

    /// <summary>A new ball has the grip of the bowler's last one that counts.</summary>
    [Fact]
    public async Task NewBall_HasTheGripOfTheLastBallThatCounts()
    {
        await using var station = new StationFixture();
        using var client = await station.Client("inspector");
        await client.Recorded(SampleSheets.Legal(), "103");
        await client.RecordForm(
            await client.GetPage(TypedBall.Page),
            [.. TypedBall.With(("ball.serial", "4TN88812")).Where(field => field.Name != "grip.hand"), ("grip.hand", "left")]);
        Assert.True((await client.GetPage(TypedBall.Page)).QuerySelector<IHtmlInputElement>("[name='grip.hand'][value=left]")!.IsChecked);
        var page = await client.GetPage("/inspections/LANTERN-0002");
        using var taken = await client.Send(page.QuerySelector<IHtmlFormElement>("details.undo form")!, ("reason", "Another bowler's"));

        Assert.True((await client.GetPage(TypedBall.Page)).QuerySelector<IHtmlInputElement>("[name='grip.hand'][value=right]")!.IsChecked);
    }

    [Fact]
    public async Task Record_TakenBackAsAnotherBowlersBall_HasItsReadingsThere_ForWhoTypedThem()
    {
        await using var station = new StationFixture();
        using var client = await station.Client("inspector");
        using var director = await station.Client("director");
        var number = (string)(await client.Recorded(SampleSheets.TooHeavyOnTheLeft()))["number"]!;
        var form = (await client.GetPage($"/inspections/{number}")).QuerySelector<IHtmlFormElement>("details.undo form")!;

        using var nobody = await client.Send(form, ("reason", "The neighbour's ball"), ("moveTo", "9999"));
        using var taken = await client.Send(form, ("reason", "The neighbour's ball"), ("moveTo", "117"));

        Assert.Equal("There is no entry \"9999\" in Quillhaven Lantern Open.", (await nobody.Read()).FaultAt("moveTo"));
        Assert.Equal($"{Right}?supersedes={number}", taken.Headers.Location!.ToString());
        Assert.Equal("", (await director.GetPage(taken.Headers.Location.ToString())).Typed("weights.leftRight"));
        var there = await client.GetPage(taken.Headers.Location.ToString());
        Assert.Equal("3.25 oz", there.Typed("weights.leftRight"));
        using var recorded = await client.Send(there, ("act", "record"));
        var record = (await client.GetFromJsonAsync<JsonNode>($"/api{recorded.Headers.Location}"))!;
        Assert.Equal(("117", "fail"), ((string)record["entry"]!, (string)record["verdict"]!["outcome"]!));
        Assert.Equal([number, (string)record["number"]!], record["history"]!.AsArray().Select(each => (string)each!));
        Assert.Equal("superseded", (string)(await client.GetFromJsonAsync<JsonNode>($"/api/inspections/{number}"))!["standing"]!);
    }

    /// <summary>The sizes of the hole were another bowler's business: under the right entry the gauge is read anew.</summary>
    [Fact]
    public async Task Record_TakenBackAndMeasuredUnderTheRightEntry_OffersNoEarlierSizes()
    {
        await using var station = new StationFixture();
        using var client = await station.Client("inspector");
        using var director = await station.Client("director");
        var number = (string)(await client.Recorded(SampleSheets.Legal(), "103"))["number"]!;
        using var undone = await client.Send(
            (await client.GetPage($"/inspections/{number}")).QuerySelector<IHtmlFormElement>("form[action$='/undo']")!,
            ("reason", "The ball of entry 117"));
        Assert.Equal(HttpStatusCode.Redirect, undone.StatusCode);

        var form = await director.GetPage($"{Right}?supersedes={number}");

        Assert.Equal("9QF31207", form.Typed("ball.serial"));
        Assert.Null(form.QuerySelector("[data-last]"));
    }

    /// <summary>Later, a director withdraws the record and records its readings where they belong: a new entry of the register, and the
    /// old one says what replaced it.</summary>
    [Fact]
    public async Task Record_WithdrawnByADirector_IsRecordedForTheRightBowler()
    {
        await using var station = new StationFixture();
        using var client = await station.Client("inspector");
        using var director = await station.Client("director");
        var number = (string)(await client.Recorded(SampleSheets.Legal()))["number"]!;
        var before = await director.GetPage($"/inspections/{number}");
        Assert.Null(before.QuerySelector("form[action$='/move']"));
        using var stands = await director.GetAsync($"{Right}?supersedes={number}");
        Assert.Equal(HttpStatusCode.NotFound, stands.StatusCode);
        using var ruled = await director.Send(
            await director.GetPage($"/inspections/{number}/rule"), ("decision", "withdraw"), ("reason", "The ball of entry 117"));

        var page = await director.GetPage($"/inspections/{number}");
        using var asked = await director.Send(page.QuerySelector<IHtmlFormElement>("form[action$='/move']")!, ("moveTo", "117"));
        using var judged = await director.Send(await director.GetPage(asked.Headers.Location!.ToString()), ("act", "judge"));
        using var recorded = await director.Send(await judged.Read(), ("act", "record"));

        var record = (await client.GetFromJsonAsync<JsonNode>($"/api{recorded.Headers.Location}"))!;
        Assert.Equal(
            ("117", "pass", "stands"),
            ((string)record["entry"]!, (string)record["verdict"]!["outcome"]!, (string)record["standing"]!));
        var old = await client.GetPage($"/inspections/{number}");
        Assert.Contains($"{record["number"]} replaced it", old.QuerySelector(".overruled")!.TextContent, StringComparison.Ordinal);
        Assert.Null((await director.GetPage($"/inspections/{number}")).QuerySelector("form[action$='/move']"));
    }
}
