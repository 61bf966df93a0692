using System.Text;
using Inspect.Station.Access;
using Inspect.Station.Slip;

namespace Inspect.Station.CommandLine;

/// <summary>Does once, while the station is open already, what the first ball of the day needs: shows pages, judges a sheet and renders a
/// slip. All of it is thrown away.</summary>
internal static class WarmUp
{
    private const string Sheet = """
        {"play":"2024-03-10","authority":"us-national","weights":{"gross":"15 lb"},"holes":[{"kind":"grip","digit":"thumb"}]}
        """;

    private static readonly string[] Pages = ["/", "/sign-in", "/before-drilling"];

    /// <summary>Asks the station at the first of its own addresses; one that listens to nobody is left as it is.</summary>
    public static async Task Run(IEnumerable<string> addresses)
    {
        if (AddressOf(addresses.FirstOrDefault(address => address.StartsWith("http:", StringComparison.OrdinalIgnoreCase))) is not { } root)
        {
            return;
        }

        using var client = new HttpClient { BaseAddress = root };
        try
        {
            using (await client.PostAsync("/api/judge", new StringContent(Sheet, Encoding.UTF8, "application/json")))
            {
            }

            foreach (var page in Pages)
            {
                using var answer = await client.GetAsync(page);
            }

            SlipDocument.WarmUp();
            SignIns.WarmUp();
        }
        catch (Exception stopped) when (stopped is HttpRequestException or OperationCanceledException)
        {
            // The station was stopped meanwhile, and nobody is left to be quick for.
        }
    }

    /// <summary>The address at which this machine reaches a station that listens there, or null.</summary>
    internal static Uri? AddressOf(string? listening) => listening is not null
        && Uri.TryCreate(
            listening.Replace("//*", "//127.0.0.1", StringComparison.Ordinal).Replace("//+", "//127.0.0.1", StringComparison.Ordinal)
                .Replace("//0.0.0.0", "//127.0.0.1", StringComparison.Ordinal).Replace("//[::]", "//[::1]", StringComparison.Ordinal),
            UriKind.Absolute, out var address) ? address : null;
}
