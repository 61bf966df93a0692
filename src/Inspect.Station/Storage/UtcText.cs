using System.Globalization;

namespace Inspect.Station.Storage;

/// <summary>How instants are written in the store: UTC to the millisecond, so that they sort as text.</summary>
public static class UtcText
{
    private const string Format = "yyyy-MM-dd'T'HH:mm:ss.fff'Z'";

    public static string Of(DateTimeOffset instant) => instant.UtcDateTime.ToString(Format, CultureInfo.InvariantCulture);

    /// <summary>Reads an instant from the store.</summary>
    /// <exception cref="FormatException">The text is not as <see cref="Of"/> writes it.</exception>
    public static DateTimeOffset Parse(string text) =>
        DateTimeOffset.ParseExact(text, Format, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal);
}
