using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;

namespace Inspect.Station.Web;

/// <summary>The address at which others reach this station: the one given, or else the one it listens on. A request's Host
/// header never decides it.</summary>
public sealed class PublicAddress(Uri? publicUrl, string urls, IServer server)
{
    /// <summary>The address without a closing slash, such as <c>http://127.0.0.1:5210</c>.</summary>
    public string Root => (publicUrl?.AbsoluteUri ?? Bound).TrimEnd('/');

    /// <summary>Whether slips would have an address that means every address, or only this machine. Nobody else could open it.</summary>
    public bool IsOnlyForThisMachine => publicUrl is null && (IsEveryAddress || new Uri(Root).IsLoopback);

    /// <summary>The full address of a path that begins with a slash.</summary>
    public string Of(string path) => Root + path;

    /// <summary>Whether an Origin header names this station.</summary>
    public bool IsOrigin(Uri origin) =>
        string.Equals(new Uri(Root).GetLeftPart(UriPartial.Authority), origin.GetLeftPart(UriPartial.Authority),
            StringComparison.OrdinalIgnoreCase);

    private string Listening => server.Features.Get<IServerAddressesFeature>()?.Addresses.FirstOrDefault() ?? urls.Split(';')[0];

    private bool IsEveryAddress => Listening.Contains("//*", StringComparison.Ordinal)
        || Listening.Contains("//+", StringComparison.Ordinal)
        || Listening.Contains("//[::]", StringComparison.Ordinal)
        || Listening.Contains("//0.0.0.0", StringComparison.Ordinal);

    private string Bound => IsEveryAddress
        ? Listening
            .Replace("//*", "//127.0.0.1", StringComparison.Ordinal)
            .Replace("//+", "//127.0.0.1", StringComparison.Ordinal)
            .Replace("//[::]", "//127.0.0.1", StringComparison.Ordinal)
            .Replace("//0.0.0.0", "//127.0.0.1", StringComparison.Ordinal)
        : Listening;
}
