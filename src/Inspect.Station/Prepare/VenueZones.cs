using Inspect.Station.Access;

namespace Inspect.Station.Prepare;

/// <summary>The time zones of venues, by their IANA names or the cities that those name.</summary>
public static class VenueZones
{
    private const int MostNear = 3;

    /// <summary>The names that are suggested.</summary>
    public static IReadOnlyList<string> Suggested { get; } =
        [.. TimeZoneInfo.GetSystemTimeZones().Where(zone => zone.HasIanaId).Select(zone => zone.Id).Order(StringComparer.Ordinal)];

    /// <summary>The zone's name as it is saved, or null with the fault of the name that was typed.</summary>
    public static string? Read(string typed, out string? fault)
    {
        fault = null;
        var name = typed.Replace(' ', '_');
        if (Suggested.FirstOrDefault(zone => string.Equals(zone, name, StringComparison.OrdinalIgnoreCase)) is { } suggested)
        {
            return suggested;
        }

        // A city that two zones are named by is among the nearest below.
        if (Suggested.Where(zone => zone.Contains('/', StringComparison.Ordinal) && CityOf(zone) == Folded(typed)).ToList() is [var only])
        {
            return only;
        }

        // The system looks a zone up as a file, so a name that could be another file is refused.
        if (name.Length is > 0 and <= 60 && char.IsAsciiLetter(name[0])
            && name.All(each => char.IsAsciiLetterOrDigit(each) || each is '/' or '_' or '+' or '-')
            && TimeZoneInfo.TryFindSystemTimeZoneById(name, out var zone) && zone.HasIanaId)
        {
            return zone.Id;
        }

        var near = Near(typed) is { Count: > 0 } spelt ? string.Join(" or ", spelt) : "America/Chicago or Europe/Berlin";
        fault = $"\"{typed}\" is not a city that time zones are named by; write one in the same zone, such as {near}.";
        return null;
    }

    // The cities that are spelt nearly like this one.
    private static List<string> Near(string typed) => Folded(typed) is { Length: > 2 } city
        ? [.. Suggested.Select(zone => (Zone: zone, Apart: Apart(city, CityOf(zone))))
            .Where(each => each.Apart <= city.Length / 3).OrderBy(each => each.Apart).Take(MostNear).Select(each => each.Zone)]
        : [];

    private static int Apart(string typed, string city) =>
        city.StartsWith(typed, StringComparison.Ordinal) ? 0 : Spelling.Apart(typed, city);

    private static string CityOf(string zone) => Folded(zone[(zone.LastIndexOf('/') + 1)..].Replace('_', ' '));

    private static string Folded(string name) => string.Join(' ', NameFold.Words(name));
}
