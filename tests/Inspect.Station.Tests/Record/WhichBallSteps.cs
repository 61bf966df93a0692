using System.Net;
using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using Dapper;
using Inspect.Station.Storage;
using Inspect.Station.Tests.Ground;
using Microsoft.Extensions.DependencyInjection;

namespace Inspect.Station.Tests.Record;

/// <summary>What tests of tags, photographs and balls measured again do over and over.</summary>
internal static class WhichBallSteps
{
    // The smallest file that is one by its first bytes: JPEG (ISO/IEC 10918-1).
    public static readonly byte[] Jpeg =
        [0xFF, 0xD8, 0xFF, 0xE0, 0x00, 0x07, .. "JFIF\0"u8, 0xFF, 0xDA, 0x00, 0x03, 0x01, 0x11, 0xFF, 0x00, 0x22, 0xFF, 0xD9];

    public static JsonObject With(JsonObject request, string name, JsonNode value)
    {
        request[name] = value;
        return request;
    }

    public static async Task<JsonObject> Tagged(HttpClient client, string tag, string entry)
    {
        using var answer = await client.Record(With(SampleSheets.Request(SampleSheets.Legal(), entry), "tag", tag));
        Assert.Equal(HttpStatusCode.Created, answer.StatusCode);
        return (await answer.Content.ReadFromJsonAsync<JsonObject>())!;
    }

    public static async Task<HttpResponseMessage> Photograph(HttpClient client, byte[] bytes)
    {
        var page = await client.GetPage("/inspections/LANTERN-0001");
        using var form = new MultipartFormDataContent
        {
            { new StringContent(
                page.QuerySelector<IHtmlInputElement>("form.photograph input[name=__RequestVerificationToken]")!.Value),
                "__RequestVerificationToken" },
        };
        using var file = new ByteArrayContent(bytes);
        file.Headers.ContentType = new MediaTypeHeaderValue("image/jpeg");
        form.Add(file, "photograph", "ball.jpg");
        return await client.PostAsync("/inspections/LANTERN-0001/photographs", form);
    }

    public static List<JsonObject> Entries(StationFixture station, string kind)
    {
        using var connection = station.Services.GetRequiredService<Database>().OpenForReading();
        return [.. connection.Query<byte[]>("SELECT body FROM register_entry WHERE kind = @kind ORDER BY seq", new { kind }).Select(
            body => JsonNode.Parse(body)!.AsObject())];
    }
}
