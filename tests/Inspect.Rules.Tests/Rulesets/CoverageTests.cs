using System.Globalization;

namespace Inspect.Rules.Tests.Rulesets;

/// <summary>Every day has exactly one edition of each body, or a stated gap.</summary>
public class CoverageTests
{
    private static readonly DateOnly FarEnough = Day("2028-12-31");

    /// <summary>Each body's first days in their latest revision, and its last day where it ends, as its documents give them.</summary>
    public static TheoryData<string, string[], string?> Bodies => new()
    {
        { "us-national", ["2014-05-07.2", "2018-08-01.2", "2020-02-01.2", "2020-06-01.2", "2020-08-01.2"], null },
        { "international", ["2014-06-01.2", "2019-01-01", "2020-08-01.2", "2025-10-14.2"], null },
        { "united-kingdom", ["2014-06-01.2", "2019-01-01", "2020-08-01.2", "2025-10-14.2"], null },
        { "australia", ["2019-01-01.2", "2020-08-01"], null },
        { "netherlands", ["2014-06-01.2", "2019-01-01", "2021-01-01.2"], null },
        { "canada", ["2014-05-07.2"], "2019-07-31" },
        { "japan", ["2020-08-01"], null },
        { "germany", ["2018-09-01", "2021-01-30"], null },
        { "norway", ["2022-03-31"], null },
        { "finland", ["2018-08-20"], null },
        { "sweden", ["2019-01-01"], "2019-12-31" },
    };

    [Theory]
    [MemberData(nameof(Bodies))]
    public void InForceOn_EveryDay_IsOneEditionOrAStatedGap(string authority, string[] starts, string? last)
    {
        var end = Later(FarEnough, Day(starts[^1]).AddYears(2));
        for (var day = Day(starts[0]).AddDays(-1); day <= end; day = day.AddDays(1))
        {
            var start = day > (last is null ? end : Day(last)) ? null : starts.LastOrDefault(first => Day(first) <= day);
            var found = Book.BuiltIn.InForceOn(authority, day)?.Id;

            Assert.True(found == (start is null ? null : $"{authority}/{start}"), $"{day:yyyy-MM-dd}: found {found ?? "none"}");
        }
    }

    [Theory]
    [MemberData(nameof(Bodies))]
    public void Of_Authority_HasTheseEditionsAndNoOther(string authority, string[] starts, string? last)
    {
        Assert.Equal(
            starts.SelectMany(Revisions).Select(start => $"{authority}/{start}"), Book.BuiltIn.Of(authority).Select(edition => edition.Id));
        Assert.Equal(last is null ? (DateOnly?)null : Day(last), Book.BuiltIn.Of(authority)[^1].Until);
    }

    [Fact]
    public void Authorities_All_AreCovered() =>
        Assert.Equal(Bodies.Select(row => (string)((object[])row)[0]).Order(StringComparer.Ordinal), Book.BuiltIn.Authorities);

    /// <summary>A first day's edition as first published and every revision of it up to the latest.</summary>
    private static IEnumerable<string> Revisions(string latest) => latest.Length == 10 ? [latest]
        : Enumerable.Range(1, int.Parse(latest[11..], CultureInfo.InvariantCulture))
            .Select(revision => revision == 1 ? latest[..10] : $"{latest[..10]}.{revision}");

    private static DateOnly Later(DateOnly one, DateOnly other) => one > other ? one : other;

    private static DateOnly Day(string text) => DateOnly.ParseExact(text[..10], "yyyy-MM-dd", CultureInfo.InvariantCulture);
}
