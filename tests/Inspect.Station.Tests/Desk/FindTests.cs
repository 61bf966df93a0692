using System.Globalization;
using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using Inspect.Station.Access;
using Inspect.Station.Prepare;
using Inspect.Station.Storage;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Record;
using Microsoft.Extensions.DependencyInjection;

namespace Inspect.Station.Tests.Desk;

/// <summary>Finding records from the desk over HTTP: every filter alone and mixed, what is typed in other spellings, pages, faults and roles.
/// The behaviour is defined by this project; look-alikes and spellings are common practice, no source.</summary>
public sealed class FindTests : IAsyncLifetime
{
    private const string Cup = "CUP27";

    private StationFixture _station = default!;
    private HttpClient _director = default!;

    /// <summary>Legal, entry 101, by the inspector.</summary>
    private JsonObject _legal = default!;

    /// <summary>Too heavy on the left, entry 103, by the director; replaced by <see cref="_again"/>.</summary>
    private JsonObject _heavy = default!;

    /// <summary>The same ball again, legal.</summary>
    private JsonObject _again = default!;

    /// <summary>Not weighed, so that what depends on the weight stays open too; entry 104, by the inspector.</summary>
    private JsonObject _open = default!;

    /// <summary>Of another event, entry 101.</summary>
    private JsonObject _ofCup = default!;

    public async Task InitializeAsync()
    {
        _station = Start();
        _director = await _station.Client("director");
        using var inspector = await _station.Client("inspector");
        var demo = _station.Services.GetRequiredService<Events>().Find(DemoEvent.Id)!;
        await _station.Services.GetRequiredService<WriteGate>().Run(write =>
        {
            Events.Add(write, demo with { Id = Cup, Name = "Lantern Cup", Squads = [], Edition = "us-national/2018-08-01" });
            Events.Enter(write, Cup, new NewEntry("101", "Þórdís Quellström", null));
            return 0;
        });

        _legal = await inspector.Recorded(Sheets.Legal());
        _heavy = await Record(Serial(Sheets.TooHeavyOnTheLeft(), "7O-12SZ88"), "103");
        _again = await Record(Serial(Sheets.Legal(), "7O-12SZ88"), "103", supersedes: Number(_heavy));
        var open = Serial(Sheets.Legal(), "QX 5501");
        open["weights"]!.AsObject().Remove("gross");
        _open = await inspector.Recorded(open, "104");
        _ofCup = await Record(Serial(Sheets.Legal(), "KK77"), "101", eventId: Cup);
    }

    public async Task DisposeAsync()
    {
        _director.Dispose();
        await _station.DisposeAsync();
    }

    [Fact]
    public async Task EachFilter_Alone_FindsWhatItSays()
    {
        var at = (await Answer($"q={Number(_legal)}"))["inspections"]![0]!["at"]!.GetValue<string>();

        await Finds("", _ofCup, _open, _again, _heavy, _legal);
        await Finds("event=LANTERN", _open, _again, _heavy, _legal);
        await Finds("event=cup27", _ofCup);
        await Finds("entry=101", _ofCup, _legal);
        await Finds("bowler=Quell", _ofCup, _again, _heavy);
        await Finds("serial=9QF31207", _legal);
        await Finds("inspector=inspector", _open, _legal);
        await Finds("inspector=director", _ofCup, _again, _heavy);
        await Finds("outcome=pass", _ofCup, _again, _legal);
        await Finds("outcome=fail", _heavy);
        await Finds("outcome=hold", _open);
        await Finds("standing=stands", _ofCup, _open, _again, _legal);
        await Finds("standing=superseded", _heavy);
        await Finds("rule=left-right", _open, _heavy);
        await Finds("rule=left-right&ruleOutcome=fail", _heavy);
        await Finds("rule=left-right&ruleOutcome=hold", _open);
        await Finds("rule=gross-weight&ruleOutcome=hold", _open);
        await Finds("rule=gross-weight", _open);
        await Finds("edition=us-national/2018-08-01", _ofCup);
        await Finds($"from={Sheets.Today}", _ofCup, _open, _again, _heavy, _legal);
        await Finds($"to={Day(-1)}");
        await Finds($"from={Day(1)}");
        await Finds($"recordedTo={at}", _legal);
        await Finds($"recordedFrom={Day(-3)}", _ofCup, _open, _again, _heavy, _legal);
        await Finds($"recordedFrom={Day(3)}");
        await Finds($"ball={(await Answer("outcome=fail"))["inspections"]![0]!["ball"]}", _again, _heavy);
    }

