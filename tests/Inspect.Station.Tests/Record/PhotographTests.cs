using System.Net;
using System.Security.Cryptography;
using System.Text;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using Inspect.Station.Record;
using Inspect.Station.Tests.Ground;
using static Inspect.Station.Tests.Record.WhichBallSteps;

namespace Inspect.Station.Tests.Record;

/// <summary>A photograph of a ball: kept with its hash, shown to officials, struck by a director. The
/// behaviour is defined by this project.</summary>
public sealed class PhotographTests(SharedStation shared) : IClassFixture<SharedStation>
{
    // The smallest file that is one by its first bytes: PNG (ISO/IEC 15948).
    private static readonly byte[] Png =
    [
        .. Photographs.Png, 0, 0, 0, 1, .. "IHDR"u8, 7, 1, 2, 3, 4, 0, 0, 0, 3, .. "tEXt"u8, .. "GPS"u8, 1, 2, 3, 4,
        0, 0, 0, 1, .. "IDAT"u8, 7, 1, 2, 3, 4, 0, 0, 0, 0, .. "IEND"u8, 1, 2, 3, 4,
    ];

    [Fact]
    public async Task Photograph_FromATablet_IsKeptHashedAndShownOnlyToWhoIsSignedIn()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        using var anyone = await station.Client();
        await inspector.Recorded(SampleSheets.Legal());

        using var sent = await Photograph(inspector, Jpeg);
        using var twice = await Photograph(inspector, Jpeg);
        Assert.Equal("/inspections/LANTERN-0001#photographs", sent.Headers.Location!.ToString());

        var source = Assert.Single((await inspector.GetPage("/inspections/LANTERN-0001")).QuerySelectorAll(".photographs img"))
            .GetAttribute("src")!;
        using var shown = await inspector.GetAsync(source);
        Assert.Equal(Jpeg, await shown.Content.ReadAsByteArrayAsync());
        Assert.Equal(("image/jpeg", "no-store", "inline"), (
            shown.Content.Headers.ContentType!.MediaType, shown.Headers.CacheControl!.ToString(),
            shown.Content.Headers.ContentDisposition!.ToString()));
        Assert.Equal("nosniff", Assert.Single(shown.Headers.GetValues("X-Content-Type-Options")));
        using var unsigned = await anyone.GetAsync(source);
        Assert.Equal(HttpStatusCode.Redirect, unsigned.StatusCode);
        var entry = Entries(station, "photograph").Single();
        Assert.Equal(Convert.ToHexStringLower(SHA256.HashData(Jpeg)), entry["sha256"]!.GetValue<string>());
        Assert.Equal("LANTERN-0001", entry["inspection"]!.GetValue<string>());
        Assert.DoesNotContain("Ida", entry.ToJsonString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Photograph_Struck_IsGoneAndTheRegisterStillChecks()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        await director.Recorded(SampleSheets.Legal());
        using var sent = await Photograph(director, Png);
        var page = await director.GetPage("/inspections/LANTERN-0001");
        var source = page.QuerySelector(".photographs img")!.GetAttribute("src")!;
        Assert.DoesNotContain("GPS", Encoding.Latin1.GetString(await director.GetByteArrayAsync(source)), StringComparison.Ordinal);

        using var struck = await director.Send(page.QuerySelector<IHtmlFormElement>("form[action$='/strike']")!);

        using var gone = await director.GetAsync(source);
        Assert.Equal(HttpStatusCode.NotFound, gone.StatusCode);
        Assert.Contains(
            "Photograph 1 was struck", (await director.GetPage("/inspections/LANTERN-0001")).QuerySelector(".photographs")!.Words(),
            StringComparison.Ordinal);
        Assert.Single(Entries(station, "photograph"));
        using (var inspector = await station.Client("inspector"))
        {
            Assert.Null((await inspector.GetPage("/inspections/LANTERN-0001")).QuerySelector("form[action$='/strike']"));
        }

        await using var export = await director.GetStreamAsync("/api/register.jsonl");
        Assert.True(Inspect.Ledger.RegisterCheck.Check(export).IsSound);
    }

    [Theory]
    [InlineData("", "Choose a photograph, or take one with the camera.")]
    [InlineData(
        "<svg xmlns='http://www.w3.org/2000/svg'><script/></svg>",
        "\"ball.jpg\" is not a JPEG, PNG or WebP picture; save the photograph as one of these.")]
    [InlineData("RIFF\u0020\0\0\0WEBPVP8 ", "\"ball.jpg\" is a WebP picture that is incomplete or damaged; take the photograph again.")]
    [InlineData("RIFF1234WAVEfmt ", "\"ball.jpg\" is not a JPEG, PNG or WebP picture; save the photograph as one of these.")]
    public async Task Photograph_ThatIsNone_IsRefusedInASentence(string content, string message)
    {
        var station = await WithOneRecord();
        using var inspector = await station.Client("inspector");

        using var answer = await Photograph(inspector, Encoding.ASCII.GetBytes(content));

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        Assert.Equal(message, (await answer.Read()).FaultAt("photograph"));
        Assert.Empty(Entries(station, "photograph"));
    }

    /// <summary>Sent to a station that listens: the server's own limits count too. The sizes are those that the page names.</summary>
    [Fact]
    public async Task Photograph_UpToTheSizeOnThePage_IsTakenAndALargerOneIsToldItsSize()
    {
        await using var station = new StationFixture().Listen();
        using var inspector = await station.Client("inspector");
        await inspector.Recorded(SampleSheets.Legal());
        foreach (var megabytes in (double[])[1.5, 7.9])
        {
            using var taken = await Photograph(inspector, Large(megabytes));
            Assert.Equal((megabytes, HttpStatusCode.OK), (megabytes, taken.StatusCode));
        }

        using var refused = await Photograph(inspector, Large(8.1));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.StatusCode);
        Assert.Equal(
            "\"ball.jpg\" has 8.1 MB, and at most 8 MB are taken. Take it with fewer pixels.",
            (await refused.Read()).FaultAt("photograph"));
        Assert.Equal(2, Entries(station, "photograph").Count);

        // Asks before it sends: a form that no photograph fills is refused for its size alone.
        inspector.DefaultRequestHeaders.ExpectContinue = true;
        using var beyond = await Photograph(inspector, Large(65));
        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, beyond.StatusCode);
    }

    private Task<StationFixture> WithOneRecord() => shared.After(async station =>
    {
        using var inspector = await station.Client("inspector");
        await inspector.Recorded(SampleSheets.Legal());
    });

    // A JPEG whose lines have as many bytes as it takes.
    private static byte[] Large(double megabytes) =>
        [.. Jpeg[..^2], .. new byte[(int)(megabytes * 1024 * 1024) - Jpeg.Length], .. Jpeg[^2..]];
}
