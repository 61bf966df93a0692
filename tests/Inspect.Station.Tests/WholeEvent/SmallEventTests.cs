using System.Globalization;
using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using Inspect.Station.Access;
using Inspect.Station.Papers;
using Inspect.Station.Prepare;
using Inspect.Station.Tests.Decide;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Import;
using Inspect.Station.Tests.Record;
using Microsoft.Extensions.DependencyInjection;
using UglyToad.PdfPig;

namespace Inspect.Station.Tests.WholeEvent;

/// <summary>A small event run whole by one director and three inspectors, from an empty station to its closing report, whose figures are
/// counted again from the exported register alone.</summary>
/// <remarks>The day and its mishaps are common practice, no source; <see cref="Recount"/> names that of the intervals.</remarks>
public sealed class SmallEventTests
{
    private const string Held = "/events/AUTUMN";
    private const int Bowlers = 40;
    private const int BallsEach = 3;

    // What a new director answers, opens and is refused until three inspectors can work.
    private const int MostAnswers = 22;
    private const int MostPages = 9;

    private readonly List<string> _numbers = [];
    private int _answers;
    private int _pages;

    [Fact]
    public async Task Event_RunWhole_EveryFigureOfItsReportIsThatOfTheExport()
    {
        await using var station = new StationFixture(demo: false);
        using var director = await station.Client();
        var inspectors = await Prepare(station, director);
        Assert.InRange(_answers, 1, MostAnswers);
        Assert.InRange(_pages, 1, MostPages);

        // 120 balls at three tables.
        var entries = station.Services.GetRequiredService<Events>().EntriesOf("AUTUMN");
        Assert.Equal(Bowlers, entries.Count);
        var tables = await Task.WhenAll(inspectors.Select((inspector, table) => Measure(inspector, table, entries)));
        _numbers.AddRange(tables.SelectMany(numbers => numbers).Order(StringComparer.Ordinal));
        Assert.Equal(Bowlers * BallsEach, _numbers.Distinct().Count());

        var record = await WrongBowler(inspectors[0], entries);
        await Cured(inspectors[1], Failed(0, entries));
        await Appealed(director, inspectors[2], Failed(1, entries));
        await Swapped(director, inspectors[0], entries[10].Number);
        await Changed(director, inspectors[1], entries[20].Number);
        foreach (var inspector in inspectors)
        {
            inspector.Dispose();
        }

        // Closed: the report on paper, and the register as a file.
        using var issuing = await director.Send(await director.GetPage("/desk/events/AUTUMN/reports"));
        Assert.Equal(HttpStatusCode.Redirect, issuing.StatusCode);
        var report = station.Services.GetRequiredService<ClosingReports>().Of(
            station.Services.GetRequiredService<Events>().Find("AUTUMN")!,
            new SignedIn(PersonId.New(), "Solveig Tarnmoor", "solveig", Role.Director, ""));
        var recount = new Recount(await director.GetStringAsync("/api/register.jsonl"));

        Assert.Equal((recount.Inspections, recount.Balls, entries.Count), (report.Inspections, report.Balls, report.Entries));
        Assert.Equal(recount.Standing, report.Standing.ToDictionary(each => each.Words[..3], each => each.Inspections));
        Assert.Equal(recount.Rules, report.Rules.Select(rule => (rule.Rule, rule.Failed, rule.Held, rule.Of)).Order());
        Assert.All(report.Rules, rule =>
            Assert.Equal(Recount.Between(rule.Failed, rule.Of), ClosingReportPaper.Between(rule.Failed, rule.Of)));
        Assert.Equal(recount.Days, report.PerDay.Select(day =>
            (day.Day.ToString("O", CultureInfo.InvariantCulture), day.Inspections, day.Passed, day.Failed, day.Held)));
        Assert.Equal(recount.Replaced, report.Replaced.Select(each => (each.Number, each.By)).Order());
        Assert.Equal(recount.Ruled, report.Rulings.Select(each => each.Number).Order(StringComparer.Ordinal));
        Assert.Equal(recount.By, report.Inspectors.Select(each => each.Inspections).OrderDescending());
        Assert.Equal((recount.SpotChecks, recount.Differing), report.SpotChecks);
        Assert.Equal(recount.Lines, report.RegisterSize);
        Assert.DoesNotContain(report.Open, item => item.Number == record);

        var paper = await Paper(director, issuing.Headers.Location!.ToString());
        Assert.All(report.Rules, rule => Assert.Contains(
            Recount.Between(rule.Failed, rule.Of).Replace(" ", "", StringComparison.Ordinal), paper, StringComparison.Ordinal));
        Assert.All(report.Standing, each => Assert.Contains(
            $"{each.Words}{each.Inspections}".Replace(" ", "", StringComparison.Ordinal), paper, StringComparison.Ordinal));
    }

