using System.Globalization;

namespace Inspect.Station.Storage;

/// <summary>The one spelling of an instant in the store: UTC to the millisecond, which sorts as text.</summary>
public static class UtcText
{
    private const string Format = "yyyy-MM-dd'T'HH:mm:ss.fff'Z'";

    public static string Of(DateTimeOffset instant) => instant.UtcDateTime.ToString(Format, CultureInfo.InvariantCulture);

    /// <summary>Reads an instant that the store holds.</summary>
    /// <exception cref="FormatException">The text is none that <see cref="Of"/> writes.</exception>
    public static DateTimeOffset Parse(string text) =>
        DateTimeOffset.ParseExact(text, Format, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal);
}