    [Fact]
    public async Task Filters_Mixed_EachNarrows()
    {
        await Finds("event=LANTERN&entry=101", _legal);
        await Finds("event=LANTERN&outcome=pass&inspector=director", _again);
        await Finds("rule=left-right&inspector=director&standing=superseded&edition=us-national/2020-08-01", _heavy);
        await Finds("rule=left-right&ruleOutcome=fail&inspector=inspector");
        await Finds("bowler=quell&outcome=pass&event=LANTERN", _again);
        await Finds("q=quell&outcome=fail", _heavy);
        await Finds("q=quell&entry=101", _ofCup);
        await Finds("serial=7O12SZ88&standing=stands", _again);
        await Finds($"outcome=pass&from={Sheets.Today}&to={Sheets.Today}&recordedFrom={Day(-2)}&recordedTo={Day(2)}", _ofCup, _again, _legal);
    }

    [Fact]
    public async Task Standing_AfterRulings_IsFoundAloneAndMixed()
    {
        using var withdrawn = await BallStoryTests.Rule(_director, Number(_legal), "withdraw", "The wrong ball was on the scale");
        using var accepted = await BallStoryTests.Rule(_director, Number(_open), "accept", "The scale of the venue has it at 15 lb");
        Assert.Equal((HttpStatusCode.Created, HttpStatusCode.Created), (withdrawn.StatusCode, accepted.StatusCode));

        await Finds("standing=withdrawn", _legal);
        await Finds("standing=ruled", _open);
        await Finds("standing=stands", _ofCup, _again);
        await Finds("standing=superseded", _heavy);
        await Finds("standing=withdrawn&event=LANTERN&outcome=pass", _legal);
        await Finds("standing=ruled&q=104", _open);
        await Finds("standing=ruled&rule=gross-weight&inspector=inspector", _open);
        await Finds("standing=withdrawn&event=CUP27");
        Assert.Equal("accept", (await Answer("standing=ruled"))["inspections"]![0]!["ruling"]!.GetValue<string>());
    }

    [Fact]
    public async Task Instrument_ThatAReadingWasTakenWith_IsFoundAloneAndMixedAndOffered()
    {
        var request = Sheets.Request(Sheets.Legal());
        request["observations"] = new JsonArray(new JsonObject { ["path"] = "weights.leftRight", ["text"] = "0.5 oz", ["instrument"] = "Scale 2", ["trial"] = 1 });
        using var answer = await _director.Record(request);
        var read = (await answer.Content.ReadFromJsonAsync<JsonObject>())!;

        await Finds("instrument=Scale%202", read);
        await Finds("instrument=scale%202&outcome=pass&event=LANTERN", read);
        await Finds("instrument=Scale%202&outcome=fail");
        await Finds("instrument=Scale%202&entry=101", read);
        Assert.NotNull((await _director.GetPage("/desk")).QuerySelector("select[name=instrument] option[value='Scale 2']"));
    }

    [Theory]
    [InlineData("7o125z88")]
    [InlineData("70I2SZBB")]
    [InlineData("701252 8 8")]
    public async Task Serial_LookAlikes_CountAsOne(string typed)
    {
        await Finds($"q={Uri.EscapeDataString(typed)}", _again, _heavy);
        await Finds($"serial={Uri.EscapeDataString(typed)}", _again, _heavy);
    }

    [Fact]
    public async Task Serial_BeginningOfFourCharacters_IsFoundByTheOneFieldOnly()
    {
        await Finds("q=7O12", _again, _heavy);
        await Finds("q=7O1");
        await Finds("serial=7O12");
    }

    [Theory]
    [InlineData("Tomás Ibarrondo Quell")]
    [InlineData("quell, tomas")]
    [InlineData("QUELL IBARRONDO TOMAS")]
    [InlineData("que tom")]
    [InlineData("Toma\u0301s Ibar")]
    public async Task Name_OtherAccentsCaseOrderOrPart_IsForgiven(string typed)
    {
        await Finds($"q={Uri.EscapeDataString(typed)}", _again, _heavy);
        await Finds($"bowler={Uri.EscapeDataString(typed)}", _again, _heavy);
    }

