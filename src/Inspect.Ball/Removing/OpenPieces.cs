namespace Inspect.Ball;

/// <summary>The pieces of one line that a bore removes and no earlier bore has removed.</summary>
internal ref struct OpenPieces
{
    private readonly Span<double> _ends;
    private int _count;

    /// <param name="room">Memory for the pieces: two ends each, and one piece more than there are earlier bores.</param>
    /// <param name="bottom">The height at which the line meets the bore's bottom.</param>
    public OpenPieces(Span<double> room, double bottom)
    {
        _ends = room;
        _ends[0] = double.NegativeInfinity;
        _ends[1] = bottom;
        _count = 1;
    }

    public readonly int Count => _count;

    public readonly double Low(int piece) => _ends[2 * piece];

    public readonly double High(int piece) => _ends[(2 * piece) + 1];

    /// <summary>Removes what is between two heights.</summary>
    public void Remove(double low, double high)
    {
        for (var piece = _count - 1; piece >= 0; piece--)
        {
            var (from, to) = (Low(piece), High(piece));
            if (high <= from || low >= to)
            {
                continue;
            }

            var (below, above) = (low > from, high < to);
            if (below && above)
            {
                _ends[(2 * piece) + 1] = low;
                _ends[2 * _count] = high;
                _ends[(2 * _count) + 1] = to;
                _count++;
            }
            else if (below)
            {
                _ends[(2 * piece) + 1] = low;
            }
            else if (above)
            {
                _ends[2 * piece] = high;
            }
            else
            {
                _count--;
                _ends[2 * piece] = _ends[2 * _count];
                _ends[(2 * piece) + 1] = _ends[(2 * _count) + 1];
            }
        }
    }
}