    /// <summary>From the empty station to three inspectors who are signed in. Nothing on the way is refused.</summary>
    private async Task<IReadOnlyList<HttpClient>> Prepare(StationFixture station, HttpClient director)
    {
        await Answered(director, "/set-up",
            ("code", station.Services.GetRequiredService<SetUp>().Code), ("person", "Solveig Tarnmoor"), ("name", "solveig"),
            ("passcode", "three wet lanterns"), ("again", "three wet lanterns"));
        await Answered(director, "/events/new",
            ("name", "Autumn Singles"), ("event", "AUTUMN"), ("from", SampleSheets.Today), ("timeZone", "chicago"),
            ("rules", "us-national"), ("squads[0].name", "A"), ("squads[0].time", "11:45 PM"));
        (_answers, _pages) = (_answers + 1, _pages + 2);
        var list = await director.Choose(List(), "autumn singles FINAL (2).xlsx", "AUTUMN");
        Assert.Equal((Bowlers, 0, 0, 1, 0), list.Counts());
        await director.Add(list);

        // No ball changes in the last day before the squad.
        var rules = await director.GetPage($"{Held}/rules");
        using var frozen = await director.Send(
            rules.QuerySelector<IHtmlFormElement>("form:has([name=freezeMinutes])")!, ("freezeMinutes", "1440"));
        (_answers, _pages) = (_answers + 1, _pages + 1);
        Assert.Equal(HttpStatusCode.Redirect, frozen.StatusCode);

        var inspectors = new List<HttpClient>();
        foreach (var (name, signIn) in ((string, string)[])[("Odd Tarnmoor", "odd"), ("Bram Ash", "bram"), ("Petra Fell", "petra")])
        {
            using var added = await director.Send(
                (await director.GetPage("/people")).QuerySelector<IHtmlFormElement>("main form:has([name=person])")!,
                ("person", name), ("name", signIn));
            (_answers, _pages) = (_answers + 2, _pages + 1);
            var shown = await director.GetPage(added.Headers.Location!.ToString());
            var client = await station.Client();
            using var session = await client.PostAsJsonAsync(
                "/api/session", new { name = signIn, passcode = shown.QuerySelector(".passcode")!.TextContent });
            Assert.Equal(HttpStatusCode.OK, session.StatusCode);
            inspectors.Add(client);
        }

        return inspectors;
    }

    private async Task Answered(HttpClient client, string path, params (string Name, string Value)[] answers)
    {
        using var answer = await client.Send(await client.GetPage(path), answers);
        (_answers, _pages) = (_answers + answers.Length, _pages + 1);
        Assert.True(answer.StatusCode == HttpStatusCode.Redirect, (await answer.Read()).QuerySelector("main")?.Words());
    }

    /// <summary>A workbook after real habits: a title, an empty row, last and first name apart, columns nobody asked for, no numbers, a
    /// vacancy, squads written in several ways.</summary>
    private static byte[] List()
    {
        string[] first = ["Wendell", "Oriel", "Tamsin", "Corvin", "Ysolde", "Bram", "Petra", "Idris"];
        string[] last = ["Marrowfield", "Quillfeather", "Tarnmoor", "Halloway", "Aldenmoor"];
        var book = new Workbook().Sheet("Entries").Row("Autumn Singles, entries as of Friday").Row()
            .Row("Last name", "First name", "Average", "E-mail", "Squad");
        for (var i = 0; i < Bowlers; i++)
        {
            book.Row(last[i / 8], first[i % 8], 160 + i, $"bowler{i}@post.example", i % 3 == 0 ? "a" : i % 3 == 1 ? "Squad A" : "A");
        }

        return book.Row("-- vacant --", null, null, null, "A").Bytes();
    }

