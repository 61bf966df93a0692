using System.Net;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using Inspect.Station.Tests.Ground;

namespace Inspect.Station.Tests.ModelLists;

/// <summary>The steps by which a director brings a list of models in and lets the demo event read it.</summary>
internal static class ModelListSteps
{
    /// <summary>Brings the list in as of a day.</summary>
    public static async Task BringIn(this HttpClient director, string lines, string day)
    {
        using var brought = await director.Send(Form(await director.SeeModels(lines)), ("day", day), ("source", "A letter of the body"));
        Assert.True(brought.StatusCode == HttpStatusCode.Redirect, (await brought.Read()).QuerySelector("[role=alert]")?.Words());
    }

    /// <summary>Takes a pasted list and shows what it changes; adds the list first where there is none.</summary>
    public static async Task<IDocument> SeeModels(this HttpClient director, string lines)
    {
        var lists = await director.GetPage("/lists");
        if (lists.QuerySelector("a[href='/lists/1']") is null)
        {
            using var added = await director.Send(
                lists.QuerySelector<IHtmlFormElement>("form[action='/lists']")!, ("name", "Approved balls"));
            Assert.Equal("/lists/1/bring", added.Headers.Location!.ToString());
        }

        using var taken = await director.Send(
            (await director.GetPage("/lists/1/bring")).QuerySelector<IHtmlFormElement>("form[action='/lists/1/bring']")!, ("lines", lines));
        Assert.True(taken.StatusCode == HttpStatusCode.Redirect, (await taken.Read()).QuerySelector("[role=alert]")?.Words());
        using var seen = await director.GetAsync(taken.Headers.Location);
        return await seen.Read();
    }

    /// <summary>The form that brings in what is shown.</summary>
    public static IHtmlFormElement Form(IDocument seen) => seen.QuerySelector<IHtmlFormElement>("form[method=post][action*='/bring/']")!;

    /// <summary>Sets which lists the demo event reads.</summary>
    public static async Task Use(this HttpClient director, params (string, string)[] chosen)
    {
        using var set = await director.Send(
            (await director.GetPage("/events/LANTERN/lists")).QuerySelector<IHtmlFormElement>("form[action$='/lists']")!, chosen);
        Assert.Equal(HttpStatusCode.Redirect, set.StatusCode);
    }
}
