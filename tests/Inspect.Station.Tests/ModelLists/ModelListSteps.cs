using System.Net;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using Inspect.Station.Tests.Ground;

namespace Inspect.Station.Tests.ModelLists;

/// <summary>The steps by which a director brings a list of models in and lets the demo event read it.</summary>
internal static class ModelListSteps
{
    /// <summary>Brings the list in as of a day.</summary>
    public static async Task BringIn(this HttpClient director, string lines, string day) => await director.Landed(
        Form(await director.SeeModels(lines)), ("day", day), ("source", "A letter of the body"));

    /// <summary>Takes a pasted list and shows what it changes; adds the list first where there is none.</summary>
    public static async Task<IDocument> SeeModels(this HttpClient director, string lines)
    {
        var lists = await director.GetPage("/lists");
        var start = lists.QuerySelector("a[href='/lists/1']") is not null ? await director.GetPage("/lists/1/bring")
            : await director.Landed(lists.QuerySelector<IHtmlFormElement>("form[action='/lists']")!, ("name", "Approved balls"));
        return await director.Landed(start.QuerySelector<IHtmlFormElement>("form[action='/lists/1/bring']")!, ("lines", lines));
    }

    /// <summary>The form that brings in what is shown.</summary>
    public static IHtmlFormElement Form(IDocument seen) => seen.QuerySelector<IHtmlFormElement>("form[method=post][action*='/bring/']")!;

    /// <summary>Sets which lists the demo event reads.</summary>
    public static async Task Use(this HttpClient director, params (string, string)[] chosen) => await director.Landed(
        (await director.GetPage("/events/LANTERN/lists")).QuerySelector<IHtmlFormElement>("form[action$='/lists']")!, chosen);

    // Over a port the client follows by itself, in memory it does not.
    private static async Task<IDocument> Landed(this HttpClient director, IHtmlFormElement form, params (string, string)[] typed)
    {
        using var sent = await director.Send(form, typed);
        if (sent.Headers.Location is { } next)
        {
            return await director.GetPage(next.ToString());
        }

        var page = await sent.Read();
        Assert.True(sent.StatusCode == HttpStatusCode.OK, page.QuerySelector("[role=alert]")?.Words());
        return page;
    }
}
