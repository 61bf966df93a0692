using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json;
using Inspect.Station.Tests.Ground;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.Extensions.DependencyInjection;

namespace Inspect.Station.Tests.Web;

public class ErrorAnswersTests(SharedStation shared) : IClassFixture<SharedStation>
{
    [Theory]
    [InlineData("{", "$")]
    [InlineData("", "$")]
    [InlineData("null", "$")]
    [InlineData("[]", "$")]
    [InlineData("\"text\"", "$")]
    [InlineData("{\"name\":1}", "name")]
    [InlineData("{\"name\":{\"first\":\"a\"}}", "name")]
    [InlineData("{\"nam\":\"a\"}", "nam")]
    [InlineData("{\"Name\":\"a\"}", "Name")]
    [InlineData("{\"name\":\"a\",\"name\":\"b\"}", "name")]
    public async Task Post_UnreadableBody_IsAProblemThatNamesThePlace(string body, string path)
    {
        var station = shared.Station;
        using var client = await station.Client();

        using var answer = await client.PostAsync("/api/session", new StringContent(body, Encoding.UTF8, "application/json"));

        var problem = await AssertProblem(answer, HttpStatusCode.BadRequest);
        var message = problem.GetProperty("errors").GetProperty(path)[0].GetString();
        Assert.DoesNotContain("System.", message, StringComparison.Ordinal);
        Assert.DoesNotContain("Inspect.Station", message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("GET", "/api/nothing", HttpStatusCode.NotFound)]
    [InlineData("GET", "/api", HttpStatusCode.NotFound)]
    [InlineData("GET", "/openapi/v9.json", HttpStatusCode.NotFound)]
    [InlineData("GET", "/api/session", HttpStatusCode.MethodNotAllowed)]
    [InlineData("PUT", "/api/session", HttpStatusCode.MethodNotAllowed)]
    [InlineData("POST", "/health", HttpStatusCode.MethodNotAllowed)]
    [InlineData("GET", "/api/events", HttpStatusCode.Unauthorized)]
    public async Task ForPrograms_Refusal_IsAProblem(string method, string path, HttpStatusCode status)
    {
        var station = shared.Station;
        using var client = await station.Client();

        using var answer = await client.SendAsync(new HttpRequestMessage(new HttpMethod(method), path));

        await AssertProblem(answer, status);
    }

    [Theory]
    [InlineData("text/plain")]
    [InlineData("application/x-www-form-urlencoded")]
    [InlineData("multipart/form-data; boundary=x")]
    [InlineData(null)]
    public async Task ForPrograms_BodyOfAnotherKind_Is415(string? mediaType)
    {
        var station = shared.Station;
        using var client = await station.Client();
        using var content = new ByteArrayContent("{\"name\":\"a\",\"passcode\":\"b\"}"u8.ToArray());
        content.Headers.ContentType = mediaType is null ? null : MediaTypeHeaderValue.Parse(mediaType);

        using var answer = await client.PostAsync("/api/session", content);

        await AssertProblem(answer, HttpStatusCode.UnsupportedMediaType);
    }

    [Theory]
    [InlineData("/nothing", HttpStatusCode.NotFound, "There is no page at this address")]
    [InlineData("/events/NOWHERE", HttpStatusCode.NotFound, "There is no event \"NOWHERE\" on this station.")]
    public async Task ForPeople_Refusal_IsAPageWithAPlainSentence(string path, HttpStatusCode status, string sentence)
    {
        var station = shared.Station;
        using var client = await station.Client("inspector");

        using var answer = await client.GetAsync(path);

        Assert.Equal(status, answer.StatusCode);
        Assert.Equal("text/html", answer.Content.Headers.ContentType!.MediaType);
        Assert.StartsWith(sentence, (await answer.Read()).QuerySelector("main .lead")!.TextContent, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/api/breaks", "application/problem+json")]
    [InlineData("/breaks", "text/html")]
    public async Task Failure_InProduction_SaysNothingOfItsInside(string path, string mediaType)
    {
        await using var station = new StationFixture();
        await using var broken = station.WithWebHostBuilder(builder => builder.ConfigureServices(
            services => services.AddSingleton<IStartupFilter>(new BreaksAt(path))));
        using var client = broken.CreateClient();

        using var answer = await client.GetAsync(path);
        var text = await answer.Content.ReadAsStringAsync();

        Assert.Equal(HttpStatusCode.InternalServerError, answer.StatusCode);
        Assert.Equal(mediaType, answer.Content.Headers.ContentType!.MediaType);
        Assert.Contains("Something went wrong inside the station", text, StringComparison.Ordinal);
        Assert.DoesNotContain("a secret of the inside", text, StringComparison.Ordinal);
    }

    private static async Task<JsonElement> AssertProblem(HttpResponseMessage answer, HttpStatusCode status)
    {
        Assert.Equal(status, answer.StatusCode);
        Assert.Equal("application/problem+json", answer.Content.Headers.ContentType?.MediaType);
        using var problem = JsonDocument.Parse(await answer.Content.ReadAsStringAsync());
        Assert.Equal((int)status, problem.RootElement.GetProperty("status").GetInt32());
        Assert.NotEqual("", problem.RootElement.GetProperty("title").GetString());
        Assert.NotEqual("", problem.RootElement.GetProperty("detail").GetString());
        return problem.RootElement.Clone();
    }

    /// <summary>A route that fails, put behind the station's own pipeline.</summary>
    private sealed class BreaksAt(string path) : IStartupFilter
    {
        public Action<IApplicationBuilder> Configure(Action<IApplicationBuilder> next) => app =>
        {
            next(app);
            app.Use((
                Microsoft.AspNetCore.Http.HttpContext http, Microsoft.AspNetCore.Http.RequestDelegate rest) => http.Request.Path == path
                ? throw new InvalidOperationException("a secret of the inside")
                : rest(http));
        };
    }
}
