using System.Net;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using Inspect.Station.Prepare;
using Inspect.Station.Storage;
using Inspect.Station.Tests.Ground;
using Microsoft.Extensions.DependencyInjection;

namespace Inspect.Station.Tests.Import;

/// <summary>A list on its way into an event, as a director without script takes it.</summary>
internal static class ImportSteps
{
    /// <summary>Sends a pasted list and answers with the page that shows what it would do.</summary>
    public static async Task<IDocument> Paste(this HttpClient director, string lines, string into = "LANTERN")
    {
        using var answer = await director.Send(await director.GetPage($"/events/{into}/entries/add"), ("lines", lines));
        return await director.After(answer);
    }

    /// <summary>Sends a file and answers with the page that shows what it would do.</summary>
    public static async Task<IDocument> Choose(this HttpClient director, byte[] bytes, string name, string into = "LANTERN")
    {
        using var answer = await director.SendFile(bytes, name, into);
        return await director.After(answer);
    }

    /// <summary>Sends a file.</summary>
    public static async Task<HttpResponseMessage> SendFile(this HttpClient director, byte[] bytes, string name, string into = "LANTERN")
    {
        var page = await director.GetPage($"/events/{into}/entries/add");
        using var form = new MultipartFormDataContent();
        var token = page.QuerySelector<IHtmlInputElement>("main form input[type=hidden]")!;
        form.Add(new StringContent(token.Value), token.Name!);
        form.Add(new ByteArrayContent(bytes), "file", name);
        return await director.PostAsync($"/events/{into}/entries/add", form);
    }

    /// <summary>Adds what the page offers, with these choices, and answers with the next page.</summary>
    public static async Task<IDocument> Add(this HttpClient director, IDocument page, params (string Name, string Value)[] choices)
    {
        using var answer = await director.Send(Form(page), choices);
        return await director.After(answer);
    }

    /// <summary>Says what the columns are, and answers with the next page.</summary>
    public static async Task<IDocument> Match(this HttpClient director, IDocument page, params (string Name, string Value)[] columns)
    {
        using var answer = await director.Send(page.QuerySelector<IHtmlFormElement>(".columns form")!, columns);
        return await director.After(answer);
    }

    /// <summary>What a page says of a list: how many are added, changed, left, doubtful and refused.</summary>
    public static (int Added, int Changed, int Left, int Doubtful, int Refused) Counts(this IDocument page)
    {
        var counts = page.QuerySelectorAll(".sorted dd").Select(each => int.Parse(
            each.TextContent.Replace(",", "", StringComparison.Ordinal), System.Globalization.CultureInfo.InvariantCulture)).ToList();
        Assert.True(counts.Count == 5, page.QuerySelector("main")!.Words());
        return (counts[0], counts[1], counts[2], counts[3], counts[4]);
    }

    /// <summary>The sentences of what is refused.</summary>
    public static IEnumerable<string> Refused(this IDocument page) =>
        page.QuerySelectorAll("[aria-labelledby=refused] li").Select(each => each.Words());

    /// <summary>What is said of how the list was read.</summary>
    public static IEnumerable<string> Notices(this IDocument page) => page.QuerySelectorAll("main > p.note").Select(each => each.Words());

    /// <summary>The form that adds.</summary>
    public static IHtmlFormElement Form(IDocument page) => page.QuerySelector<IHtmlFormElement>("form:has([name=seen])")
        ?? throw new InvalidOperationException($"Nothing can be added: {page.QuerySelector("main")!.Words()}");

    /// <summary>The entries of an event as number, name and squad.</summary>
    public static IReadOnlyList<(string Number, string? Bowler, string? Squad)> Entries(
        this StationFixture station, string of = "LANTERN") =>
        [.. station.Services.GetRequiredService<Events>().EntriesOf(of).Select(entry => (entry.Number, entry.Bowler, entry.Squad))];

    /// <summary>An empty event with the squads A, B and C.</summary>
    public static Task<bool> Hold(this StationFixture station, string id) => station.Services.GetRequiredService<WriteGate>()
        .Run(write => Events.TryAdd(write, DemoEvent.On(StationClock.Today) with { Id = id, Name = $"Meeting of {id}" }));

    // What takes longer than a second, as on a busy machine, is watched until it is done.
    private static async Task<IDocument> After(this HttpClient director, HttpResponseMessage answer)
    {
        if (answer.StatusCode != HttpStatusCode.Redirect)
        {
            return await answer.Read();
        }

        var next = answer.Headers.Location!.ToString();
        while (next.Contains("/add/progress", StringComparison.Ordinal))
        {
            using var far = await director.GetAsync(next);
            next = far.Headers.Location?.ToString() ?? next;
            await Task.Delay(far.Headers.Location is null ? 100 : 0);
        }

        return await director.GetPage(next);
    }
}
