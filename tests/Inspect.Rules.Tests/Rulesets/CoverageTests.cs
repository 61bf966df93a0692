using System.Globalization;

namespace Inspect.Rules.Tests.Rulesets;

/// <summary>Every day has exactly one edition of each body, or a stated gap.</summary>
public class CoverageTests
{
    private static readonly DateOnly FarEnough = Day("2028-12-31");

    /// <summary>Each body's first days, and its last day where it ends, as its documents give them.</summary>
    public static TheoryData<string, string[], string?> Bodies => new()
    {
        { "us-national", ["2014-05-07", "2018-08-01", "2020-02-01", "2020-06-01", "2020-08-01"], null },
        { "international", ["2014-06-01", "2019-01-01", "2020-08-01", "2025-10-14"], null },
        { "united-kingdom", ["2014-06-01", "2019-01-01", "2020-08-01", "2025-10-14"], null },
        { "australia", ["2019-01-01"], null },
        { "netherlands", ["2014-06-01", "2019-01-01", "2021-01-01"], null },
        { "canada", ["2014-05-07"], "2019-07-31" },
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
        Assert.Equal(starts.Select(start => $"{authority}/{start}"), Book.BuiltIn.Of(authority).Select(edition => edition.Id));
        Assert.Equal(last is null ? (DateOnly?)null : Day(last), Book.BuiltIn.Of(authority)[^1].Until);
    }

    [Fact]
    public void Authorities_All_AreCovered() =>
        Assert.Equal(Bodies.Select(row => (string)((object[])row)[0]).Order(StringComparer.Ordinal), Book.BuiltIn.Authorities);

    private static DateOnly Later(DateOnly one, DateOnly other) => one > other ? one : other;

    private static DateOnly Day(string text) => DateOnly.ParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture);
}
