using Inspect.Ball;

namespace Inspect.Sheets;

/// <summary>The closed lists of words used in sheets, each word beside what it means.</summary>
public static class Words
{
    public static readonly IReadOnlyDictionary<string, Hand> Hands = Lower<Hand>();
    public static readonly IReadOnlyDictionary<string, Digit> Digits = Lower<Digit>();
    public static readonly IReadOnlyDictionary<string, Listing> Listings = Lower<Listing>();
    public static readonly IReadOnlyDictionary<string, Shell> Shells = Lower<Shell>();
    public static readonly IReadOnlyDictionary<string, HoleKind> HoleKinds = Lower<HoleKind>();
    public static readonly IReadOnlyDictionary<string, Device> Devices = Lower<Device>();
    public static readonly IReadOnlyDictionary<string, DepthTo> DepthsTo = Lower<DepthTo>();

    /// <summary>The word for a value of one of these lists.</summary>
    public static string Of<T>(T value)
        where T : struct, Enum => Enum.GetName(value)!.ToLowerInvariant();

    private static Dictionary<string, T> Lower<T>()
        where T : struct, Enum => Enum.GetValues<T>().ToDictionary(Of, StringComparer.Ordinal);
}
