using Inspect.Station.Access;
using Inspect.Station.Prepare;

namespace Inspect.Station.Tests.Prepare;

/// <summary>What a director types of an event, as people say it. Twelve hours with AM and PM: common practice, no source.</summary>
public sealed class ClockTimeTests
{
    [Theory]
    [InlineData("9:30 AM", 9, 30)]
    [InlineData("9:30am", 9, 30)]
    [InlineData("9.30", 9, 30)]
    [InlineData("14:00", 14, 0)]
    [InlineData(" 2 pm ", 14, 0)]
    [InlineData("2 p.m.", 14, 0)]
    [InlineData("12 am", 0, 0)]
    [InlineData("12:15 PM", 12, 15)]
    [InlineData("0930", 9, 30)]
    [InlineData("14", 14, 0)]
    [InlineData("0:05", 0, 5)]
    public void Read_TimesAsPeopleSayThem_AreTaken(string typed, int hour, int minute) =>
        Assert.Equal(new TimeOnly(hour, minute), ClockTime.Read(typed));

    [Theory]
    [InlineData("")]
    [InlineData("9")]
    [InlineData("930")]
    [InlineData("24:00")]
    [InlineData("9:60")]
    [InlineData("14 pm")]
    [InlineData("0 am")]
    [InlineData("half ten")]
    public void Read_Others_AreRefused(string typed) => Assert.Null(ClockTime.Read(typed));

    [Theory]
    [InlineData("Spring Open 2027", "SPRING27")]
    [InlineData("The Quillhaven Lantern Open", "QUILLHAVE26")]
    [InlineData("10th Düster Cup", "DUSTER26")]
    [InlineData("Autumn Open", "AUTUMN26B")]
    [InlineData("2027", "")]
    public void Suggested_OfAName_IsItsFirstWordAndTheYear(string name, string made) =>
        Assert.Equal(made, ShortName.Suggested(name, new DateOnly(2026, 11, 27), ["AUTUMN26"]));

    /// <summary>The names are those of the IANA time zone database.</summary>
    [Theory]
    [InlineData("Chicago", "America/Chicago")]
    [InlineData("new york", "America/New_York")]
    [InlineData("são paulo", "America/Sao_Paulo")]
    [InlineData("america/new york", "America/New_York")]
    [InlineData("Indianapolis", "America/Indiana/Indianapolis")]
    public void Read_CityOfAZone_IsThatZone(string typed, string zone) => Assert.Equal(zone, VenueZones.Read(typed, out _));

    [Theory]
    [InlineData("Chigago", "\"Chigago\" is not a city that time zones are named by; write one in the same zone, such as America/Chicago.")]
    [InlineData("san", "\"san\" is not a city that time zones are named by; write one in the same zone, such as "
        + "America/Argentina/San_Juan or America/Argentina/San_Luis or America/Santarem.")]
    [InlineData("Xyzzyville", "\"Xyzzyville\" is not a city that time zones are named by; write one in the same zone, such as "
        + "America/Chicago or Europe/Berlin.")]
    public void Read_NoSuchCity_NamesTheNearest(string typed, string fault)
    {
        Assert.Null(VenueZones.Read(typed, out var said));
        Assert.Equal(fault, said);
    }

    [Theory]
    [InlineData("lantern", "lantren", 1)]
    [InlineData("lantern", "lanterns", 1)]
    [InlineData("kitten", "sitting", 3)]
    public void Apart_Words_AreAsManyLettersApart(string one, string other, int apart) => Assert.Equal(apart, Spelling.Apart(one, other));
}
