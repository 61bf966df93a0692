namespace Inspect.Ball;

/// <summary>One density step along one ray of a bore's cross-section, in coordinates in which the step is a unit sphere.</summary>
/// <remarks>A place is r along the ray and s along the bore's axis. Kept are the products from which its distance is computed.</remarks>
internal readonly struct BodyOnRay
{
    private readonly double _footFoot;
    private readonly double _footRay;
    private readonly double _rayRay;
    private readonly double _footAxis;
    private readonly double _rayAxis;
    private readonly double _axisAxis;

    public BodyOnRay(DensityStep step, Bore bore, Vector ray)
    {
        var foot = (bore.Foot - step.Centre).Over(step.SemiAxes);
        var axis = bore.Axis.Over(step.SemiAxes);
        var along = ray.Over(step.SemiAxes);
        OzPerIn3 = step.OzPerIn3;
        _footFoot = foot.Dot(foot) - 1;
        _footRay = foot.Dot(along);
        _rayRay = along.Dot(along);
        _footAxis = foot.Dot(axis);
        _rayAxis = along.Dot(axis);
        _axisAxis = axis.Dot(axis);
    }

    public double OzPerIn3 { get; }

    /// <summary>The heights between which the line at this distance from the axis is inside the step.</summary>
    public bool Interval(double r, out double low, out double high)
    {
        var b = _footAxis + (r * _rayAxis);
        var c = _footFoot + (2 * r * _footRay) + (r * r * _rayRay);
        var discriminant = (b * b) - (_axisAxis * c);
        if (discriminant <= 0)
        {
            low = high = 0;
            return false;
        }

        var root = Math.Sqrt(discriminant);
        low = (-b - root) / _axisAxis;
        high = (-b + root) / _axisAxis;
        return true;
    }

    /// <summary>Adds the distances at which the integrand has a kink: where the line begins to miss the step, and where the bottom
    /// meets its surface.</summary>
    public void AddBreaks(Bore bore, ref Breaks breaks)
    {
        // The line touches the step.
        breaks.AddRoots(
            (_rayAxis * _rayAxis) - (_axisAxis * _rayRay),
            (_footAxis * _rayAxis) - (_axisAxis * _footRay),
            (_footAxis * _footAxis) - (_axisAxis * _footFoot));

        if (bore.Bottom == HoleBottom.Hemisphere)
        {
            AddRoundBottomBreaks(bore, ref breaks);
            return;
        }

        // The bottom, a straight line over r, meets the surface.
        var (tip, slope) = (bore.TipHeight, bore.ConeSlope);
        breaks.AddRoots(
            _rayRay - (2 * slope * _rayAxis) + (slope * slope * _axisAxis),
            _footRay + (tip * _rayAxis) - (slope * _footAxis) - (slope * tip * _axisAxis),
            _footFoot + (2 * tip * _footAxis) + (tip * tip * _axisAxis));
    }

    /// <summary>A round bottom meets an ellipsoid in a curve of degree four. The meeting is searched in steps, then by halving.</summary>
    private void AddRoundBottomBreaks(Bore bore, ref Breaks breaks)
    {
        const int steps = 24;
        var before = OutsideAtBottom(bore, 0);
        for (var i = 1; i <= steps; i++)
        {
            var after = OutsideAtBottom(bore, i * Math.PI / 2 / steps);
            if (Math.Sign(before) != Math.Sign(after))
            {
                var (low, high) = ((i - 1) * Math.PI / 2 / steps, i * Math.PI / 2 / steps);
                for (var halving = 0; halving < 40; halving++)
                {
                    var middle = (low + high) / 2;
                    (low, high) = Math.Sign(OutsideAtBottom(bore, middle)) == Math.Sign(before) ? (middle, high) : (low, middle);
                }

                breaks.Add(bore.Radius * Math.Sin(low));
            }

            before = after;
        }
    }

    /// <summary>Negative where the bottom, at the distance a·sin(angle), is inside the step.</summary>
    private double OutsideAtBottom(Bore bore, double angle)
    {
        var (sin, cos) = Math.SinCos(angle);
        var r = bore.Radius * sin;
        var s = bore.TipHeight - bore.Radius + (bore.Radius * cos);
        return _footFoot + (2 * r * _footRay) + (r * r * _rayRay) + (2 * s * (_footAxis + (r * _rayAxis))) + (s * s * _axisAxis);
    }
}
