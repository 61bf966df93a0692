namespace Inspect.Ball;

/// <summary>What bores remove from a shape of 1 oz/in³, about the ball's centre.</summary>
internal static class Removal
{
    /// <summary>What a shape loses to a bore that no earlier bore had removed.</summary>
    public static Moments Of(Ellipsoid shape, Bore bore, Bore[] met, Accuracy accuracy, Effort effort) =>
        new HoleInShape(shape, accuracy, effort).Down(bore) - Shared(shape, bore, met, accuracy, effort);

    /// <summary>The bores of a list that may share a point with one.</summary>
    public static Bore[] Meeting(Bore bore, IEnumerable<Bore> others) => [.. others.Where(bore.MayMeet)];

    /// <summary>What a bore shares with others inside a shape, each place counted once.</summary>
    public static Moments Shared(Ellipsoid shape, Bore bore, Bore[] met, Accuracy accuracy, Effort effort)
    {
        var shared = default(Moments);
        for (var i = 0; i < met.Length; i++)
        {
            // Along the narrower of the two, most of whose lines meet the wider.
            var (narrow, wide) = bore.Radius <= met[i].Radius ? (bore, met[i]) : (met[i], bore);
            shared += new CrossSection(narrow, shape, accuracy, effort, wide, met[..i]).Sum();
        }

        return shared;
    }
}
