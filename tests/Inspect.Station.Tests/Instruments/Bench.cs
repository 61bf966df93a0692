using System.Net;
using System.Text.Json.Nodes;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Record;

namespace Inspect.Station.Tests.Instruments;

/// <summary>Instruments of the equipment table, entered and checked by the forms as people do.</summary>
internal static class Bench
{
    /// <summary>A scale that shows tenths of an ounce.</summary>
    public static readonly (string, string)[] Scale = [
        ("kind", "scale"), ("name", "Scale 1"), ("resolution", "0.1 oz"), ("calibration", "0.03 oz")];

    /// <summary>Sends the form that adds an instrument.</summary>
    public static async Task<HttpResponseMessage> Add(this HttpClient director, params (string Name, string Value)[] answers)
    {
        var kind = answers.First(answer => answer.Name == "kind").Value;
        return await director.Send(await director.GetPage($"/instruments/new?kind={kind}"), answers);
    }

    /// <summary>Adds an instrument that is taken.</summary>
    public static async Task Added(this HttpClient director, params (string Name, string Value)[] answers)
    {
        using var answer = await director.Add(answers);
        Assert.Equal(HttpStatusCode.Found, answer.StatusCode);
    }

    /// <summary>Puts instruments in use at one's own table.</summary>
    public static async Task Uses(this HttpClient client, params (string Kind, string Name)[] chosen)
    {
        using var answer = await client.Send(
            await client.GetPage("/instruments"), [.. chosen.Select(one => ($"use.{one.Kind}", one.Name))]);
        Assert.Equal(HttpStatusCode.Found, answer.StatusCode);
    }

    /// <summary>Checks the scale under 100 g of class M1; what it shows decides.</summary>
    public static async Task<HttpResponseMessage> CheckScale(this HttpClient client, string shows, string name = "Scale 1") =>
        await client.Send(
        await client.GetPage($"/instruments/{Uri.EscapeDataString(name)}/check"),
        ("zero", "0"), ("points[0].nominal", "100 g"), ("points[0].class", "M1"), ("points[0].shown", shows));

    /// <summary>Records that the scale fails: the first press shows it, the second records it.</summary>
    public static async Task<string> FailScale(this HttpClient client, string name = "Scale 1")
    {
        using var shown = await client.CheckScale("103 g", name);
        Assert.Equal(HttpStatusCode.OK, shown.StatusCode);
        using var recorded = await client.Send(await shown.Read());
        Assert.Equal(HttpStatusCode.Found, recorded.StatusCode);
        return recorded.Headers.Location!.ToString();
    }

    /// <summary>A request whose gross weight names an instrument.</summary>
    public static JsonObject WeighedWith(string instrument, string entry = "101")
    {
        var request = SampleSheets.Request(SampleSheets.Legal(), entry);
        request["observations"] = new JsonArray(
            new JsonObject { ["path"] = "weights.gross", ["text"] = "15 lb 1 oz", ["instrument"] = instrument });
        return request;
    }

    /// <summary>Records a ball weighed with an instrument and gives its number.</summary>
    public static async Task<string> Weighed(this HttpClient client, string instrument, string entry = "101", string? supersedes = null)
    {
        var request = WeighedWith(instrument, entry);
        if (supersedes is not null)
        {
            request["supersedes"] = supersedes;
        }

        using var answer = await client.Record(request);
        Assert.Equal(HttpStatusCode.Created, answer.StatusCode);
        return JsonNode.Parse(await answer.Content.ReadAsStringAsync())!["number"]!.GetValue<string>();
    }

    /// <summary>The form of a page that is sent to an address.</summary>
    public static IHtmlFormElement FormTo(this IDocument page, string action) =>
        page.QuerySelectorAll<IHtmlFormElement>("main form").First(form => form.GetAttribute("action") == action);
}
