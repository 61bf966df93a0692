using Inspect.Station.Access;

namespace Inspect.Station.Tests.Access;

// Common practice of registration desks, no source; the decompositions are Unicode's (UAX 15, NFKD).
public sealed class NameFoldTests
{
    [Theory]
    [InlineData("lucja", "Łucja Wierzbosz")]
    [InlineData("quell tomas", "Tomás Ibarrondo Quell")]
    [InlineData("THORD", "Þórdís Eldhamar")]
    [InlineData("ohall", "Rowan O’Hallmoor")]
    [InlineData("o'hallmoor ro", "Rowan O’Hallmoor")]
    [InlineData("thorne", "Aoife Brannock-Thorne")]
    [InlineData("Khuê", "Nguyễn Thị Bích Khuê")]
    [InlineData("khue nguyen", "Nguyễn Thị Bích Khuê")]
    [InlineData("nahulu", "Kaipo Nāhulu")]
    [InlineData("oṣun", "Oṣunkẹmi Balewande")]
    public void Matches_OtherAccentsCaseOrOrder_Found(string typed, string name) => Assert.True(NameFold.Matches(typed, name));

    [Theory]
    [InlineData("", "Mirembe")]
    [InlineData("rembe", "Mirembe")]
    [InlineData("mirembe mirembe", "Mirembe")]
    [InlineData("tomas quince", "Tomás Ibarrondo Quell")]
    public void Matches_AnotherName_NotFound(string typed, string name) => Assert.False(NameFold.Matches(typed, name));
}