    private static async Task<List<string>> Measure(HttpClient inspector, int table, IReadOnlyList<Entry> entries)
    {
        var numbers = new List<string>();
        for (var i = table; i < Bowlers * BallsEach; i += 3)
        {
            numbers.Add(await Recorded(inspector, Ball(i), entries[i / BallsEach].Number));
        }

        return numbers;
    }

    // Every twelfth is too heavy on the left, every fortieth was not measured round.
    private static JsonObject Ball(int i)
    {
        var sheet = i % 12 == 5 ? SampleSheets.TooHeavyOnTheLeft() : SampleSheets.Legal();
        sheet["ball"]!["serial"] = string.Create(CultureInfo.InvariantCulture, $"{i + 1000}K");
        if (i % 40 == 7)
        {
            sheet.Remove("size");
        }

        return sheet;
    }

    private static (string Entry, JsonObject Sheet) Failed(int which, IReadOnlyList<Entry> entries) =>
        (entries[((which * 12) + 5) / BallsEach].Number, Ball((which * 12) + 5));

    /// <summary>A ball recorded for the wrong bowler is taken back and recorded for the right one.</summary>
    private static async Task<string> WrongBowler(HttpClient inspector, IReadOnlyList<Entry> entries)
    {
        var wrong = await Recorded(inspector, Extra("7001K"), entries[0].Number);
        using var undone = await inspector.Send(
            (await inspector.GetPage($"/inspections/{wrong}")).QuerySelector<IHtmlFormElement>("form[action$='/undo']")!,
            ("reason", "Another bowler's ball"), ("moveTo", entries[1].Number));
        using var judged = await inspector.Send(await inspector.GetPage(undone.Headers.Location!.ToString()), ("act", "judge"));
        using var recorded = await inspector.Send(await judged.Read(), ("act", "record"));
        Assert.Equal(HttpStatusCode.Redirect, recorded.StatusCode);
        var right = (await inspector.GetFromJsonAsync<JsonObject>($"/api{recorded.Headers.Location}"))!;
        Assert.Equal((entries[1].Number, "pass"), ((string)right["entry"]!, (string)right["verdict"]!["outcome"]!));
        return wrong;
    }

    /// <summary>A failed ball comes back from the shop and passes.</summary>
    private static async Task Cured(HttpClient inspector, (string Entry, JsonObject Sheet) failed)
    {
        var number = await NumberOf(inspector, failed);
        failed.Sheet["weights"]!["leftRight"] = "0.5 oz";
        var request = Request(failed.Sheet, failed.Entry);
        (request["supersedes"], request["workDone"]) = (number, "Plugged and drilled again");
        using var recorded = await inspector.Record(request);
        Assert.Equal("pass", await Outcome(recorded));
        Assert.Equal("superseded", (string)(await inspector.GetFromJsonAsync<JsonObject>($"/api/inspections/{number}"))!["standing"]!);
    }

    /// <summary>A bowler appeals: the director orders a second measurement, which another inspector makes.</summary>
    private static async Task Appealed(HttpClient director, HttpClient inspector, (string Entry, JsonObject Sheet) failed)
    {
        var number = await NumberOf(director, failed);
        using var ruled = await RulingSteps.Rule(director, number, "remeasure", "The bowler doubts the scale");
        Assert.Equal(HttpStatusCode.Created, ruled.StatusCode);
        failed.Sheet["weights"]!["leftRight"] = "-3.2 oz";
        var request = Request(failed.Sheet, failed.Entry);
        request["supersedes"] = number;
        using var recorded = await inspector.Record(request);
        Assert.Equal("fail", await Outcome(recorded));
    }

