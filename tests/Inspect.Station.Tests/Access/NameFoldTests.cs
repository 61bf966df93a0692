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
    [InlineData("hallmoor", "Rowan O’Hallmoor")]
    [InlineData("o hallmoor", "Rowan O'Hallmoor")]
    [InlineData("prysardal", "Gwenllian Prys-Ardal")]
    [InlineData("ardal", "Gwenllian Prys-Ardal")]
    [InlineData("stroemquist juergen", "Jürgen Strömquist")]
    [InlineData("strömqu", "Jürgen Stro\u0308mquist")]
    [InlineData("oegaard", "Ida Øgaard")]
    public void Matches_OtherAccentsCaseOrOrder_Found(string typed, string name) => Assert.True(NameFold.Matches(typed, name));

    [Theory]
    [InlineData("", "Mirembe")]
    [InlineData("rembe", "Mirembe")]
    [InlineData("mirembe mirembe", "Mirembe")]
    [InlineData("tomas quince", "Tomás Ibarrondo Quell")]
    [InlineData("ohallmoor hallmoor", "Rowan O’Hallmoor")]
    public void Matches_AnotherName_NotFound(string typed, string name) => Assert.False(NameFold.Matches(typed, name));
}
