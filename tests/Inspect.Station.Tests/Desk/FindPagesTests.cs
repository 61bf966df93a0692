using System.Net;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Record;
using static Inspect.Station.Tests.Desk.DeskRecords;

namespace Inspect.Station.Tests.Desk;

/// <summary>The desk's pages of rows, what is refused, and who may ask.
/// The behaviour is defined by this project; look-alikes and spellings are common practice, no source.</summary>
public sealed class FindPagesTests : IAsyncLifetime
{
    private readonly DeskRecords _on = new();

    public Task InitializeAsync() => _on.InitializeAsync();

    public Task DisposeAsync() => _on.DisposeAsync();

    [Theory]
    [InlineData("event=NOWHERE", "event", "\"NOWHERE\"")]
    [InlineData("entry=1234567890123", "entry", "\"1234567890123\"")]
    [InlineData("bowler=%2B%2B", "bowler", "\"++\"")]
    [InlineData("ball=ball", "ball", "\"ball\"")]
    [InlineData("serial=--", "serial", "\"--\"")]
    [InlineData("inspector=nobody", "inspector", "\"nobody\"")]
    [InlineData("outcome=passed", "outcome", "\"passed\"")]
    [InlineData("standing=sits", "standing", "\"sits\"")]
    [InlineData("rule=left-rigth", "rule", "\"left-rigth\"")]
    [InlineData("rule=left-right&ruleOutcome=pass", "ruleOutcome", "\"pass\"")]
    [InlineData("ruleOutcome=fail", "ruleOutcome", "\"fail\"")]
    [InlineData("edition=us-national/2018-08-02", "edition", "\"us-national/2018-08-02\"")]
    [InlineData("instrument=Scale%209", "instrument", "\"Scale 9\"")]
    [InlineData("from=14.3.2027", "from", "\"14.3.2027\"")]
    [InlineData("to=2027-02-30", "to", "\"2027-02-30\"")]
    [InlineData("from=2027-03-15&to=2027-03-14", "to", "\"2027-03-14\"")]
    [InlineData("recordedFrom=noon", "recordedFrom", "\"noon\"")]
    [InlineData("recordedTo=2027-03-14T25:00", "recordedTo", "\"2027-03-14T25:00\"")]
    [InlineData("recordedTo=9999-12-31", "recordedTo", "\"9999-12-31\"")]
    [InlineData("recordedFrom=2027-03-14T10:00Z&recordedTo=2027-03-14T09:00Z", "recordedTo", "\"2027-03-14T09:00Z\"")]
    [InlineData("size=0", "size", "\"0\"")]
    [InlineData("size=201", "size", "\"201\"")]
    [InlineData("cursor=7", "cursor", "\"7\"")]
    [InlineData("cursor=before--7", "cursor", "\"before--7\"")]
    [InlineData("outcom=fail", "outcom", "\"outcom\"")]
    [InlineData("outcome=pass&outcome=fail", "outcome", "2 times")]
    [InlineData("q=!!!", "q", "\"!!!\"")]
    [InlineData("q=a%00b", "q", "\"ab\"")]
    public async Task Nonsense_InAMember_IsRefusedThereWithTheValue(string query, string member, string said)
    {
        using var json = await _on.Director.GetAsync($"/api/inspections?{query}");
        using var csv = await _on.Director.GetAsync($"/api/inspections.csv?{query}");
        using var page = await _on.Director.GetAsync($"/desk?{query}");

        Assert.Equal(HttpStatusCode.BadRequest, json.StatusCode);
        Assert.Contains(said, await json.ProblemAt(member), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.BadRequest, csv.StatusCode);
        Assert.NotNull(await csv.ProblemAt(member));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, page.StatusCode);
        Assert.Contains(said, (await page.Read()).QuerySelector(".summary")!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Nonsense_OfEveryKindInEveryMember_IsNeverAFailureOfTheStation()
    {
        string[] nonsense = [
            "'", "\" OR 1=1 --", "%", "_", "\U0001F3B3", "ﷺ", new string('x', 201), "-1", "1e9", "9223372036854775808",
            "2027-03-14T00:00:00+99:00", "0001-01-01", "\u0130", "١٢٣", "[", "{}"];
        foreach (var member in Inspect.Station.Desk.FindAsked.Members)
        {
            foreach (var value in nonsense)
            {
                using var answer = await _on.Director.GetAsync($"/api/inspections?{member}={Uri.EscapeDataString(value)}");
                Assert.True(answer.StatusCode is HttpStatusCode.OK or HttpStatusCode.BadRequest, $"{member}={value}: {answer.StatusCode}");
            }
        }
    }

    [Fact]
    public async Task Pages_WithRecordsInBetween_GiveEachOnceNewestFirst()
    {
        for (var i = 0; i < 6; i++)
        {
            await _on.Record(SampleSheets.Legal(), "101");
        }

        var seen = new List<string>();
        var backwards = new List<string>();
        var page = await _on.Answer("outcome=pass&size=2");
        Assert.Null(page["previous"]);
        for (; ; page = await _on.Answer($"outcome=pass&size=2&cursor={page["next"]}"))
        {
            seen.AddRange(Numbers(page));
            await _on.Record(SampleSheets.Legal(), "101");
            await _on.Record(SampleSheets.TooHeavyOnTheLeft(), "101");
            if (page["next"] is null)
            {
                break;
            }
        }

        for (; ; page = await _on.Answer($"outcome=pass&size=2&cursor={page["previous"]}"))
        {
            backwards.InsertRange(0, Numbers(page));
            if (page["previous"] is null)
            {
                break;
            }
        }

        Assert.Equal(9, seen.Count);
        Assert.Equal(seen.Distinct(), seen);
        Assert.Equal(Numbers(await _on.Answer("outcome=pass&size=200")), backwards);
        Assert.Equal(seen, backwards[^9..]);
    }

    [Fact]
    public async Task Roles_OnlyADirectorFinds()
    {
        using var nobody = await _on.Station.Client();
        using var inspector = await _on.Station.Client("inspector");
        foreach (var path in new[] { "/api/inspections", "/api/inspections.csv" })
        {
            using var unknown = await nobody.GetAsync(path);
            using var refused = await inspector.GetAsync(path);
            Assert.Equal(HttpStatusCode.Unauthorized, unknown.StatusCode);
            Assert.Equal(HttpStatusCode.Forbidden, refused.StatusCode);
        }

        using var page = await inspector.GetAsync("/desk");
        using var signIn = await nobody.GetAsync("/desk");
        Assert.Equal(HttpStatusCode.Forbidden, page.StatusCode);
        Assert.Equal(HttpStatusCode.Redirect, signIn.StatusCode);
    }

    [Fact]
    public async Task Desk_NothingTyped_ShowsTheLatestOfTodaysEventAndTheWaysOn()
    {
        var page = await _on.Director.GetPage("/desk");

        Assert.Contains("Latest at", page.QuerySelector("#found")!.TextContent, StringComparison.Ordinal);
        Assert.NotEmpty(page.QuerySelectorAll(".finds tbody tr"));
        Assert.NotNull(page.QuerySelector("nav.onward a[href^='/desk/replay']"));
    }

    [Fact]
    public async Task Desk_FormWithEmptyFields_LeavesALinkWithTheFilledInOnly()
    {
        using var answer = await _on.Director.GetAsync("/desk?q=&event=LANTERN&entry=&outcome=fail&rule=&from=&to=");

        Assert.Equal(HttpStatusCode.Redirect, answer.StatusCode);
        Assert.Equal("/desk?event=LANTERN&outcome=fail", answer.Headers.Location!.OriginalString);
        var page = await _on.Director.GetPage("/desk?event=LANTERN&outcome=fail");
        Assert.Equal([Number(_on.Heavy)], page.QuerySelectorAll(".finds tbody th").Select(cell => cell.TextContent));
        Assert.Contains("not met: side weight", page.QuerySelector(".finds tbody tr")!.TextContent, StringComparison.Ordinal);
    }
}
