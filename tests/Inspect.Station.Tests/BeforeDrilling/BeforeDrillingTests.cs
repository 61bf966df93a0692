using System.Net;
using Inspect.Station.Tests.CommandLine;
using Inspect.Station.Tests.Ground;
using Microsoft.Extensions.DependencyInjection;

namespace Inspect.Station.Tests.BeforeDrilling;

/// <summary>The page for the shop counter as a browser without script sees it.</summary>
/// <remarks>
/// Source of expected figures: derived for this project (an even ball of 8 1/2 in and 15 lb, three-hole grip, L = 4.25 in: the holes take
/// 3.93 oz and change top by −2.36 oz, side by +0.01 oz, finger by −0.08 oz). Depth and width allowed: the edition's own.
/// </remarks>
public class BeforeDrillingTests(SharedStation shared) : IClassFixture<SharedStation>
{
    private const string Grip =
        "thumb.diameter=1+1/16&thumb.depth=2+3/4&thumb.away=3/8&middle.diameter=31/32&middle.depth=2&middle.sideways=3/8"
        + "&ring.diameter=15/16&ring.depth=2&ring.sideways=3/8";

    private const string Ball = "size=8.5&gross=15-0&hand=right&edition=us-national/2020-08-01&scale=4.25";

    [Fact]
    public async Task Page_OpenToAnyone_BeginsWithAnOrdinaryGripAndItsCautions()
    {
        var station = shared.Station;
        using var client = await station.Client();

        using var answer = await client.GetAsync("/before-drilling");
        var text = (await answer.Read()).QuerySelector("#outcome")!.TextContent;

        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Contains("pass or fail nothing", text, StringComparison.Ordinal);
        Assert.Contains("illustration", text, StringComparison.Ordinal);
        Assert.Contains("respirator", text, StringComparison.Ordinal);
        Assert.Contains("not known", text, StringComparison.Ordinal);
    }

    /// <summary>The page says only that the rule is open; why is in the log.</summary>
    [Fact]
    public async Task Page_RuleThatFails_IsLogged()
    {
        await using var station = new StationFixture();
        await using var broken = station.WithWebHostBuilder(builder => builder.ConfigureServices(
            services => services.AddSingleton(BrokenEdition.Editions("grip-hole-count"))));
        using var client = broken.CreateClient();

        var ball = Ball.Replace("us-national/2020-08-01", BrokenEdition.Id, StringComparison.Ordinal);
        using var answer = await client.GetAsync($"/before-drilling?{ball}&{Grip}");

        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        var cause = $"Rule grip-hole-count of {BrokenEdition.Id} failed";
        Assert.Contains(station.Log.Lines, line => line.Contains(cause, StringComparison.Ordinal));
    }

    [Fact]
    public async Task Page_KnownGrip_ShowsTheDerivedOuncesBesideEachOther()
    {
        var rows = await Rows($"{Ball}&{Grip}");

        Assert.Contains("−2.3", rows["Top, bottom"], StringComparison.Ordinal);
        Assert.Contains("14 lb 12.1 oz", rows["Weight"], StringComparison.Ordinal);
        Assert.Contains("0.04 in, under 1/8 in", rows["Thinnest wall"], StringComparison.Ordinal);
        Assert.DoesNotContain("then", rows["RG"], StringComparison.Ordinal);
    }

    [Fact]
    public async Task Page_DeclaredFiguresAndPin_EstimatesInSteps()
    {
        var rows = await Rows($"{Ball}&{Grip}&rg=2.480&diff=0.050&pin.arc=3&pin.direction=75");

        Assert.Matches(@"then 2\.\d\d to 2\.\d\d in", rows["RG"]);
        Assert.Matches(@"then 0\.0\d[05] to 0\.0\d[05] in", rows["Differential"]);
    }

    [Fact]
    public async Task Page_AsymmetricBallWithoutItsMark_RefusesTheDifferential() =>
        Assert.Contains(
            "not estimated", (await Rows($"{Ball}&{Grip}&rg=2.480&diff=0.050&int=0.015&pin.arc=3&pin.direction=75"))["Differential"],
            StringComparison.Ordinal);

    [Theory]
    [InlineData("4 1/2", 0)]
    [InlineData("4 17/32", 2)]
    public async Task Page_DepthAtAndOverTheLimit_IsJudgedByTheChosenEdition(string depth, int broken)
    {
        var page = await Page($"{Ball}&{Grip.Replace("ring.depth=2", "ring.depth=" + depth.Replace(' ', '+'), StringComparison.Ordinal)}");

        Assert.Equal(broken, page.QuerySelectorAll("#outcome .told.fail").Length);
    }

    [Fact]
    public async Task Page_NoThumbHole_ShowsBothWaysAndTheMarkThatIsThenAskedFor()
    {
        var page = await Page($"{Ball}&middle.diameter=7/8&middle.depth=2&ring.diameter=7/8&ring.depth=2");

        Assert.Equal(["No thumb hole", "Ordinary thumb hole"], page.QuerySelectorAll("#outcome h3").Select(heading => heading.TextContent));
        Assert.Contains("plus mark", page.QuerySelector("#outcome .pair")!.TextContent, StringComparison.Ordinal);
    }

    /// <summary>The lean of a right hand's ring finger is outward to the right, that of the middle finger to the left.</summary>
    [Fact]
    public async Task Page_SidewaysLean_IsOutwardOnBothFingersOfEitherHand()
    {
        foreach (var hand in (string[])["right", "left"])
        {
            var page = await Page($"{Ball.Replace("right", hand, StringComparison.Ordinal)}&{Grip}");
            var leans = page.QuerySelectorAll(".on-paper tbody tr")
                .ToDictionary(row => row.Children[0].TextContent, row => row.Children[4].TextContent);

            Assert.Equal(hand == "right" ? "3/8 in left" : "3/8 in right", leans["middle"]);
            Assert.Equal(hand == "right" ? "3/8 in right" : "3/8 in left", leans["ring"]);
        }
    }

