using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;
using System.Text.Unicode;

namespace Inspect.Station.Web;

/// <summary>How the station reads and writes JSON: strictly, and with letters of names unescaped.</summary>
public static class JsonSettings
{
    /// <summary>Sets the options for every route.</summary>
    public static void AddStrictJson(this IServiceCollection services)
    {
        services.ConfigureHttpJsonOptions(options => Apply(options.SerializerOptions));

        // Without this, an unreadable body gives an empty 400 in production. As an exception it reaches ErrorAnswers with its path.
        services.Configure<RouteHandlerOptions>(options => options.ThrowOnBadRequest = true);
    }

    /// <summary>camelCase. An unknown or repeated member, or one of the wrong type, is refused. A missing value is left out,
    /// not written as null.</summary>
    public static void Apply(JsonSerializerOptions options)
    {
        options.PropertyNamingPolicy = JsonNamingPolicy.CamelCase;
        options.PropertyNameCaseInsensitive = false;
        options.NumberHandling = JsonNumberHandling.Strict;
        options.UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow;
        options.AllowDuplicateProperties = false;
        options.RespectNullableAnnotations = true;
        options.DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull;

        // Letters of names are not escaped (by default an L with stroke would be). Characters that could close a script tag still are.
        options.Encoder = JavaScriptEncoder.Create(UnicodeRanges.All);
    }
}
