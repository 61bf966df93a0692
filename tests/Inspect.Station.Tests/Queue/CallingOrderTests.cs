using Inspect.Station.Queue;

namespace Inspect.Station.Tests.Queue;

/// <summary>Who is called first, and how long it takes.</summary>
public sealed class CallingOrderTests
{
    private static readonly DateTimeOffset Now = new(2027, 3, 14, 12, 0, 0, TimeSpan.Zero);

    // The 45 minutes are this project's convention, no source.
    [Fact]
    public void Of_SquadWithin45Minutes_GoesAheadOfWhoCameEarlier()
    {
        Place[] places =
        [
            At(1, arrived: -50, begins: null), At(2, arrived: -40, begins: 46), At(3, arrived: -30, begins: 44),
            At(4, arrived: -20, begins: 20),
            At(5, arrived: -10, begins: 44), At(6, arrived: -5, begins: -10), At(7, arrived: -60, begins: -120),
            At(8, arrived: -4, begins: 45),
        ];

        Assert.Equal([6, 4, 3, 5, 7, 1, 2, 8], CallingOrder.Of(places, Now).Select(place => place.Id));
    }

    [Fact]
    public void Of_SameInstant_KeepsTheOrderOfTheDoor() =>
        Assert.Equal([1, 2, 3], CallingOrder.Of([At(3, -5, null), At(1, -5, null), At(2, -5, null)], Now).Select(place => place.Id));

    // L = lambda W (J. D. C. Little, Operations Research 9, 1961): 12 waiting at 16 an hour wait 45 minutes; 16 +/- 4 give 36 to 60.
    [Theory]
    [InlineData(12, 16, 60, 36, 60)]
    [InlineData(10, 25, 60, 20, 30)]
    [InlineData(6, 4, 20, 20, 60)]
    [InlineData(0, 0, 0, 0, 0)]
    public void Wait_Measured_IsQueueOverThroughput(int waiting, int finished, int minutes, int from, int to)
    {
        var pace = new Pace(0, 2, waiting, finished, TimeSpan.FromMinutes(minutes));

        Assert.Equal((from, to), pace.Wait());
        if (finished > 0)
        {
            Assert.InRange(waiting * (double)minutes / finished, from, to);
        }
    }

    [Theory]
    [InlineData(12, 3, 60, 2, "not known yet")]
    [InlineData(12, 16, 60, 0, "no table is open")]
    [InlineData(12, 16, 9, 2, "not known yet")]
    [InlineData(0, 0, 60, 0, "no wait")]
    [InlineData(12, 16, 60, 2, "36 to 60 min")]
    public void WaitWords_WithoutARate_SaySo(int waiting, int finished, int minutes, int tables, string words) =>
        Assert.Equal(words, new Pace(0, tables, waiting, finished, TimeSpan.FromMinutes(minutes)).WaitWords);

    [Theory]
    [InlineData("Aoife Brannock-Thorne", "Aoife B.")]
    [InlineData("Nguyễn Thị Bích Khuê", "Nguyễn K.")]
    [InlineData("Šárka Šedá", "Šárka Š.")]
    [InlineData("Mirembe", "Mirembe")]
    [InlineData(null, null)]
    public void Initial_OfAName_IsFirstNameAndOneLetter(string? name, string? shown) => Assert.Equal(shown, WallPage.Initial(name));

    private static Place At(long id, int arrived, int? begins) => new(
        id, $"{id}", "Somebody", "A", begins is { } minutes ? Now.AddMinutes(minutes) : null, PlaceState.Waiting, Now.AddMinutes(arrived),
        Now.AddMinutes(arrived), null, null);
}
