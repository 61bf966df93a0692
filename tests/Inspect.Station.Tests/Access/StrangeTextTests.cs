using System.Net;
using System.Net.Http.Json;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using Inspect.Station.Access;
using Inspect.Station.Prepare;
using Inspect.Station.Record;
using Inspect.Station.Slip;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Record;
using Microsoft.Extensions.DependencyInjection;

namespace Inspect.Station.Tests.Access;

/// <summary>Texts with characters that no text has: refused where they are typed, and harmless where they were recorded before. The Unicode
/// Standard, 23.7, and UAX 9 say which they are.</summary>
public sealed class StrangeTextTests
{
    [Theory]
    [InlineData("\ufffe")]
    [InlineData("\u202e")]
    public async Task Text_OfABallOrABowler_IsRefusedWhereItIsTyped(string strange)
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        using var director = await station.Client("director");
        using var bowler = await station.Client();
        var sheet = SampleSheets.Legal();
        sheet["ball"]!["maker"] = $"Ostrava{strange}Kiln";
        var events = station.Services.GetRequiredService<Events>();
        var cards = await station.Services.GetRequiredService<EntryCards>().Of(
            events.Find("LANTERN")!, [events.FindEntry("LANTERN", "103")!]);

        using var recorded = await inspector.Record(SampleSheets.Request(sheet));
        using var added = await director.Send(
            (await director.GetPage("/events/LANTERN")).QuerySelector<IHtmlFormElement>("form[action$='/entries']")!,
            ("name", $"Wilf{strange} Tarn"));
        using var listed = await bowler.Send(
            await bowler.GetPage($"/e/{cards["103"]}"), ("ball.serial", $"9QF{strange}31207"));

        Assert.EndsWith(
            "has a line break or another character that cannot be shown; write one plain line.",
            await recorded.ProblemAt("sheet.ball.maker"), StringComparison.Ordinal);
        Assert.Contains("cannot be a bowler's name", (await added.Read()).FaultAt("name"), StringComparison.Ordinal);
        Assert.Contains("cannot be shown", (await listed.Read()).FaultAt("ball-serial"), StringComparison.Ordinal);
        Assert.Empty(station.Services.GetRequiredService<EnteredBalls>().OfEntry("LANTERN", "103"));
    }

    /// <summary>What was recorded before such texts were refused is still folded, searched and printed.</summary>
    [Fact]
    public void Text_RecordedBefore_IsFoldedAndSet()
    {
        Assert.Equal("90F31207", SerialLookAlikes.Fold("9OF\ufffe31207"));
        Assert.Equal(["wilf", "tarn"], NameFold.Words("Wilf\ufffe Tarn").Select(word => word.Trim('\ufffd')));
        Assert.True(NameFold.Matches("tarn", "Wilf\ufffe Tarn"));
        Assert.Equal("Wilf\ufffd Tarn", SlipPaper.Settable("Wilf\ufffe Tarn"));
    }

    [Fact]
    public async Task SignIn_WithANameThatNobodyCanHave_IsRefusedLikeAnyOtherAndNotKept()
    {
        await using var station = new StationFixture();
        using var anyone = await station.Client();

        using var strange = await anyone.PostAsJsonAsync("/api/session", new { name = "ida\ufffe", passcode = "whatever it is" });
        Assert.Equal(HttpStatusCode.Unauthorized, strange.StatusCode);

        // Names of half a million letters count as one name: the sixth has to wait, and nothing of them stays.
        var answers = new List<HttpStatusCode>();
        for (var i = 0; i < 6; i++)
        {
            var name = new string((char)('a' + i), 500_000);
            using var answer = await anyone.PostAsJsonAsync("/api/session", new { name, passcode = "x" });
            answers.Add(answer.StatusCode);
        }

        Assert.All(answers.Take(5), status => Assert.Equal(HttpStatusCode.Unauthorized, status));
        Assert.Equal(HttpStatusCode.TooManyRequests, answers[5]);
        using var signedIn = await anyone.PostAsJsonAsync("/api/session", new { name = "inspector", passcode = station.Passcode });
        Assert.Equal(HttpStatusCode.OK, signedIn.StatusCode);
    }

    [Fact]
    public void Throttle_WithManyNames_KeepsABoundedNumberOfThem()
    {
        var throttle = new SignInThrottle(TimeProvider.System);
        for (var i = 0; i < 25_000; i++)
        {
            throttle.TryBegin($"name {i}", "10.0.0.1", out _);
        }

        Assert.InRange(throttle.Kept, 1, 10_000);
    }
}
