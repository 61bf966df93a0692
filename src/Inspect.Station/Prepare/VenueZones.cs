namespace Inspect.Station.Prepare;

/// <summary>The time zones of venues, by their IANA names.</summary>
public static class VenueZones
{
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

        // The system looks a zone up as a file, so a name that could be another file is refused.
        if (name.Length is > 0 and <= 60 && char.IsAsciiLetter(name[0])
            && name.All(each => char.IsAsciiLetterOrDigit(each) || each is '/' or '_' or '+' or '-')
            && TimeZoneInfo.TryFindSystemTimeZoneById(name, out var zone) && zone.HasIanaId)
        {
            return zone.Id;
        }

        var near = name.Length == 0 ? null
            : Suggested.FirstOrDefault(each => each.EndsWith("/" + name, StringComparison.OrdinalIgnoreCase));
        fault = $"\"{typed}\" is not the IANA name of a time zone; write it as {near ?? "America/Chicago or Europe/Berlin"}.";
        return null;
    }
}
