using AngleSharp;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;

namespace Inspect.Station.Tests.Ground;

/// <summary>Pages as a browser without script sees them: fetched, read, and their forms sent back with what they carried.</summary>
public static class Html
{
    /// <summary>Reads the page that was answered.</summary>
    public static async Task<IDocument> Read(this HttpResponseMessage answer)
    {
        var text = await answer.Content.ReadAsStringAsync();
        return await BrowsingContext.New(Configuration.Default).OpenAsync(request => request.Content(text));
    }

    /// <summary>Fetches a page, whatever its status.</summary>
    public static async Task<IDocument> GetPage(this HttpClient client, string path)
    {
        using var answer = await client.GetAsync(path);
        return await answer.Read();
    }

    /// <summary>Fills the first form in main and sends it with its hidden fields, the antiforgery token among them.</summary>
    public static async Task<HttpResponseMessage> Send(this HttpClient client, IDocument page, params (string Name, string Value)[] answers)
    {
        var form = page.QuerySelector<IHtmlFormElement>("main form") ?? throw new InvalidOperationException(
            "The page has no form in main.");
        return await client.Send(form, answers);
    }

    /// <summary>Fills a form and sends it.</summary>
    public static Task<HttpResponseMessage> Send(
        this HttpClient client, IHtmlFormElement form, params (string Name, string Value)[] answers)
    {
        var typed = answers.Select(answer => answer.Name).ToHashSet(StringComparer.Ordinal);
        var fields = Carried(form).Where(field => !typed.Contains(field.Name)).Concat(answers);
        return client.PostAsync(
            form.GetAttribute("action"), new FormUrlEncodedContent(fields.Select(field => KeyValuePair.Create(field.Name, field.Value))));
    }

    // What a browser sends of a form that nobody touched; its buttons are named by who presses them.
    private static IEnumerable<(string Name, string Value)> Carried(IHtmlFormElement form) => form.QuerySelectorAll("[name]").SelectMany(
        IEnumerable<(string, string)> (element) => element switch
        {
            IHtmlInputElement { Type: "radio" or "checkbox", IsChecked: false } => [],
            IHtmlInputElement input => [(input.Name!, input.Value)],
            IHtmlTextAreaElement area => [(area.Name!, area.Value)],
            IHtmlSelectElement select => [(select.Name!, select.Value ?? "")],
            _ => [],
        });

    /// <summary>The words of an element with one space between them.</summary>
    public static string Words(this IElement element) =>
        string.Join(' ', element.TextContent.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));

    /// <summary>The fault shown at a field, or null.</summary>
    public static string? FaultAt(this IDocument page, string fieldId) =>
        page.GetElementById(fieldId + "-fault")?.TextContent.Replace("Error: ", "", StringComparison.Ordinal).Trim();
}
