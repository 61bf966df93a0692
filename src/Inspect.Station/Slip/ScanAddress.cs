using Inspect.Station.Record;
namespace Inspect.Station.Slip;

/// <summary>The address in the QR code of a slip or of an entry's card, in capitals wherever that makes no difference.</summary>
/// <remarks>
/// Scheme, host, <c>/S/</c> and <c>/E/</c> mean the same in capitals, and capitals let a QR code spend 5.5 bits a character instead of 8.
/// A path below which the station is published may depend on its case and stays as it is.
/// </remarks>
public static class ScanAddress
{
    /// <summary>The address of <paramref name="code"/> at the station published under <paramref name="publicUrl"/>.</summary>
    /// <exception cref="ArgumentException"><paramref name="publicUrl"/> is no absolute web address.</exception>
    public static string Of(Uri publicUrl, SlipCode code) => Of(publicUrl, 'S', code);

    /// <summary>The address of the list of balls of the entry whose card has <paramref name="code"/>.</summary>
    /// <exception cref="ArgumentException"><paramref name="publicUrl"/> is no absolute web address.</exception>
    public static string OfCard(Uri publicUrl, SlipCode code) => Of(publicUrl, 'E', code);

    private static string Of(Uri publicUrl, char page, SlipCode code)
    {
        ArgumentNullException.ThrowIfNull(publicUrl);
        if (!publicUrl.IsAbsoluteUri || (publicUrl.Scheme != Uri.UriSchemeHttp && publicUrl.Scheme != Uri.UriSchemeHttps))
        {
            throw new ArgumentException($"'{publicUrl}' is no web address; give one such as 'https://inspect.example'.", nameof(publicUrl));
        }

        var origin = publicUrl.GetComponents(UriComponents.SchemeAndServer, UriFormat.UriEscaped).ToUpperInvariant();
        return $"{origin}{publicUrl.AbsolutePath.TrimEnd('/')}/{page}/{code}";
    }

    /// <summary>Whether a text is meant as an address, as a scanner types it that reads a slip or a card.</summary>
    public static bool IsMeant(string typed) =>
        typed.StartsWith("http", StringComparison.OrdinalIgnoreCase) && typed.Length > SlipCode.Length;

    /// <summary>Reads the code out of what a scanner typed: the address of a slip or card, or the bare code.</summary>
    /// <remarks>A keyboard set to another language changes the punctuation of an address, so only the end is read.</remarks>
    public static bool TryRead(string typed, out SlipCode code)
    {
        var address = typed.TrimEnd('/');
        var from = address.LastIndexOfAny(['/', '?', '&', '=', '_', ' ']);
        return SlipCode.TryParse(
            IsMeant(typed) && from >= 0
                ? address[(from + 1)..]
                : string.Concat(typed.Where(letter => char.IsAsciiLetterOrDigit(letter) || letter == '-')), out code);
    }
}
