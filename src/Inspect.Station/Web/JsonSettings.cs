using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;
using System.Text.Unicode;

namespace Inspect.Station.Web;

/// <summary>How the station reads and writes JSON: strict both ways, names as people write them.</summary>
public static class JsonSettings
{
    /// <summary>Sets the one manner for every route.</summary>
    public static void AddStrictJson(this IServiceCollection services)
    {
        services.ConfigureHttpJsonOptions(options => Apply(options.SerializerOptions));

        // Without this an unreadable body is an empty 400 in production; thrown, it reaches ErrorAnswers with its path.
        services.Configure<RouteHandlerOptions>(options => options.ThrowOnBadRequest = true);
    }

    /// <summary>camelCase; an unknown, repeated or mistyped member is refused; an absent value is absent, not null.</summary>
    public static void Apply(JsonSerializerOptions options)
    {
        options.PropertyNamingPolicy = JsonNamingPolicy.CamelCase;
        options.PropertyNameCaseInsensitive = false;
        options.NumberHandling = JsonNumberHandling.Strict;
        options.UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow;
        options.AllowDuplicateProperties = false;
        options.RespectNullableAnnotations = true;
        options.DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull;

        // Names keep their letters (the default writes an L with stroke as an escape); what could close a script tag is still escaped.
        options.Encoder = JavaScriptEncoder.Create(UnicodeRanges.All);
    }
}
