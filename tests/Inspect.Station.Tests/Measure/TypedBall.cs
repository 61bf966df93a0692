namespace Inspect.Station.Tests.Measure;

/// <summary>An invented legal ball as it is typed into the measuring form.</summary>
internal static class TypedBall
{
    public const string Page = "/events/LANTERN/entries/103/balls/new";
    public const string Live = "/events/LANTERN/entries/103/balls/live";

    /// <summary>Each field and what is typed into it; no unit and no sign, as at the table.</summary>
    public static readonly (string Name, string Value)[] Legal =
    [
        ("ball.maker", "Ostrava Forge"), ("ball.model", "Nightjar"), ("ball.serial", "9QF31207"), ("ball.listed", "yes"),
        ("grip.hand", "right"), ("grip.digits", "thumb"), ("grip.digits", "middle"), ("grip.digits", "ring"),
        ("weights.gross", "15-1"), ("weights.topBottom", "1 1/4"), ("weights.topBottom.side", "top"),
        ("weights.leftRight", "1/2"), ("weights.leftRight.side", "right"), ("weights.fingerThumb", "1/4"), ("weights.fingerThumb.side", "thumb"),
        ("hole.thumb.diameter", "31/32"), ("hole.thumb.depth", "2 3/4"), ("hole.middle.diameter", "7/8"), ("hole.middle.depth", "2"),
        ("hole.ring.diameter", "27/32"), ("hole.ring.depth", "2"), ("holes.second", "none"), ("holes.other", "none"),
        ("size.diameters[0]", "8.580"), ("size.diameters[1]", "8.582"), ("size.circumference", "26.95"),
        ("marks.modelReadable", "yes"), ("marks.serialReadable", "yes"), ("marks.foreignMaterial", "no"), ("marks.surfacePattern", "no"),
    ];

    /// <summary>The legal ball with some fields typed otherwise.</summary>
    public static (string Name, string Value)[] With(params (string Name, string Value)[] others) =>
        [.. Legal.Where(field => others.All(other => other.Name != field.Name)), .. others];

    /// <summary>Sends a form as the page's script does while someone types.</summary>
    public static async Task<HttpResponseMessage> SendLive(this HttpClient client, AngleSharp.Dom.IDocument page, params (string Name, string Value)[] typed)
    {
        var hidden = page.QuerySelectorAll("main form.table input[type=hidden]").Select(field => (Name: field.GetAttribute("name")!, Value: field.GetAttribute("value") ?? ""));
        var fields = hidden.Append(("play", page.QuerySelector("[name=play]")!.GetAttribute("value")!)).Where(field => typed.All(other => other.Name != field.Item1)).Concat(typed);
        using var message = new HttpRequestMessage(HttpMethod.Post, Live);
        message.Headers.Add("Sec-Fetch-Dest", "empty");
        message.Content = new FormUrlEncodedContent(fields.Select(field => KeyValuePair.Create(field.Item1, field.Item2)));
        return await client.SendAsync(message);
    }

    /// <summary>The fault that a live answer gives for a field.</summary>
    public static string? LiveFault(this AngleSharp.Dom.IDocument answer, string field) =>
        answer.QuerySelectorAll("#live-faults [data-field]").FirstOrDefault(each => each.GetAttribute("data-field") == field)?.TextContent.Trim();
}
