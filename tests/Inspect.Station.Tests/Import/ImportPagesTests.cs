using System.Net;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using Inspect.Station.Access;
using Inspect.Station.Import;
using Inspect.Station.Prepare;
using Inspect.Station.Storage;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Record;
using Microsoft.Extensions.DependencyInjection;

namespace Inspect.Station.Tests.Import;

/// <summary>From a list to entries on pages without script. The behaviour is defined by this project.</summary>
public class ImportPagesTests(SharedStation shared) : IClassFixture<SharedStation>
{
    private readonly StationFixture _station = shared.Station;

    [Fact]
    public async Task List_OfGoodLines_IsShownFirstAndAddedOnlyThen()
    {
        using var director = await Director("FIRST");
        var page = await director.Paste("201, \"Quince, Bartholomew\", A\r\n202, Mirembe Oakes", "FIRST");

        Assert.Equal((2, 0, 0, 0, 0), page.Counts());
        Assert.Empty(_station.Entries("FIRST"));
        var done = await director.Add(page);
        Assert.Equal("2 entries were added. See the entries", done.QuerySelector("[role=status]")!.Words());
        Assert.Equal((0, 0, 2, 0, 0), done.Counts());
        Assert.Null(done.QuerySelector("form:has([name=seen]) button"));
        Assert.Equal([("201", "Quince, Bartholomew", "A"), ("202", "Mirembe Oakes", null)], _station.Entries("FIRST"));

        // The press of a page that is out of date adds nothing.
        var again = await director.Add(page);
        Assert.Contains("were changed after this page was made", again.QuerySelector(".summary")!.TextContent, StringComparison.Ordinal);
        Assert.Equal(2, _station.Entries("FIRST").Count);
    }

    [Fact]
    public async Task Entries_ChangedMeanwhile_AreNotOverwritten()
    {
        using var director = await Director("MEANTIME");
        await director.Add(await director.Paste("1, Oriel Sorrel\n2, Bram Sorrel", "MEANTIME"));
        var page = await director.Paste("1, Oriel Sorrell\n3, Petra Sorrel", "MEANTIME");
        await Write(write => Events.TryEnter(write, "MEANTIME", [new NewEntry("3", "Idris Sorrel", null)]));

        var answer = await director.Add(page, ("changed.1", "1"));

        Assert.Contains("were changed after this page was made", answer.QuerySelector(".summary")!.TextContent, StringComparison.Ordinal);
        Assert.Equal((0, 2, 0, 0, 0), answer.Counts());
        Assert.Equal(["Oriel Sorrel", "Bram Sorrel", "Idris Sorrel"], _station.Entries("MEANTIME").Select(entry => entry.Bowler));
    }

    [Fact]
    public async Task Names_ThatRecordsWereMadeUnder_AreNotChangedByAList()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        await director.Recorded(SampleSheets.Legal(), "101");

        var page = await director.Paste("101, Aoife Brannock\n102, Lucja Wierzbosz, A\n103, vacant");

