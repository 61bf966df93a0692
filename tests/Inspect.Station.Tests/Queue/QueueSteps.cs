using System.Net;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using Inspect.Station.Prepare;
using Inspect.Station.Queue;
using Inspect.Station.Tests.Ground;
using Microsoft.Extensions.DependencyInjection;

namespace Inspect.Station.Tests.Queue;

/// <summary>What tests of the queue do over and over, on pages without script.</summary>
internal static class QueueSteps
{
    public static async Task<HttpResponseMessage> MarkIn(HttpClient client, string typed) =>
        await client.Send(await client.GetPage("/events/LANTERN/door"), ("bowler", typed));

    public static async Task In(StationFixture station, params string[] entries)
    {
        foreach (var entry in entries)
        {
            await station.Services.GetRequiredService<Calls>().MarkIn(Lantern(station), entry);
        }
    }

    public static async Task Open(HttpClient client, string table)
    {
        using var opened = await client.Send(Form(await client.GetPage("/events/LANTERN/queue"), "/queue/table"), ("table", table));
        Assert.Equal(HttpStatusCode.Redirect, opened.StatusCode);
    }

    public static async Task<string> Press(HttpClient client, string page)
    {
        using var pressed = await client.Send(Form(await client.GetPage(page), "/queue/next"));
        return pressed.Headers.Location!.ToString();
    }

    public static IHtmlFormElement Form(IDocument page, string action) =>
        page.QuerySelector<IHtmlFormElement>($"main form[action$='{action}']")
            ?? throw new InvalidOperationException($"The page has no form to {action}.");

    public static FormUrlEncodedContent Token(IDocument page, (string Name, string Value) answer) => new(
    [
        KeyValuePair.Create(
            "__RequestVerificationToken", page.QuerySelector<IHtmlInputElement>("input[name=__RequestVerificationToken]")!.Value),
        KeyValuePair.Create(answer.Name, answer.Value),
    ]);

    public static Event Lantern(StationFixture station) => station.Services.GetRequiredService<Events>().Find("LANTERN")!;

    public static QueueNow Now(StationFixture station) => station.Services.GetRequiredService<BowlerQueue>().Of(Lantern(station));

    // In the order of arrival: which squad is near depends on the hour at which the test runs.
    public static List<string> Waiting(StationFixture station) =>
        [.. Now(station).Waiting.OrderBy(place => place.WaitsSince).ThenBy(place => place.Id).Select(place => place.Entry)];
}
