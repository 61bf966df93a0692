using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;
using System.Text.Unicode;
using Inspect.Rules.Judging;
using Inspect.Sheets;

namespace Inspect.Station.Web;

/// <summary>How the station reads and writes JSON: strictly, and with letters of names unescaped.</summary>
public static class JsonSettings
{
    /// <summary>The same manner for what is written outside a route.</summary>
    public static readonly JsonSerializerOptions Options = Applied();

    /// <summary>Sets the one manner for every route.</summary>
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

        // Texts as typed and members in the order of the register: these have writers of their own.
        options.Converters.Add(new WrittenBy<Sheet>(SheetJson.Write));
        options.Converters.Add(new WrittenBy<Verdict>(VerdictJson.Write));
    }

    private static JsonSerializerOptions Applied()
    {
        var options = new JsonSerializerOptions(JsonSerializerDefaults.Web);
        Apply(options);
        return options;
    }

    private sealed class WrittenBy<T>(Action<Utf8JsonWriter, T> write) : JsonConverter<T>
    {
        public override T Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) =>
            throw new NotSupportedException("It is read member by member, so that every fault is named.");

        public override void Write(Utf8JsonWriter writer, T value, JsonSerializerOptions options) => write(writer, value);
    }
}
