using System.Security.Cryptography;

namespace Inspect.Station.Web;

/// <summary>The key that a form carries, so that a second press of its button changes nothing.</summary>
public static class FormKey
{
    /// <summary>The key of a form that was sent; a new one where it has none.</summary>
    public static string Of(IFormCollection form) =>
        form["key"].ToString() is { Length: 32 } key && key.All(char.IsAsciiHexDigit) ? key : Fresh();

    /// <summary>A new key.</summary>
    public static string Fresh() => RandomNumberGenerator.GetHexString(32, lowercase: true);
}
