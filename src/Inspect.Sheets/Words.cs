using Inspect.Ball;

namespace Inspect.Sheets;

/// <summary>The closed lists of words used in sheets, each word with its meaning.</summary>
public static class Words
{
    public static readonly IReadOnlyDictionary<string, Hand> Hands = Written(("left", Hand.Left), ("right", Hand.Right));

    public static readonly IReadOnlyDictionary<string, Digit> Digits =
        Written(("thumb", Digit.Thumb), ("index", Digit.Index), ("middle", Digit.Middle), ("ring", Digit.Ring), ("little", Digit.Little));

    public static readonly IReadOnlyDictionary<string, Listing> Listings =
        Written(("yes", Listing.Yes), ("no", Listing.No), ("unknown", Listing.Unknown));

    public static readonly IReadOnlyDictionary<string, Shell> Shells =
        Written(("polyester", Shell.Polyester), ("urethane", Shell.Urethane), ("reactive", Shell.Reactive), ("other", Shell.Other));

    public static readonly IReadOnlyDictionary<string, HoleKind> HoleKinds = Written(
        ("grip", HoleKind.Grip),
        ("indentation", HoleKind.Indentation),
        ("vent", HoleKind.Vent),
        ("mill", HoleKind.Mill),
        ("balance", HoleKind.Balance));

    public static readonly IReadOnlyDictionary<string, Device> Devices = Written(
        ("none", Device.None),
        ("slug", Device.Slug),
        ("tape", Device.Tape),
        ("insert", Device.Insert),
        ("interchangeable", Device.Interchangeable));

    public static readonly IReadOnlyDictionary<string, DepthTo> DepthsTo = Written(("axis", DepthTo.Axis), ("rim", DepthTo.Rim));

    /// <summary>The word for a hand.</summary>
    public static string Of(Hand hand) => Hands.WordOf(hand);

    /// <summary>The word for a digit.</summary>
    public static string Of(Digit digit) => Digits.WordOf(digit);

    /// <summary>The word for the answer of the list of approved balls.</summary>
    public static string Of(Listing listing) => Listings.WordOf(listing);

    /// <summary>The word for the material of a shell.</summary>
    public static string Of(Shell shell) => Shells.WordOf(shell);

    /// <summary>The word for a kind of hole.</summary>
    public static string Of(HoleKind kind) => HoleKinds.WordOf(kind);

    /// <summary>The word for what is in a hole.</summary>
    public static string Of(Device device) => Devices.WordOf(device);

    /// <summary>The word for where a depth was measured from.</summary>
    public static string Of(DepthTo depthTo) => DepthsTo.WordOf(depthTo);

    /// <summary>A list of words, each with its meaning. It keeps its order.</summary>
    public static IReadOnlyDictionary<string, T> Written<T>(params (string Word, T Meaning)[] words)
        where T : struct, Enum => words.ToDictionary(each => each.Word, each => each.Meaning, StringComparer.Ordinal);

    /// <summary>The word in a list for a value.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The list has no word for it.</exception>
    public static string WordOf<T>(this IReadOnlyDictionary<string, T> words, T value)
        where T : struct, Enum
    {
        // As what it is, because a dictionary gone through as an interface allocates each time.
        foreach (var (word, meaning) in (Dictionary<string, T>)words)
        {
            if (EqualityComparer<T>.Default.Equals(meaning, value))
            {
                return word;
            }
        }

        throw new ArgumentOutOfRangeException(nameof(value), value, "There is no word for this.");
    }

    /// <summary>A text with a capital letter at its beginning.</summary>
    public static string Capital(string text) => text.Length == 0 ? text : char.ToUpperInvariant(text[0]) + text[1..];

    /// <summary>What an inspector calls a hole.</summary>
    public static string Subject(Hole hole, int index) => (hole.Kind, hole.Digit, hole.In) switch
    {
        (HoleKind.Grip, { } digit, _) => Of(digit),
        (HoleKind.Indentation, { } digit, _) => $"{Of(digit)} indentation",
        (HoleKind.Vent, _, { } host) => $"{Of(host)} vent",
        (HoleKind.Balance, _, _) => "balance hole",
        (HoleKind.Mill, _, _) => "mill hole",
        _ => FormattableString.Invariant($"hole {index + 1}"),
    };

    /// <summary>What an inspector calls one of the interchangeable pieces of a hole.</summary>
    public static string Piece(string subject, int index) => FormattableString.Invariant($"{subject}, piece {index + 1}");
}
