using System.Globalization;
using System.Net;
using Inspect.Station.Tests.Ground;

namespace Inspect.Station.Tests.Lanes;

/// <summary>What tests of draws do over and over.</summary>
internal static class DrawSteps
{
    /// <summary>Fixes a pool and returns its number.</summary>
    public static async Task<string> Fix(HttpClient director, int count, params (string Name, string Value)[] answers)
    {
        using var fixedNow = await director.Send(
            await director.GetPage("/events/LANTERN/draws/new"), [("count", count.ToString(CultureInfo.InvariantCulture)), .. answers]);
        Assert.InRange(fixedNow.StatusCode, HttpStatusCode.OK, HttpStatusCode.Redirect);

        // A client of a station that listens has already followed the redirect.
        return (fixedNow.Headers.Location ?? fixedNow.RequestMessage!.RequestUri!).ToString().Split('/')[^1];
    }

    /// <summary>Draws from a pool.</summary>
    public static async Task<HttpResponseMessage> Draw(HttpClient director, string pool, string seed, string witness) =>
        await director.Send(await director.GetPage($"/events/LANTERN/draws/{pool}"), ("seed", seed), ("witness", witness));
}
