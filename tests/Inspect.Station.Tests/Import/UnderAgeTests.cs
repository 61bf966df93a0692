using AngleSharp.Dom;
using Inspect.Station.Import;
using Inspect.Station.Prepare;
using Inspect.Station.Tests.Ground;
using Microsoft.Extensions.DependencyInjection;

namespace Inspect.Station.Tests.Import;

/// <summary>Lists say who is under age, by a mark or by a birth date. The behaviour is defined by this project; that somebody born on
/// 29 February is of age on 1 March is common practice, no source.</summary>
public sealed class UnderAgeTests
{
    private static readonly Event Into = DemoEvent.On(new DateOnly(2027, 3, 14)) with { From = new DateOnly(2027, 3, 14) };

    [Theory]
    [InlineData("yes", true)]
    [InlineData("Y", true)]
    [InlineData("TRUE", true)]
    [InlineData("x", true)]
    [InlineData("1", true)]
    [InlineData("J", true)]
    [InlineData("no", false)]
    [InlineData("False", false)]
    [InlineData("0", false)]
    [InlineData("N", false)]
    [InlineData("-", false)]
    [InlineData("", null)]
    public void Mark_IsRead(string cell, bool? expected)
    {
        Assert.True(UnderAge.TryRead(cell, "", Into, out var isUnderAge, out _));
        Assert.Equal(expected, isUnderAge);
    }

    // The event's first day is 14 March 2027.
    [Theory]
    [InlineData("2009-03-14", false)]
    [InlineData("2009-03-15", true)]
    [InlineData("2009-3-15", true)]
    [InlineData("2009/03/15", true)]
    [InlineData("2009-03-15 00:00", true)]
    [InlineData("15.03.2009", true)]
    [InlineData("14.3.2009", false)]
    [InlineData("15. 3. 2009", true)]
    [InlineData("3/15/2009", true)]
    [InlineData("15/3/2009", true)]
    [InlineData("4/5/2012", true)]
    [InlineData("4/5/1990", false)]
    [InlineData("", null)]
    public void BirthDate_CountsOnTheFirstDay(string cell, bool? expected)
    {
        Assert.True(UnderAge.TryRead("", cell, Into, out var isUnderAge, out _));
        Assert.Equal(expected, isUnderAge);
    }

    [Theory]
    [InlineData("2026-02-28", true)]
    [InlineData("2026-03-01", false)]
    public void BirthDate_OfALeapDay_IsOfAgeOnTheFirstOfMarch(string first, bool expected)
    {
        var into = Into with { From = DateOnly.Parse(first, System.Globalization.CultureInfo.InvariantCulture) };
        Assert.True(UnderAge.TryRead("", "2008-02-29", into, out var isUnderAge, out _));
        Assert.Equal(expected, isUnderAge);
    }

    [Theory]
    [InlineData("perhaps", "", "Whether somebody is under age is said with")]
    [InlineData("", "spring 2009", "A birth date is written as 2009-04-23")]
    [InlineData("", "23.04.09", "A birth date is written as 2009-04-23")]
    [InlineData("", "2009-02-30", "A birth date is written as 2009-04-23")]
    [InlineData("", "2027-03-15", "A birth date is written as 2009-04-23")]
    [InlineData("", "1809-02-12", "A birth date is written as 2009-04-23")]
    [InlineData("", "03/04/2009", "The day and the month of a birth date can be either")]
    [InlineData("no", "2012-05-04", "The mark for who is under age and the birth date do not agree")]
    public void Cells_ThatCannotBeRead_AreSaidSo(string mark, string birth, string sentence)
    {
        // 3 April and 4 March 2009: the event begins between them, 18 years later.
        Assert.False(UnderAge.TryRead(mark, birth, Into, out _, out var unread));
        Assert.StartsWith(sentence, unread.Sentence, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("Junior")]
    [InlineData("Minor")]
    [InlineData("Under 18")]
    [InlineData("U18")]
    public void Heads_AreKnown(string head) => Assert.Equal(ImportColumn.UnderAge, ImportColumns.OfHead(head));

    [Theory]
    [InlineData("Date of birth")]
    [InlineData("Birth date")]
    [InlineData("DOB")]
    public void HeadsOfBirthDates_AreKnown(string head) => Assert.Equal(ImportColumn.BirthDate, ImportColumns.OfHead(head));

    [Fact]
    public async Task List_WithBirthDatesAndContacts_KeepsOnlyWhoIsUnderAge()
    {
        await using var station = new StationFixture();
        await station.Hold("YOUNG");
        using var director = await station.Client("director");
        var first = station.Services.GetRequiredService<Events>().Find("YOUNG")!.From;
        var page = await director.Paste(
            "Number,Name,Squad,Date of birth,Parent phone\n"
                + $"1,Oriel Young,A,{first.Year - 12}-01-01,0123 456\n2,Petra Old,A,{first.Year - 40}-01-01,\n3,Bram Odd,A,unknown,0123 457\n",
            "YOUNG");

        Assert.Equal((2, 0, 0, 0, 1), page.Counts());
        Assert.Contains(page.Notices(), notice => notice.StartsWith(
            "Column E, \"Parent phone\", is not taken", StringComparison.Ordinal));
        Assert.Contains(page.Notices(), notice => notice.StartsWith("No birth date is kept", StringComparison.Ordinal));
        Assert.StartsWith("A birth date is written as 2009-04-23", Assert.Single(page.Refused()), StringComparison.Ordinal);
        Assert.Contains("Oriel Young (under age)", page.QuerySelector("[aria-labelledby=added]")!.TextContent, StringComparison.Ordinal);
        await director.Add(page);

        Assert.Equal([true, false], Entries(station).Select(entry => entry.IsUnderAge));
        foreach (var file in Directory.GetFiles(station.Folder, "inspect.db*"))
        {
            using var stream = new FileStream(file, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
            using var bytes = new MemoryStream();
            await stream.CopyToAsync(bytes);
            Assert.Equal(-1, bytes.ToArray().AsSpan().IndexOf(System.Text.Encoding.UTF8.GetBytes($"{first.Year - 12}-01-01")));
            Assert.Equal(-1, bytes.ToArray().AsSpan().IndexOf("0123 456"u8));
        }

        // The same list changes nothing; one that says otherwise offers the change; one that says nothing leaves it.
        page = await director.Paste("Number,Name,Squad,Junior\n1,Oriel Young,A,x\n2,Petra Old,A,", "YOUNG");
        Assert.Equal((0, 0, 2, 0, 0), page.Counts());
        page = await director.Paste("Number,Name,Squad\n1,Oriel Young,A\n2,Petra Old,A", "YOUNG");
        Assert.Equal((0, 0, 2, 0, 0), page.Counts());
        page = await director.Paste("Number,Name,Squad,Junior\n1,Oriel Young,A,no\n2,Petra Old,A,yes", "YOUNG");
        Assert.Equal((0, 2, 0, 0, 0), page.Counts());
        await director.Add(page, ("changed.all", "1"));
        Assert.Equal([false, true], Entries(station).Select(entry => entry.IsUnderAge));
    }

    private static IReadOnlyList<Entry> Entries(StationFixture station) =>
        station.Services.GetRequiredService<Events>().EntriesOf("YOUNG");
}
