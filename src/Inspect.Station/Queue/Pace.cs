namespace Inspect.Station.Queue;

/// <summary>How fast the tables work, and what that means for those who wait.</summary>
/// <param name="BallsInTheLastHour">Balls recorded.</param>
/// <param name="Tables">Tables that are open.</param>
/// <param name="Waiting">Bowlers who wait.</param>
/// <param name="Finished">Bowlers finished within the span <paramref name="Over"/>.</param>
/// <param name="Over">The last hour, or less when the tables have not worked that long.</param>
/// <remarks>
/// The wait of a bowler who comes now is the queue's length divided by its throughput: Little's law, J. D. C. Little,
/// "A Proof for the Queuing Formula
/// L = λW", Operations Research 9 (1961). The throughput is a count of n bowlers, whose standard deviation is
/// the square root of n where they
/// come independently (Poisson); the range is that of one standard deviation to either side. Bowlers are counted rather than balls, because
/// nobody knows beforehand how many balls somebody brings.
/// </remarks>
public sealed record Pace(int BallsInTheLastHour, int Tables, int Waiting, int Finished, TimeSpan Over)
{
    /// <summary>How many bowlers must be finished before a rate is shown: with fewer, the range says nothing.</summary>
    public const int FewestForARate = 4;

    /// <summary>How long the tables must have worked before a rate is shown: the first bowlers of a morning are too few.</summary>
    public static readonly TimeSpan ShortestForARate = TimeSpan.FromMinutes(10);

    /// <summary>The wait of a bowler who comes now, as a range in minutes; null while there is no rate.</summary>
    public (int From, int To)? Wait()
    {
        if (Waiting == 0)
        {
            return (0, 0);
        }

        if (Tables == 0 || Finished < FewestForARate || Over < ShortestForARate)
        {
            return null;
        }

        var spread = Math.Sqrt(Finished);
        return (
            (int)Math.Floor(Waiting * Over.TotalMinutes / (Finished + spread)),
            (int)Math.Ceiling(Waiting * Over.TotalMinutes / (Finished - spread)));
    }

    /// <summary>The wait in words.</summary>
    public string WaitWords => Wait() switch
    {
        (0, 0) => "no wait",
        var (from, to) => $"{from} to {to} min",
        null when Tables == 0 => "no table is open",
        null => "not known yet",
    };
}
