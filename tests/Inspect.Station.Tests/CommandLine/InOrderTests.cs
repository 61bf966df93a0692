using Inspect.Station.CommandLine;

namespace Inspect.Station.Tests.CommandLine;

public sealed class InOrderTests
{
    [Fact]
    public void Of_WorkThatTakesLongerForSome_GivesResultsInOrderAndIsNeverFarAhead()
    {
        var (taken, given) = (0, 0);
        var most = 0;
        foreach (var number in InOrder.Of(Enumerable.Range(0, 2_000).Select(number => taken = number), Worked, default))
        {
            Assert.Equal(given++, number);
            most = Math.Max(most, taken - number);
        }

        Assert.Equal(2_000, given);
        Assert.InRange(most, 1, 8 * Environment.ProcessorCount);

        static int Worked(int number)
        {
            Thread.SpinWait(number % 7 == 0 ? 20_000 : 10);
            return number;
        }
    }

    [Fact]
    public void Of_Stopped_TakesNoFurtherPiece()
    {
        using var stop = new CancellationTokenSource();
        var taken = 0;
        var pieces = Enumerable.Range(0, int.MaxValue).Select(number =>
        {
            taken = number;
            if (number == 100)
            {
                stop.Cancel();
            }

            return number;
        });

        Assert.ThrowsAny<OperationCanceledException>(() => InOrder.Of(pieces, number => number, stop.Token).Count());
        Assert.Equal(100, taken);
    }

    [Fact]
    public void Of_WorkThatFails_FailsInItsPlace()
    {
        var results = InOrder.Of(Enumerable.Range(0, 100), number => 10 / (number - 50), default).GetEnumerator();
        for (var number = 0; number < 50; number++)
        {
            Assert.True(results.MoveNext());
        }

        Assert.Throws<DivideByZeroException>(() => results.MoveNext());
    }
}
