using Inspect.Station.Tests.Ground;

namespace Inspect.Station.Tests.Import;

/// <summary>Each ugly list imported, corrected or refused row by row. RFC 4180 defines the commas and quotes; the Open XML SDK writes the
/// workbooks; the habits are common practice, no source.</summary>
public class UglyFilesTests(SharedStation shared) : IClassFixture<SharedStation>
{
    private readonly StationFixture _station = shared.Station;

    [Fact]
    public async Task FortyWithTwoMoreColumns_IsEnteredAsItIs_AndAWeekLaterOnlyWhatDiffersIsOffered()
    {
        var director = await Director("FORTY");
        var page = await director.Choose(UglyFiles.FortyWithTwoMoreColumns, "entries.csv", "FORTY");

        Assert.Equal((40, 0, 0, 0, 0), page.Counts());
        Assert.False(page.QuerySelector(".columns")!.HasAttribute("open"));
        Assert.Contains("40 entries were added.", (await director.Add(page)).Notices().Single(), StringComparison.Ordinal);
        Assert.Equal(40, _station.Entries("FORTY").Count);
        Assert.Contains(("203", "Tamsin Marrowfield", "C"), _station.Entries("FORTY"));

        // The same again: nothing. A week later: what differs is offered, and done where it is ticked.
        Assert.Equal((0, 0, 40, 0, 0), (await director.Choose(UglyFiles.FortyWithTwoMoreColumns, "entries.csv", "FORTY")).Counts());
        var later = await director.Choose(UglyFiles.AWeekLater, "entries (1).csv", "FORTY");
        Assert.Equal((1, 2, 38, 0, 0), later.Counts());
        Assert.Equal(
            ["Entry 201 Wendell Marrowfield Wendel Marrowfield 2 Change entry 201",
             "Entry 202 Oriel Marrowfield, squad B Oriel Marrowfield, squad C 3 Change entry 202"],
            later.QuerySelectorAll("[aria-labelledby=changed] tbody tr").Select(row => row.Words()));
        var done = await director.Add(later, ("changed.3", "1"));
        Assert.Contains("1 entry was added and 1 was changed.", done.Notices().First(), StringComparison.Ordinal);
        Assert.Equal([("201", "Wendell Marrowfield", "A"), ("202", "Oriel Marrowfield", "C")], _station.Entries("FORTY").Take(2));
        Assert.Equal((0, 1, 40, 0, 0), done.Counts());
        Assert.Equal((0, 0, 41, 0, 0), (await director.Add(done, ("changed.all", "1"))).Counts());
        Assert.Equal("Wendel Marrowfield", _station.Entries("FORTY")[0].Bowler);
        Assert.Contains(
            "Wendel Marrowfield", (await director.GetPage("/events/FORTY/find?bowler=wendel")).Body!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task EuropeanSpreadsheet_PutsTheNameTogether() => Assert.Equal(
        [("11", "Jürgen Strömquist", "A"), ("12", "Zsófia Kőhalmos", "B"), ("13", "Þórdís Eldhamar", null)],
        await Entered(UglyFiles.EuropeanSpreadsheet, "liste.csv"));

    [Fact]
    public async Task OldProgram_IsReadAsWindows1252AndSaysSo()
    {
        var director = await Director("OLD");
        var page = await director.Choose(UglyFiles.OldProgram, "alt.csv", "OLD");

        Assert.Equal(
            ["\"alt.csv\" is not in UTF-8 and was read as Windows-1252: look at the accents, as in \"Renée Aubercourt-Oléron\"."],
            page.Notices());
        await director.Add(page);
        Assert.Equal([("21", "Renée Aubercourt-Oléron", "A"), ("22", "Tomás Ibarrondo", "B")], _station.Entries("OLD"));
    }

    [Fact]
    public async Task UnicodeText_OfTwoFigures_IsReadWithItsTabs() => Assert.Equal(
        [("31", "Łucja Wierzbosz-Iwa", "A"), ("32", "Tomás Quell", "B")], await Entered(UglyFiles.UnicodeText, "unicode.txt"));

    [Fact]
    public async Task TitleAndFoot_FindsTheHeadsAndRefusesTheFoot()
    {
        var director = await Director("TITLE");
        var page = await director.Choose(UglyFiles.TitleAndFoot, "meeting.csv", "TITLE");

        Assert.Equal((2, 0, 0, 0, 2), page.Counts());
        Assert.Contains("column heads in row 4", page.QuerySelector("main > p:not(.overline)")!.TextContent, StringComparison.Ordinal);
        Assert.Equal(["Above the column heads rows 1, 2 are left out."], page.Notices());
        Assert.Equal(
            ["The column heads stand here again: row 8.",
             "An entry number has 1 to 12 letters A to Z, digits or hyphens, unlike \"Total: 2\" in row 10."],
            page.Refused());
        await director.Add(page);
        Assert.Equal([("41", "Oriel Peat", "A"), ("42", "Corvin Peat", "B")], _station.Entries("TITLE"));
    }

    [Fact]
    public async Task NamesOnly_AreTurnedRoundAndNumberedFromTheNextFreeNumber()
    {
        var director = await Director("NAMES");
        await director.Add(await director.Paste("7, Somebody Before", "NAMES"));

        await director.Add(await director.Choose(UglyFiles.NamesOnly, "names.txt", "NAMES"));
        Assert.Equal(
            [("10", "Gwenllian Prys-Ardal", null), ("7", "Somebody Before", null), ("8", "Mirembe Halloway", null),
             ("9", "Bartholomew Quince Jr.", null)],
            _station.Entries("NAMES"));
        Assert.Equal((0, 0, 3, 0, 0), (await director.Choose(UglyFiles.NamesOnly, "names.txt", "NAMES")).Counts());
    }

    [Fact]
    public async Task Rfc4180_IsReadWithLineBreaksAndQuotes()
    {
        var director = await Director("RFC");
        var page = await director.Choose(UglyFiles.Rfc4180, "python.csv", "RFC");

        Assert.Equal(["A cell runs over more than one line in row 2; it is read as one line."], page.Notices());
        await director.Add(page);
        Assert.Equal(
            [("51", "Pat \"Bud\" Millstone", "A"), ("52", "Quill, Oriel", "B"), ("53", "Ysolde Tarn", "C")], _station.Entries("RFC"));
    }

    [Fact]
    public async Task TypedByHand_KeepsQuotesInsideNames() => Assert.Equal(
        [("61", "Pat \"Bud\" Millrace", "A"), ("62", "Quince, Tamsin", "B"), ("63", "Bram \"the Hat\" Ash", "C")],
        await Entered(UglyFiles.TypedByHand, "typed.txt"));

    [Fact]
    public async Task ZerosEaten_AreOfferedAndNotChangedInSilence()
    {
        var director = await Director("ZEROS");
        var page = await director.Choose(UglyFiles.ZerosEaten, "zeros.csv", "ZEROS");

        Assert.Equal((2, 0, 0, 2, 0), page.Counts());
        Assert.Contains("Number 2 may be 002: others have 3 figures.", page.QuerySelector("main")!.Words(), StringComparison.Ordinal);
        await director.Add(page, ("row.3", "zeros"), ("row.4", ""));
        Assert.Equal(["001", "002", "010"], _station.Entries("ZEROS").Select(entry => entry.Number));

        // The same file again: the row that was left out is doubtful again, and the one that was entered as 002 is known.
        page = await director.Choose(UglyFiles.ZerosEaten, "zeros.csv", "ZEROS");
        Assert.Equal((0, 0, 3, 1, 0), page.Counts());
        await director.Add(page, ("all.Zeros", "enter"));
        Assert.Contains(("3", "Bram Fell", "B"), _station.Entries("ZEROS"));
    }

    [Fact]
    public async Task Vacancies_AreDoubtfulAndLeftOutUnlessChosen()
    {
        var director = await Director("VACANT");
        var page = await director.Choose(UglyFiles.Vacancies, "vacancies.csv", "VACANT");

        Assert.Equal((1, 0, 0, 7, 1), page.Counts());
        Assert.Equal(["There is no name: row 8."], page.Refused());
        Assert.Equal(
            ["Doubtful: 5 places that may be free", "Doubtful: 1 number that is in the list twice",
             "Doubtful: 1 name that is in the list twice"],
            page.QuerySelectorAll("h2[id^=doubt]").Select(head => head.TextContent));
        await director.Add(page, ("row.6", "enter"), ("row.9", "next"), ("all.SameName", "leave"), ("row.10", "enter"));
        Assert.Equal(
            [("71", "Oriel Marrow", "A"), ("75", "BYE", "B"), ("79", "Corvin Marrow", "B")], _station.Entries("VACANT"));
    }

    [Fact]
    public async Task SeparatorTold_IsNoRow() => Assert.Equal(
        [("81", "Ysolde Marrowby", null), ("82", "Noor Van Der Maas", null)], await Entered(UglyFiles.SeparatorTold, "told.csv"));

    [Fact]
    public async Task SeveralSheets_TheFirstWithRowsIsReadAndAnotherCanBeChosen()
    {
        var director = await Director("SHEETS");
        var page = await director.Choose(UglyFiles.SeveralSheets, "book.xlsx", "SHEETS");

        Assert.Equal((4, 0, 0, 0, 0), page.Counts());
        const string Above = "Above the column heads row 1 is left out.";
        Assert.Equal([Above, "The sheet hides row 6; it is read like the others."], page.Notices());
        Assert.Equal(["Notes", "Lists", "Entries", "Reserves"], page.QuerySelectorAll("#sheet option").Select(each => each.TextContent));
        page = await director.Match(page, ("hidden", "leave"));
        Assert.Equal((3, 0, 0, 0, 0), page.Counts());
        Assert.Equal([Above, "The sheet hides row 6; it is left out."], page.Notices());
        page = await director.Add(page);
        await director.Add(await director.Match(page, ("sheet", "3")));
        Assert.Equal(
            [("91", "Oriel Stonegate", "A"), ("92", "Corvin Stonegate", "B"), ("94", "Bram Stonegate", "C"),
             ("95", "Idris Stonegate", null)],
            _station.Entries("SHEETS"));
    }

    [Fact]
    public async Task FormulasAndDates_AreReadAsTheyWereLeft()
    {
        var director = await Director("DATES");
        var page = await director.Choose(UglyFiles.FormulasAndDates, "export.xlsx", "DATES");

        // A cell with an error has no value.
        Assert.Equal(["There is no name: row 4."], page.Refused());
        Assert.Contains(
            "1 row has no number and gets the next free one: row 5.", page.QuerySelector("main")!.Words(), StringComparison.Ordinal);
        await director.Add(page);
        Assert.Equal([("007", "Ysolde Reed", "B"), ("008", "Petra Reed", "A"), ("009", "Corvin Reed", "C")], _station.Entries("DATES"));
    }

    [Fact]
    public async Task UnknownSquads_AreOneLineEachWithTheirRows()
    {
        var director = await Director("SQUADS");
        var page = await director.Choose(UglyFiles.UnknownSquads, "squads.csv", "SQUADS");

        Assert.Equal((2, 0, 0, 0, 20), page.Counts());
        Assert.Equal(
            ["The squad \"E\" is not one of this event, which has A, B, C: rows 4, 5, 6, 7, 8, 9, 10, 11 (9 more).",
             "The squad \"Late\" is not one of this event, which has A, B, C: rows 21, 22, 23."],
            page.Refused());
        Assert.NotNull(page.QuerySelector("[aria-labelledby=refused] a[href='/events/SQUADS#squads']"));
        await director.Add(page);
        Assert.Equal(2, _station.Entries("SQUADS").Count);
    }

    [Fact]
    public async Task FromAWebPage_IsReadWithoutHeads() => Assert.Equal(
        [("401", "Oriel Fenwater", "A"), ("402", "Corvin Fenwater", "B"), ("403", "Tamsin Fenwater", "C")],
        await Entered(UglyFiles.FromAWebPage, "web.txt"));

    [Fact]
    public async Task UnknownHeads_AreCorrectedOnceAndRemembered()
    {
        var director = await Director("HEADS");
        var page = await director.Choose(UglyFiles.UnknownHeads, "heads.csv", "HEADS");
        Assert.True(page.QuerySelector(".columns")!.HasAttribute("open"));

        // The column of lanes looks like the number: said once, it is known.
        (string, string)[] right =
            [("heads", "1"), ("column.0", "ignored"), ("column.1", "name"), ("column.2", "squad"), ("column.3", "number")];
        page = await director.Match(page, right);
        Assert.Equal((2, 0, 0, 0, 0), page.Counts());
        var again = await director.Choose(UglyFiles.UnknownHeads, "heads 2.csv", "HEADS");
        Assert.False(again.QuerySelector(".columns")!.HasAttribute("open"));
        await director.Add(again);
        Assert.Equal([("411", "Bram Ashdown", "A"), ("412", "Petra Ashdown", "B")], _station.Entries("HEADS"));
    }

    private async Task<HttpClient> Director(string id)
    {
        await _station.Hold(id);
        return await _station.Client("director");
    }

    // Into an event of its own, without a choice.
    private async Task<IReadOnlyList<(string Number, string? Bowler, string? Squad)>> Entered(byte[] bytes, string name)
    {
        var id = name.Split('.')[0].ToUpperInvariant();
        var director = await Director(id);
        await director.Add(await director.Choose(bytes, name, id));
        return _station.Entries(id);
    }
}
