using System.Net;
using System.Text.RegularExpressions;

namespace Inspect.Benchmarks.Live;

/// <summary>The measuring form as a browser sends it, filled in for a legal ball and for some that fail.</summary>
internal static partial class TypedForms
{
    public const string Balls = "/events/LANTERN/entries/103/balls";

    public static readonly (string Name, string Value)[] Legal =
    [
        ("ball.maker", "Ostrava Kiln"), ("ball.model", "Nightjar"), ("ball.serial", "9QF31207"), ("ball.listed", "yes"),
        ("grip.hand", "right"), ("grip.digits", "thumb"), ("grip.digits", "middle"), ("grip.digits", "ring"),
        ("weights.gross", "15-1"), ("weights.topBottom", "1 1/4"), ("weights.topBottom.side", "top"),
        ("weights.leftRight", "1/2"), ("weights.leftRight.side", "right"),
        ("weights.fingerThumb", "1/4"), ("weights.fingerThumb.side", "thumb"),
        ("hole.thumb.diameter", "31/32"), ("hole.thumb.depth", "2 3/4"), ("hole.middle.diameter", "7/8"), ("hole.middle.depth", "2"),
        ("hole.ring.diameter", "27/32"), ("hole.ring.depth", "2"), ("holes.second", "none"), ("holes.other", "none"),
        ("size.diameters[0]", "8.580"), ("size.diameters[1]", "8.582"), ("size.circumference", "26.95"),
        ("marks.modelReadable", "yes"), ("marks.serialReadable", "yes"), ("marks.foreignMaterial", "no"), ("marks.surfacePattern", "no"),
    ];

    private static readonly (string Name, string Value)[] DeclaredAndPlaced =
    [
        ("ball.declared.rg", "2.480"), ("ball.declared.differential", "0.050"), ("ball.pin.arc", "3"), ("ball.pin.azimuth", "45"),
        ("hole.thumb.position.arc", "2 1/2"), ("hole.thumb.position.azimuth", "270"), ("hole.middle.position.arc", "2.35"),
        ("hole.middle.position.azimuth", "106"), ("hole.ring.position.arc", "2.36"), ("hole.ring.position.azimuth", "74"),
        ("weights.scaleConstant", "4.25"),
    ];

    /// <summary>Each with what is wrong with the ball.</summary>
    public static readonly (string What, (string Name, string Value)[] Typed)[] All =
    [
        ("a legal ball", Legal),
        ("side 3 1/4 oz", With(("weights.leftRight", "3 1/4"))),
        ("top 3.2 oz", With(("weights.topBottom", "3.2"))),
        ("top 3.2 oz, declared and placed", With([("weights.topBottom", "3.2"), .. DeclaredAndPlaced])),
    ];

    /// <summary>The legal ball with other readings.</summary>
    public static (string Name, string Value)[] With(params (string Name, string Value)[] others) =>
        [.. Legal.Where(field => others.All(other => other.Name != field.Name)), .. others];

    /// <summary>What the page of the form carries besides what is typed.</summary>
    public static IEnumerable<(string Name, string Value)> Hidden(string page) => Inputs().Matches(page).Select(input => input.Value)
        .Where(input => HiddenOrDay().IsMatch(input))
        .Select(input => (Named().Match(input).Groups[1].Value, WebUtility.HtmlDecode(Valued().Match(input).Groups[1].Value)))
        .DistinctBy(field => field.Item1);

    [GeneratedRegex("type=\"hidden\"|name=\"play\"")]
    private static partial Regex HiddenOrDay();

    [GeneratedRegex("<input[^>]*>")]
    private static partial Regex Inputs();

    [GeneratedRegex(" name=\"([^\"]*)\"")]
    private static partial Regex Named();

    [GeneratedRegex(" value=\"([^\"]*)\"")]
    private static partial Regex Valued();
}
