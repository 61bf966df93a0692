using System.Security.Cryptography;
using Inspect.Sheets.Form;
using Inspect.Station.Prepare;

namespace Inspect.Station.Measure;

/// <summary>A measuring form as it stands, before it is judged.</summary>
/// <param name="Held">The event.</param>
/// <param name="Entry">The bowler's entry.</param>
/// <param name="Key">Makes a second sending the same recording.</param>
/// <param name="Supersedes">The inspection it replaces.</param>
/// <param name="Ball">A ball judged before with another grip.</param>
/// <param name="Fields">What stands in its fields.</param>
public sealed record OpenForm(Event Held, Entry Entry, string Key, string? Supersedes, string? Ball, TypedFields Fields)
{
    /// <summary>Reads a form as a browser sent it.</summary>
    public static OpenForm Sent(Event held, Entry entry, IFormCollection form) => new(
        held, entry, form["key"].ToString() is var key && IsKey(key) ? key : FreshKey(), Given(form, "supersedes"), Given(form, "ball"),
        TypedFields.Sent(form.Select(field => KeyValuePair.Create(field.Key, field.Value.OfType<string>().ToArray()))));

    /// <summary>A new form's key.</summary>
    public static string FreshKey() => RandomNumberGenerator.GetHexString(32, lowercase: true);

    /// <summary>Whether a text can be the key of a form.</summary>
    public static bool IsKey(string? text) => text is { Length: 32 } && text.All(char.IsAsciiHexDigitLower);

    private static string? Given(IFormCollection form, string name) => form[name].ToString() is { Length: > 0 } text ? text : null;
}