    [Fact]
    public async Task Name_LettersWithoutADecomposition_AreSpelledAsTyped() => await Finds("q=thordis", _ofCup);

    [Fact]
    public async Task Name_OneWordForTwoTyped_IsNotEnough() => await Finds("bowler=quell%20quell");

    [Fact]
    public async Task Name_Struck_IsFoundNoMoreAndLeavesNoWords()
    {
        await _station.Services.GetRequiredService<WriteGate>().Run(write => Dapper.SqlMapper.Execute(
            write.Connection, "UPDATE person SET name = NULL, salt = NULL WHERE name LIKE 'Tom%'", null, write.Transaction));

        await Finds("q=quell", _ofCup);
        await Finds("entry=103", _again, _heavy);
        var row = (await Answer("entry=103"))["inspections"]![0]!.AsObject();
        Assert.False(row.ContainsKey("bowler"));
        using var connection = _station.Services.GetRequiredService<Database>().OpenForReading();
        Assert.Equal(0, Dapper.SqlMapper.ExecuteScalar<long>(connection, "SELECT count(*) FROM person_name_word WHERE word LIKE 'ibar%'"));
    }

    [Fact]
    public async Task NameWords_Rebuilt_AreTheSame()
    {
        var before = Words();
        await _station.Services.GetRequiredService<WriteGate>().Run(write =>
        {
            Dapper.SqlMapper.Execute(write.Connection, "DELETE FROM person_name_word WHERE person IN (SELECT id FROM person LIMIT 5)", null, write.Transaction);
            return 0;
        });
        Assert.NotEqual(before, Words());

        await _station.Services.GetRequiredService<WriteGate>().Run(NameWords.FillIn);
        Assert.Equal(before, Words());
        await _station.Services.GetRequiredService<WriteGate>().Run(write =>
        {
            NameWords.Rebuild(write);
            return 0;
        });
        Assert.Equal(before, Words());

        List<string> Words()
        {
            using var connection = _station.Services.GetRequiredService<Database>().OpenForReading();
            return [.. Dapper.SqlMapper.Query<string>(connection, "SELECT word || ' ' || person FROM person_name_word ORDER BY word, person")];
        }
    }

    [Fact]
    public async Task Number_WholeRunningOrInOneEvent_IsFound()
    {
        await Finds($"q={Number(_heavy)}", _heavy);
        await Finds("q=lantern-2", _heavy);
        await Finds("q=2&event=LANTERN", _heavy);
        await Finds("q=1", _ofCup, _legal);
        await Finds("q=1&event=CUP27", _ofCup);
        await Finds("q=LANTERN-2&event=CUP27");
    }