    /// <summary>Places and leans that nobody typed are those of an ordinary grip, and are said to be assumed on paper and screen.</summary>
    [Fact]
    public async Task Page_PlaceOrLeanThatNobodyTyped_IsSaidToBeAssumed()
    {
        var assumed = await Page(Ball + "&thumb.diameter=1&thumb.depth=2&middle.diameter=7/8&middle.depth=2");
        var typed = await Page(
            Ball + "&middle.diameter=7/8&middle.depth=2&middle.arc=2.3&middle.direction=100&middle.sideways=0");

        foreach (var table in (string[])[".on-paper tbody", "[aria-label='The holes as a table'] tbody"])
        {
            Assert.All(
                assumed.QuerySelectorAll($"{table} tr"),
                row => Assert.EndsWith("(assumed)", row.Children[3].TextContent, StringComparison.Ordinal));
            Assert.Equal("3/8 in left (assumed)", assumed.QuerySelectorAll($"{table} tr")[1].Children[4].TextContent);
        }

        Assert.DoesNotContain("assumed", typed.QuerySelector(".on-paper")!.TextContent, StringComparison.Ordinal);
        Assert.Contains("2.30 in at 100°", typed.QuerySelector(".on-paper")!.TextContent, StringComparison.Ordinal);
        const string Sentence = "Assumed: places and leans that nobody typed are those of an ordinary grip.";
        Assert.Contains(Sentence, assumed.QuerySelector("#outcome")!.TextContent, StringComparison.Ordinal);
        Assert.DoesNotContain(Sentence, typed.Body!.TextContent, StringComparison.Ordinal);
        Assert.DoesNotContain("sideways\" type=\"text\" value=\"3/8", (await Page("")).Body!.InnerHtml, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("size=8,5", "size")]
    [InlineData("size=9 ft", "size")]
    [InlineData("gross=15-17", "gross")]
    [InlineData("gross=2 lb", "gross")]
    [InlineData("top=many", "top")]
    [InlineData("top=30", "top")]
    [InlineData("edition=moon/2020-01-01", "edition")]
    [InlineData("middle.depth=", "middle-depth")]
    [InlineData("middle.depth=-2", "middle-depth")]
    [InlineData("middle.depth=9", "middle-depth")]
    [InlineData("middle.arc=2", "middle-direction")]
    [InlineData("pin.direction=20", "pin-arc")]
    [InlineData("scale=0", "scale")]
    [InlineData("rg=2.5 oz", "rg")]
    public async Task Page_AnswerThatCannotBeUsed_SaysSoAtItsFieldAndKeepsTheRest(string answer, string field)
    {
        var name = answer[..answer.IndexOf('=', StringComparison.Ordinal)];
        var answers = $"{Ball}&{Grip}".Split('&').Where(one => !one.StartsWith(name + "=", StringComparison.Ordinal))
            .Append(answer.Replace(' ', '+'));
        var station = shared.Station;
        using var client = await station.Client();

        using var response = await client.GetAsync("/before-drilling?" + string.Join('&', answers));
        var page = await response.Read();

        Assert.Equal(HttpStatusCode.UnprocessableEntity, response.StatusCode);
        Assert.NotNull(page.QuerySelector($".summary a[href='#{field}']"));
        Assert.NotNull(page.GetElementById(field));
        Assert.Equal("1 1/16", page.GetElementById("thumb-diameter")!.GetAttribute("value"));
    }

    [Fact]
    public async Task Page_ThousandAnswersOfRubbish_NeverBreaks()
    {
        var station = shared.Station;
        using var client = await station.Client();
        string[] rubbish = ["-1", "0", "1e9", "½", "999999 in", "<script>", "%00", "NaN", "360 deg", "-400 deg", "1/3", "20", "4.3"];
        string[] names =
            ["size", "gross", "top", "hand", "chart", "scale", "rg", "diff", "int", "pin.arc", "pin.direction", "bias.arc", "mark.arc",
            "mark.direction",
            "thumb.diameter", "thumb.depth", "thumb.arc", "thumb.direction", "thumb.away", "thumb.sideways", "little.depth"];
        var random = new Random(7);
        for (var i = 0; i < 60; i++)
        {
            var (name, other) = (names[random.Next(names.Length)], names[random.Next(names.Length)]);
            var query = $"{Ball}&{Grip}&rg=2.48&diff=0.05".Split('&')
                .Where(one => !one.StartsWith(name, StringComparison.Ordinal) && !one.StartsWith(other, StringComparison.Ordinal))
                .Concat(new[] { name, other }.Distinct()
                    .Select(one => $"{one}={Uri.EscapeDataString(rubbish[random.Next(rubbish.Length)])}"));

            using var answer = await client.GetAsync("/before-drilling?" + string.Join('&', query));

            Assert.True(
                answer.StatusCode is HttpStatusCode.OK or HttpStatusCode.UnprocessableEntity,
                $"{answer.StatusCode}: {string.Join('&', query)}");
        }
    }

    private async Task<AngleSharp.Dom.IDocument> Page(string query)
    {
        var station = shared.Station;
        using var client = await station.Client();
        return await client.GetPage("/before-drilling?" + query);
    }

    private async Task<Dictionary<string, string>> Rows(string query) => (await Page(query)).QuerySelectorAll(".compare tbody tr")
        .ToDictionary(row => row.Children[0].FirstChild!.TextContent, row => row.Children[1].TextContent.Replace('\u00a0', ' '));
}
