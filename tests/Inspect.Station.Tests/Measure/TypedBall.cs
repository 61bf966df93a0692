using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using Inspect.Station.Tests.Ground;

namespace Inspect.Station.Tests.Measure;

/// <summary>An invented legal ball as it is typed into the measuring form.</summary>
internal static class TypedBall
{
    public const string Page = "/events/LANTERN/entries/103/balls/new";
    public const string Live = "/events/LANTERN/entries/103/balls/live";

    /// <summary>Each field and what is typed into it; no unit and no sign, as at the table.</summary>
    public static readonly (string Name, string Value)[] Legal =
    [
        ("ball.maker", "Ostrava Kiln"), ("ball.model", "Nightjar"), ("ball.serial", "9QF31207"), ("ball.listed", "yes"),
        ("grip.hand", "right"), ("grip.digits", "thumb"), ("grip.digits", "middle"), ("grip.digits", "ring"),
        ("weights.gross", "15-1"), ("weights.topBottom", "1 1/4"), ("weights.topBottom.side", "top"),
        ("weights.leftRight", "1/2"), ("weights.leftRight.side", "right"), ("weights.fingerThumb", "1/4"),
        ("weights.fingerThumb.side", "thumb"),
        ("hole.thumb.diameter", "31/32"), ("hole.thumb.depth", "2 3/4"), ("hole.middle.diameter", "7/8"), ("hole.middle.depth", "2"),
        ("hole.ring.diameter", "27/32"), ("hole.ring.depth", "2"), ("holes.second", "none"), ("holes.other", "none"),
        ("size.diameters[0]", "8.580"), ("size.diameters[1]", "8.582"), ("size.circumference", "26.95"),
        ("marks.modelReadable", "yes"), ("marks.serialReadable", "yes"), ("marks.foreignMaterial", "no"), ("marks.surfacePattern", "no"),
    ];

    /// <summary>The legal ball with all of it: two thumb pieces with an empty row between them, an ordinary grip,
    /// the marks of an asymmetric ball.</summary>
    public static readonly (string Name, string Value)[] Whole = With(
        ("hole.thumb.diameter", "1 3/8 x 3"), ("hole.thumb.depth", ""),
        ("hole.thumb.pieces[0].diameter", "31/32 x 2 3/4"), ("hole.thumb.pieces[2].diameter", "1"), ("hole.thumb.pieces[2].depth", "2 1/2"),
        ("hole.thumb.position.arc", "2 1/2"), ("hole.thumb.position.azimuth", "270"), ("hole.thumb.pitch.south", "3/8 r"),
        ("hole.thumb.pitch.east", "1/8 in right"),
        ("hole.middle.position.arc", "2.35"), ("hole.middle.position.azimuth", "106"), ("hole.middle.pitch.south", "1/4 F"),
        ("hole.middle.pitch.east", "3/8 l"),
        ("hole.ring.position.arc", "31.5 deg"), ("hole.ring.position.azimuth", "74"), ("hole.ring.pitch.east", "3/8"),
        ("hole.ring.pitch.east.side", "right"),
        ("holes.depthTo", "rim"), ("weights.scaleConstant", "4.25"),
        ("ball.pin.arc", "3"), ("ball.pin.azimuth", "45"), ("ball.massBias.arc", "4 1/2"), ("ball.massBias.azimuth", "330"),
        ("ball.gravityMark.arc", "1/2"), ("ball.gravityMark.azimuth", "20"),
        ("ball.declared.rg", "2.480"), ("ball.declared.differential", "0.050"), ("ball.declared.intermediate", "0.015"));

    /// <summary>The legal ball with some fields typed otherwise.</summary>
    public static (string Name, string Value)[] With(params (string Name, string Value)[] others) =>
        [.. Legal.Where(field => others.All(other => other.Name != field.Name)), .. others];

    /// <summary>Sends a form as the page's script does while someone types.</summary>
    public static Task<HttpResponseMessage> SendLive(this HttpClient client, IDocument page, params (string Name, string Value)[] typed) =>
        client.SendTo(Live, page, typed);

    /// <summary>Sends a form as the page's script does after the verdict, and gives what is answered.</summary>
    public static async Task<IDocument> SendAdvice(this HttpClient client, IDocument page, params (string Name, string Value)[] typed)
    {
        using var answer = await client.SendTo(Live.Replace("/live", "/advice", StringComparison.Ordinal), page, typed);
        return await answer.Read();
    }

    private static async Task<HttpResponseMessage> SendTo(
        this HttpClient client, string address, IDocument page, (string Name, string Value)[] typed)
    {
        var hidden = page.QuerySelectorAll("main form.table input[type=hidden]")
            .Select(field => (Name: field.GetAttribute("name")!, Value: field.GetAttribute("value") ?? ""));
        var fields = hidden.Append(("play", page.QuerySelector("[name=play]")!.GetAttribute("value")!))
            .Where(field => typed.All(other => other.Name != field.Item1)).Concat(typed);
        using var message = new HttpRequestMessage(HttpMethod.Post, address);
        message.Headers.Add("Sec-Fetch-Dest", "empty");
        message.Content = new FormUrlEncodedContent(fields.Select(field => KeyValuePair.Create(field.Item1, field.Item2)));
        return await client.SendAsync(message);
    }

    /// <summary>The fault that a live answer gives for a field.</summary>
    public static string? LiveFault(this IDocument answer, string field) =>
        answer.QuerySelectorAll("#live-faults [data-field]")
            .FirstOrDefault(each => each.GetAttribute("data-field") == field)?.TextContent.Trim();

    /// <summary>What stands in a field of the form.</summary>
    public static string Typed(this IDocument page, string name) => page.QuerySelector($"[name='{name}']") switch
    {
        IHtmlInputElement field => field.Value,
        IHtmlSelectElement choice => choice.Value!,
        _ => throw new InvalidOperationException($"The form has no {name}."),
    };

    /// <summary>Judges and records a form as a browser without script does, and gives the record.</summary>
    public static async Task<JsonNode> RecordForm(this HttpClient client, IDocument page, params (string Name, string Value)[] typed)
    {
        using var judged = await client.Send(Form(page), [.. typed, ("act", "judge")]);
        using var recorded = await client.Send(Form(await judged.Read()), ("act", "record"));
        Assert.True(recorded.StatusCode == HttpStatusCode.Redirect, (await recorded.Read()).QuerySelector("[role=alert]")?.Words());
        return (await client.GetFromJsonAsync<JsonNode>($"/api{recorded.Headers.Location}"))!;

        static IHtmlFormElement Form(IDocument page)
        {
            var form = page.QuerySelector<IHtmlFormElement>("main form.station")!;
            form.SetAttribute("action", form.GetAttribute("data-live")!.Replace("/live", "/new", StringComparison.Ordinal));
            return form;
        }
    }
}
