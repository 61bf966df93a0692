using System.Net;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using Inspect.Station.Tests.Ground;

namespace Inspect.Station.Tests.Access;

public class SignInPagesTests(SharedStation shared) : IClassFixture<SharedStation>
{
    [Fact]
    public async Task Get_PageForOfficials_LeadsToSignInAndBack()
    {
        var station = shared.Station;
        using var client = await station.Client();

        using var refused = await client.GetAsync("/events/LANTERN?view=squads");
        Assert.Equal("/sign-in?return=%2Fevents%2FLANTERN%3Fview%3Dsquads", refused.Headers.Location!.ToString());
        using var answer = await client.Send(
            await client.GetPage(refused.Headers.Location.ToString()), ("name", "inspector"), ("passcode", station.Passcode));

        Assert.Equal(HttpStatusCode.Found, answer.StatusCode);
        Assert.Equal("/events/LANTERN?view=squads", answer.Headers.Location!.ToString());
        Assert.Equal(HttpStatusCode.OK, (await client.GetAsync("/events/LANTERN")).StatusCode);
    }

    [Theory]
    [InlineData("//elsewhere.example")]
    [InlineData("/\\elsewhere.example")]
    [InlineData("https://elsewhere.example/")]
    [InlineData("javascript:alert(1)")]
    [InlineData("/\n/elsewhere.example")]
    public async Task Post_ReturnToElsewhere_LeadsToTheFirstPage(string back)
    {
        var station = shared.Station;
        using var client = await station.Client();

        using var answer = await client.Send(
            await client.GetPage("/sign-in"), ("name", "inspector"), ("passcode", station.Passcode), ("return", back));

        Assert.Equal("/", answer.Headers.Location!.ToString());
    }

    // A header has only ASCII in it (RFC 9110, 5.5): other letters are escaped (RFC 3987, 3.1).
    [Theory]
    [InlineData("/events/LANTERN/find?bowler=Müller", "/events/LANTERN/find?bowler=M%C3%BCller")]
    [InlineData("/events/LANTERN/find?bowler=球%20a", "/events/LANTERN/find?bowler=%E7%90%83%20a")]
    public async Task Post_ReturnWithOtherLetters_LeadsThere(string back, string path)
    {
        var station = shared.Station;
        using var client = await station.Client();

        using var answer = await client.Send(
            await client.GetPage("/sign-in"), ("name", "inspector"), ("passcode", station.Passcode), ("return", back));

        Assert.Equal((HttpStatusCode.Found, path), (answer.StatusCode, answer.Headers.Location?.OriginalString));
    }

    [Fact]
    public async Task Post_WrongPasscode_ShowsTheFormAgainWithTheNameAndWithoutThePasscode()
    {
        var station = shared.Station;
        using var client = await station.Client();

        using var answer = await client.Send(await client.GetPage("/sign-in"), ("name", "inspector"), ("passcode", "not this one"));
        var page = await answer.Read();

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        Assert.StartsWith("Error: ", page.Title, StringComparison.Ordinal);
        Assert.StartsWith("The name or the passcode is wrong", page.FaultAt("passcode"), StringComparison.Ordinal);
        Assert.Equal("#passcode", page.QuerySelector(".summary a")!.GetAttribute("href"));
        Assert.Equal("inspector", page.QuerySelector<IHtmlInputElement>("#name")!.Value);
        Assert.Equal("", page.QuerySelector<IHtmlInputElement>("#passcode")!.Value);
        Assert.Equal("true", page.GetElementById("passcode")!.GetAttribute("aria-invalid"));
    }

    [Fact]
    public async Task Post_NothingTyped_AsksForBoth()
    {
        var station = shared.Station;
        using var client = await station.Client();

        using var answer = await client.Send(await client.GetPage("/sign-in"));
        var page = await answer.Read();

        Assert.Equal("Give the name to sign in with.", page.FaultAt("name"));
        Assert.Equal("Give the passcode.", page.FaultAt("passcode"));
    }

    [Theory]
    [InlineData("/sign-in")]
    [InlineData("/sign-out")]
    [InlineData("/set-up")]
    public async Task Post_WithoutToken_IsRefusedOnAPage(string path)
    {
        var station = shared.Station;
        using var client = await station.Client();

        using var answer = await client.PostAsync(path, new FormUrlEncodedContent([new("name", "inspector")]));

        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Equal("text/html", answer.Content.Headers.ContentType!.MediaType);
    }

    [Fact]
    public async Task Post_SignOut_EndsTheSession()
    {
        var station = shared.Station;
        using var client = await station.Client("inspector");
        var page = await client.GetPage("/");

        using var answer = await client.Send(page.QuerySelector<IHtmlFormElement>("header form")!);

        Assert.Equal("/", answer.Headers.Location!.ToString());
        Assert.Equal(HttpStatusCode.Found, (await client.GetAsync("/events")).StatusCode);
    }
}