        Assert.Equal((0, 1, 0, 0, 2), page.Counts());
        Assert.Equal(
            ["The name differs from the entry's, which has records or another entry too; change it on the entry's own page: "
                + "\"Aoife Brannock\" in row 1.",
             "The name may say that the place is free, and somebody is entered under the number: \"vacant\" in row 3."],
            page.Refused());
        await director.Add(page, ("changed.2", "1"));
        Assert.Equal([("101", "Aoife Brannock-Thorne", "A"), ("102", "Lucja Wierzbosz", "A")], station.Entries().Take(2));
    }

    [Fact]
    public async Task Name_EnteredUnderAnotherNumber_IsDoubtful()
    {
        using var director = await Director("AGAIN");
        await director.Add(await director.Paste("1, Oriel Rush\n2, Bram Rush", "AGAIN"));

        var page = await director.Paste("3, oriel rush\n4, Petra Rush", "AGAIN");

        Assert.Equal((1, 0, 0, 1, 0), page.Counts());
        Assert.Contains("oriel rush is entered as 1 already.", page.QuerySelector("main")!.Words(), StringComparison.Ordinal);
        await director.Add(page, ("row.1", "enter"));
        Assert.Equal(["1", "2", "3", "4"], _station.Entries("AGAIN").Select(entry => entry.Number));
    }

    [Fact]
    public async Task Columns_ChosenTwiceOrNotAtAll_AreNamed()
    {
        using var director = await Director("COLUMNS");
        var page = await director.Paste("1,Oriel Ash,Bram Ash\n2,Petra Ash,Idris Ash", "COLUMNS");

        page = await director.Match(page, ("column.0", "number"), ("column.1", "number"), ("column.2", "ignored"));

        Assert.Equal("\"Number\" is chosen for the columns A and B; choose it for one of them.", page.FaultAt("column-1"));
        Assert.Equal("No column is chosen for the names; choose the one that has them.", page.FaultAt("column-0"));
        page = await director.Match(page, ("column.1", "name"), ("column.2", "last-name"));
        Assert.StartsWith("The whole name is chosen and column C", page.FaultAt("column-2"), StringComparison.Ordinal);
        page = await director.Match(page, ("column.1", "ignored"), ("column.2", "name"));
        Assert.Equal((2, 0, 0, 0, 0), page.Counts());
    }

    [Fact]
    public async Task List_OfAnotherDirectorOrEventOrOfYesterday_IsNotHeld()
    {
        using var director = await Director("HELD");
        using var answer = await director.Send(await director.GetPage("/events/HELD/entries/add"), ("lines", "1, Oriel Birch"));
        var path = answer.Headers.Location!.ToString();

        Assert.Equal(HttpStatusCode.OK, (await director.GetAsync(path)).StatusCode);
        var elsewhere = path.Replace("HELD", "LANTERN", StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NotFound, (await director.GetAsync(elsewhere)).StatusCode);
        using var next = await director.Send(await director.GetPage("/events/HELD/entries/add"), ("lines", "1, Oriel Birch"));
        using var gone = await director.GetAsync(path);
        Assert.Equal(HttpStatusCode.NotFound, gone.StatusCode);
        Assert.StartsWith("The list is not held any more: choose it again.", (await gone.Read()).FaultAt("file"), StringComparison.Ordinal);

        using var inspector = await _station.Client("inspector");
        Assert.Equal(HttpStatusCode.Forbidden, (await inspector.GetAsync(next.Headers.Location!.ToString())).StatusCode);
        var page = await director.GetPage(next.Headers.Location!.ToString());
        using var discarded = await director.Send(page.QuerySelector<IHtmlFormElement>("form[action$=discard]")!);
        Assert.Equal("/events/HELD/entries/add", discarded.Headers.Location!.ToString());
        Assert.Equal(HttpStatusCode.NotFound, (await director.GetAsync(next.Headers.Location!.ToString())).StatusCode);
    }

    [Fact]
    public void HeldFiles_HoldOneForEachPersonAndEventForAnHourAndFourAtMost()
    {
        var time = new SteppedTime(DateTimeOffset.UnixEpoch);
        using var files = new HeldFiles(time);
        var people = Enumerable.Range(0, 5).Select(_ => PersonId.New()).ToList();
        var file = new ImportFile("The list", [1]);
        var held = people.Select(person =>
        {
            time.Advance(TimeSpan.FromSeconds(1));
            return files.Hold(person, "E", file);
        }).ToList();

        Assert.Null(files.Find(people[0], "E", held[0].Key));
        Assert.All(Enumerable.Range(1, 4), i => Assert.NotNull(files.Find(people[i], "E", held[i].Key)));
        Assert.Null(files.Find(people[1], "E", held[2].Key));

        // For another event, or for a list of models, the same person has another; the fifth lets the oldest go.
        var other = files.Hold(people[4], "F", file);
        Assert.NotNull(files.Find(people[4], "E", held[4].Key));
        Assert.NotNull(files.Find(people[4], "F", other.Key));
        Assert.Null(files.Find(people[1], "E", held[1].Key));
        time.Advance(HeldFiles.Longest);
        Assert.All(Enumerable.Range(1, 4), i => Assert.Null(files.Find(people[i], "E", held[i].Key)));
    }

    private Task<bool> Write(Func<WriteTransaction, bool> work) => _station.Services.GetRequiredService<WriteGate>().Run(work);

    private async Task<HttpClient> Director(string id)
    {
        await _station.Hold(id);
        return await _station.Client("director");
    }
}