    [Fact]
    public async Task Code_GroupedOrNotInAnyCase_IsFound()
    {
        var code = _open["code"]!.GetValue<string>();
        await Finds($"q={code}", _open);
        await Finds($"q={code.ToLowerInvariant()[..4]}-{code[4..8]}%20{code[8..13]}-{code[13..]}", _open);
    }

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
        using var json = await _director.GetAsync($"/api/inspections?{query}");
        using var csv = await _director.GetAsync($"/api/inspections.csv?{query}");
        using var page = await _director.GetAsync($"/desk?{query}");

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
        string[] nonsense = ["'", "\" OR 1=1 --", "%", "_", "\U0001F3B3", "ﷺ", new string('x', 201), "-1", "1e9", "9223372036854775808", "2027-03-14T00:00:00+99:00", "0001-01-01", "\u0130", "١٢٣", "[", "{}"];
        foreach (var member in Inspect.Station.Desk.FindAsked.Members)
        {
            foreach (var value in nonsense)
            {
                using var answer = await _director.GetAsync($"/api/inspections?{member}={Uri.EscapeDataString(value)}");
                Assert.True(answer.StatusCode is HttpStatusCode.OK or HttpStatusCode.BadRequest, $"{member}={value}: {answer.StatusCode}");
            }
        }
    }

    [Fact]
    public async Task Pages_WithRecordsInBetween_GiveEachOnceNewestFirst()
    {
        for (var i = 0; i < 6; i++)
        {
            await Record(Sheets.Legal(), "101");
        }

        var seen = new List<string>();
        var backwards = new List<string>();
        var page = await Answer("outcome=pass&size=2");
        Assert.Null(page["previous"]);
        for (; ; page = await Answer($"outcome=pass&size=2&cursor={page["next"]}"))
        {
            seen.AddRange(Numbers(page));
            await Record(Sheets.Legal(), "101");
            await Record(Sheets.TooHeavyOnTheLeft(), "101");
            if (page["next"] is null)
            {
                break;
            }
        }

        for (; ; page = await Answer($"outcome=pass&size=2&cursor={page["previous"]}"))
        {
            backwards.InsertRange(0, Numbers(page));
            if (page["previous"] is null)
            {
                break;
            }
        }

        Assert.Equal(9, seen.Count);
        Assert.Equal(seen.Distinct(), seen);
        Assert.Equal(Numbers(await Answer("outcome=pass&size=200")), backwards);
        Assert.Equal(seen, backwards[^9..]);
    }

    [Fact]
    public async Task Roles_OnlyADirectorFinds()
    {
        using var nobody = await _station.Client();
        using var inspector = await _station.Client("inspector");
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
        var page = await _director.GetPage("/desk");

        Assert.Contains("Latest at", page.QuerySelector("#found")!.TextContent, StringComparison.Ordinal);
        Assert.NotEmpty(page.QuerySelectorAll(".finds tbody tr"));
        Assert.NotNull(page.QuerySelector("nav.onward a[href^='/desk/replay']"));
    }

    [Fact]
    public async Task Desk_FormWithEmptyFields_LeavesALinkWithTheFilledInOnly()
    {
        using var answer = await _director.GetAsync("/desk?q=&event=LANTERN&entry=&outcome=fail&rule=&from=&to=");

        Assert.Equal(HttpStatusCode.Redirect, answer.StatusCode);
        Assert.Equal("/desk?event=LANTERN&outcome=fail", answer.Headers.Location!.OriginalString);
        var page = await _director.GetPage("/desk?event=LANTERN&outcome=fail");
        Assert.Equal([Number(_heavy)], page.QuerySelectorAll(".finds tbody th").Select(cell => cell.TextContent));
        Assert.Contains("not met: side weight", page.QuerySelector(".finds tbody tr")!.TextContent, StringComparison.Ordinal);
    }

    private static StationFixture Start() => new();

    private async Task<JsonObject> Record(JsonObject sheet, string entry, string? supersedes = null, string eventId = DemoEvent.Id)
    {
        var request = Sheets.Request(sheet, entry);
        request["event"] = eventId;
        if (supersedes is not null)
        {
            request["supersedes"] = supersedes;
        }

        using var answer = await _director.Record(request);
        Assert.Equal(HttpStatusCode.Created, answer.StatusCode);
        return (await answer.Content.ReadFromJsonAsync<JsonObject>())!;
    }

    private async Task Finds(string query, params JsonObject[] wanted)
    {
        var answer = await Answer(query);
        Assert.Equal((query, string.Join(' ', wanted.Select(Number))), (query, string.Join(' ', Numbers(answer))));
        Assert.Equal(wanted.Length, answer["count"]!["found"]!.GetValue<int>());
        Assert.False(answer["count"]!["more"]!.GetValue<bool>());
    }

    private async Task<JsonObject> Answer(string query)
    {
        using var answer = await _director.GetAsync($"/api/inspections?{query}");
        Assert.True(answer.StatusCode == HttpStatusCode.OK, $"{query}: {await answer.Content.ReadAsStringAsync()}");
        return (await answer.Content.ReadFromJsonAsync<JsonObject>())!;
    }

    private static JsonObject Serial(JsonObject sheet, string serial)
    {
        sheet["ball"]!["serial"] = serial;
        return sheet;
    }

    private static string Number(JsonObject recorded) => recorded["number"]!.GetValue<string>();

    private static List<string> Numbers(JsonObject answer) => [.. answer["inspections"]!.AsArray().Select(row => row!["number"]!.GetValue<string>())];

    private static string Day(int offset) => DemoEvent.Today(TimeProvider.System).AddDays(offset).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
