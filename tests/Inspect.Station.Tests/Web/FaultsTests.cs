using Inspect.Station.Web;

namespace Inspect.Station.Tests.Web;

public class FaultsTests
{
    [Fact]
    public void ToErrors_SeveralAtOnePlace_StandTogetherInOrder()
    {
        var faults = new Faults();
        faults.Add("holes[0].depth", "first");
        faults.Add("play", "other");
        faults.Add("holes[0].depth", "second");

        var errors = faults.ToErrors();

        Assert.Equal(["holes[0].depth", "play"], errors.Keys);
        Assert.Equal(["first", "second"], errors["holes[0].depth"]);
        Assert.Equal("first", faults.At("holes[0].depth"));
        Assert.Null(faults.At("grip"));
    }

    [Theory]
    [InlineData("play", "play")]
    [InlineData("holes[0].depth", "holes-0--depth")]
    public void FieldId_IsSafeInALink(string path, string id) => Assert.Equal(id, FieldId.Of(path));
}
