using Inspect.Ball;
using Inspect.Sheets;
using Inspect.Sheets.Described;

namespace Inspect.Advice;

/// <summary>What is declared of a ball's inside and where its axes are
/// marked, and so what may be estimated for RG and differential.</summary>
public sealed class DeclaredInside
{
    private readonly BallDescription _ball;
    private readonly Vector? _pin;
    private readonly Vector? _massBias;
    private readonly bool _isAsymmetric;

    private DeclaredInside(BallDescription ball, Vector? pin, Vector? massBias, bool isAsymmetric) =>
        (_ball, _pin, _massBias, _isAsymmetric) = (ball, pin, massBias, isAsymmetric);

    /// <summary>Whether the ball is declared asymmetric and the mark of its high axis is not given.</summary>
    public bool LacksMark => _pin is not null && _isAsymmetric && _massBias is null;

    /// <summary>The ball with its declared inside, the low axis along +z,
    /// where figures and pin are known; otherwise the even ball.</summary>
    public BallDescription Ball => _ball;

    /// <summary>What a sheet declares.</summary>
    /// <param name="sheet">The sheet.</param>
    /// <param name="whole">The ball before drilling, of even density.</param>
    public static DeclaredInside Of(Sheet sheet, BallDescription whole)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        var declared = sheet.Ball?.Declared;
        return Of(
            whole,
            declared?.Rg is { } rg ? Physical.Value(rg) : null,
            declared?.Differential is { } differential ? Physical.Value(differential) : null,
            declared?.Intermediate is { } intermediate ? Physical.Value(intermediate) : 0,
            Place(sheet.Ball?.Pin, whole.RadiusIn),
            Place(sheet.Ball?.MassBias, whole.RadiusIn));
    }

    /// <summary>The inside from figures in inches and directions of the grip frame; impossible figures are ignored.</summary>
    public static DeclaredInside Of(
        BallDescription whole, double? rgIn, double? differentialIn, double intermediateIn, Vector? pin, Vector? massBias)
    {
        ArgumentNullException.ThrowIfNull(whole);
        try
        {
            return rgIn is { } rg && differentialIn is { } differential && pin is not null && whole.GrossOz >= BallDescription.LightOz
                ? new DeclaredInside(
                    BallDescription.Of(whole.DiameterIn, whole.GrossOz, Interior.Calibrated.Of(rg, differential, intermediateIn)), pin,
                        massBias, intermediateIn > 0)
                : new DeclaredInside(whole, null, null, false);
        }
        catch (DescriptionException)
        {
            return new DeclaredInside(whole, null, null, false);
        }
    }

    /// <summary>The holes in the frame of <see cref="Ball"/>.</summary>
    public IReadOnlyList<DrilledHole> Seen(IReadOnlyList<DrilledHole> holes) =>
        _pin is { } pin ? [.. holes.Select(hole => GripFrame.FromThePin(hole, _ball.RadiusIn, pin, _massBias))] : holes;

    /// <summary>What a change of holes does, as far as the declared figures allow.</summary>
    public RemedyEffect Tell(
        DrillingEffect statics, IReadOnlyList<DrilledHole> before, IReadOnlyList<DrilledHole> after, ScaleConstant scale)
    {
        ArgumentNullException.ThrowIfNull(statics);
        return Tell(statics, Drilled(before, scale), after);
    }

    /// <summary>The ball with its declared inside as it is drilled; null where it is the even ball.</summary>
    internal DrilledBall? Drilled(IReadOnlyList<DrilledHole> holes, ScaleConstant scale, Effort? effort = null) =>
        _pin is null ? null : new DrilledBall(_ball, Seen(holes), scale, effort);

    /// <summary>The same from a drilled ball, which may be asked more than once.</summary>
    internal RemedyEffect Tell(DrillingEffect statics, DrilledBall? drilled, IReadOnlyList<DrilledHole> after)
    {
        var inside = drilled?.Changed(Seen(after)) ?? statics;
        return new RemedyEffect(
            (statics.X, statics.Y, statics.Z), statics.WeightOz, inside.LowRgIn, LacksMark ? null
                : inside.TotalDifferentialIn, inside.Basis);
    }

    private static Vector? Place(SurfacePlace? place, double radiusIn)
    {
        try
        {
            return GripFrame.PlacementOf(place) is { } placement ? GripFrame.DirectionOf(placement, radiusIn) : null;
        }
        catch (DescriptionException)
        {
            return null;
        }
    }
}