    /// <summary>On the lanes a spot check finds another ball; it is open until the director withdraws the record.</summary>
    private static async Task Swapped(HttpClient director, HttpClient inspector, string entry)
    {
        var number = await Recorded(inspector, Extra("7002K"), entry);
        var page = await inspector.GetPage($"/inspections/{number}/spot-check");
        using var same = await inspector.Send(page, ("isTheBall", "yes"));
        using var other = await inspector.Send(
            await inspector.GetPage($"/inspections/{number}/spot-check"), ("isTheBall", "no"), ("differs", "serial"));
        Assert.Equal(HttpStatusCode.Redirect, other.StatusCode);
        Assert.Contains(number, await Open(director), StringComparison.Ordinal);
        using var ruled = await RulingSteps.Rule(director, number, "withdraw", "Another ball was brought to the lanes");
        Assert.Equal(HttpStatusCode.Created, ruled.StatusCode);
        Assert.DoesNotContain(number, await Open(director), StringComparison.Ordinal);
    }

    /// <summary>After the freeze a ball reads otherwise than its slip: the director is told, and decides.</summary>
    private static async Task Changed(HttpClient director, HttpClient inspector, string entry)
    {
        var number = await Recorded(inspector, Extra("7003K"), entry);
        var again = Extra("7003K");
        again["weights"]!["leftRight"] = "1.25 oz";
        var request = Request(again, entry);
        request["supersedes"] = number;
        using var recorded = await inspector.Record(request);
        var later = (string)JsonNode.Parse(await recorded.Content.ReadAsStringAsync())!["number"]!;
        Assert.Contains("0.75 oz apart", await Open(director), StringComparison.Ordinal);
        using var ruled = await RulingSteps.Rule(director, later, "accept", "The first reading was noted wrong");
        Assert.Equal(HttpStatusCode.Created, ruled.StatusCode);
        Assert.DoesNotContain(later, await Open(director), StringComparison.Ordinal);
    }

    private static JsonObject Request(JsonObject sheet, string entry)
    {
        var request = SampleSheets.Request(sheet, entry);
        request["event"] = "AUTUMN";
        return request;
    }

    private static async Task<string> Recorded(HttpClient inspector, JsonObject sheet, string entry)
    {
        using var answer = await inspector.Record(Request(sheet, entry));
        var text = await answer.Content.ReadAsStringAsync();
        Assert.True(answer.StatusCode == HttpStatusCode.Created, text);
        return (string)JsonNode.Parse(text)!["number"]!;
    }

    private static JsonObject Extra(string serial)
    {
        var sheet = SampleSheets.Legal();
        sheet["ball"]!["serial"] = serial;
        return sheet;
    }

    // The director looks the failed ball up by its serial.
    private static async Task<string> NumberOf(HttpClient client, (string Entry, JsonObject Sheet) failed)
    {
        var page = await client.GetPage($"{Held}/entries/{failed.Entry}");
        var row = page.QuerySelectorAll("table.stacks tbody tr").Single(each =>
            each.QuerySelector("[data-head=Serial]")!.Words() == (string)failed.Sheet["ball"]!["serial"]!);
        return row.QuerySelector("a")!.Words();
    }

    private static async Task<string> Outcome(HttpResponseMessage recorded)
    {
        var text = await recorded.Content.ReadAsStringAsync();
        Assert.True(recorded.StatusCode == HttpStatusCode.Created, text);
        return (string)JsonNode.Parse(text)!["verdict"]!["outcome"]!;
    }

    private static async Task<string> Open(HttpClient director) =>
        (await director.GetPage("/desk/events/AUTUMN/open")).QuerySelector("main")!.Words();

    private static async Task<string> Paper(HttpClient director, string reports)
    {
        var link = (await director.GetPage(reports)).QuerySelectorAll("a[href$='.pdf']").Select(each => each.GetAttribute("href")!)
            .First(href => href.Contains("/reports/", StringComparison.Ordinal));
        using var document = PdfDocument.Open(await director.GetByteArrayAsync(link));
        return string.Concat(document.GetPages().Select(page => page.Text)).Replace(" ", "", StringComparison.Ordinal);
    }
}
