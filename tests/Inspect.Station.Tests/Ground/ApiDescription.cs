using System.Collections.Concurrent;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Json.Schema;

namespace Inspect.Station.Tests.Ground;

/// <summary>Holds what programs send and get against the committed API description: an exchange that it
/// does not describe fails the test.</summary>
public sealed class ApiDescription : DelegatingHandler
{
    private static readonly JsonObject Document =
        JsonNode.Parse(File.ReadAllText(Path.Combine(Repository.Root, "src", "Inspect.Station", "openapi.v1.json")))!.AsObject();

    private static readonly List<(Regex Path, JsonObject Operations)> Routes = [.. Document["paths"]!.AsObject()
        .OrderBy(route => route.Key.Count(letter => letter == '{')).ThenByDescending(route => route.Key.Length)
        .Select(route => (new Regex("^" + Regex.Replace(Regex.Escape(route.Key), @"\\\{[^}]*}", "[^/]+") + "$"), route.Value!.AsObject()))];

    private static readonly ConcurrentDictionary<string, JsonSchema> Schemas = [];

    /// <summary>What a schema of the description has against a text, or null.</summary>
    public static string? FaultOf(string component, string text) =>
        FaultOf(new JsonObject { ["$ref"] = $"#/components/schemas/{component}" }, text);

    protected override async Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
    {
        var path = request.RequestUri!.AbsolutePath.TrimEnd('/');
        if (request.Method == HttpMethod.Head || !(path.StartsWith("/api", StringComparison.Ordinal) || path == "/health"))
        {
            return await base.SendAsync(request, cancellationToken);
        }

        var sent = request.Content is null ? null : await request.Content.ReadAsStringAsync(cancellationToken);
        var answer = await base.SendAsync(request, cancellationToken);
        var what = $"{request.Method} {path} answered {(int)answer.StatusCode}";
        if (OperationOf(request.Method.Method, path) is not { } operation)
        {
            Assert.True((int)answer.StatusCode is 404 or 405, $"{what}, and is not described.");
            Assert.Null(FaultOf("Problem", await answer.Content.ReadAsStringAsync(cancellationToken)));
            return answer;
        }

        var described = operation["responses"]![$"{(int)answer.StatusCode}"];
        Assert.True(described is not null, $"{what}, which is not described: {await answer.Content.ReadAsStringAsync(cancellationToken)}");
        var mediaType = answer.Content.Headers.ContentType?.MediaType;
        Assert.True(
            mediaType is null ? described["content"] is null : described["content"]?[mediaType] is not null,
            $"{what} as {mediaType}, which is not described.");
        if (mediaType is not null && described["content"]![mediaType]!["schema"] is { } schema)
        {
            var text = await answer.Content.ReadAsStringAsync(cancellationToken);
            Assert.True(FaultOf(schema, text) is null, $"{what} with {text}\n{FaultOf(schema, text)}");
        }

        if (answer.IsSuccessStatusCode && operation["requestBody"]?["content"]?["application/json"]?["schema"] is { } taken)
        {
            Assert.True(FaultOf(taken, sent!) is null, $"{what} to {sent}\n{FaultOf(taken, sent!)}");
        }

        return answer;
    }

    private static JsonNode? OperationOf(string method, string path) =>
        Routes.Where(route => route.Path.IsMatch(path))
            .Select(route => route.Operations[method.ToLowerInvariant()]).FirstOrDefault(operation => operation is not null);

    private static string? FaultOf(JsonNode schema, string text)
    {
        var built = Schemas.GetOrAdd(schema.ToJsonString(), key =>
        {
            var whole = JsonNode.Parse(key)!.AsObject();
            whole["$defs"] = Document["components"]!["schemas"]!.DeepClone();
            return JsonSchema.FromText(whole.ToJsonString().Replace("#/components/schemas/", "#/$defs/", StringComparison.Ordinal));
        });
        using var document = JsonDocument.Parse(text);
        var result = built.Evaluate(document.RootElement, new EvaluationOptions { OutputFormat = OutputFormat.List });
        return result.IsValid ? null : JsonSerializer.Serialize(result);
    }
}
