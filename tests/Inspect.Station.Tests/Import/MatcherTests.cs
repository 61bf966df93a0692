using System.Text;
using Inspect.Station.Import;
using Inspect.Station.Prepare;
using Inspect.Station.Tests.Ground;

namespace Inspect.Station.Tests.Import;

/// <summary>What the columns of a list are taken for. The habits are common practice, no source.</summary>
public class MatcherTests
{
    private static readonly IReadOnlyList<Squad> Squads = DemoEvent.On(StationClock.Today).Squads;

    [Theory]
    [InlineData("number,name,squad\n1,Oriel Tarn,A", 1, "number name squad")]
    [InlineData("Squad;Bowler Name;Entry No.\nA;Oriel Tarn;7", 1, "squad name number")]
    [InlineData("Nom;Prénom;Numéro\nTarn;Oriel;7", 1, "last-name first-name number")]
    [InlineData("Nombre;Apellidos;Dorsal\nOriel;Tarn;7", 1, "first-name last-name number")]
    [InlineData("#,Player,Membership number\n1,Oriel Tarn,88123", 1, "number name ignored")]
    [InlineData("Name,Club,Average\nOriel Tarn,North,180", 1, "name ignored ignored")]
    [InlineData("Name\nOriel Tarn\nBram Tarn", 1, "name")]
    [InlineData("name,number\n\"Tarn, Oriel\",7\n\"Tarn, Bram, Jr.\",8", 1, "last-first number")]
    [InlineData("7,Oriel Tarn,A\n8,Bram Tarn,B", null, "number name squad")]
    [InlineData("Oriel Tarn\tA\t7\r\nBram Tarn\tB\t8", null, "name squad number")]
    [InlineData("7,Oriel,Tarn,A\r8,Bram,Tarn,B", null, "number first-name last-name squad")]
    [InlineData("Tarn, Oriel\nAsh, Bram", null, "last-name first-name")]
    [InlineData("Rata;Pelaaja\n5;Bram Tarn\n6;Petra Tarn\n7;Idris Tarn\n8;Oriel Tarn\n9;Una Tarn", 1, "number name")]
    [InlineData("7,oriel@post.example,180,Oriel Tarn\n8,bram@post.example,190,Bram Tarn", null, "number ignored ignored name")]
    public void Of_AList_FindsHeadsAndColumns(string text, int? headsRow, string columns)
    {
        var matching = Matcher.Of(Read(text), Squads, _ => null);

        Assert.Equal((headsRow, columns), (matching.HeadsRow, string.Join(' ', matching.Columns.Select(column => column.Word()))));
    }

    [Fact]
    public void Of_AnEventWithoutSquads_LeavesTheirColumnOut()
    {
        var table = Read("number,name,squad\n1,Oriel Tarn,A");

        Assert.Equal(ImportColumn.Ignored, Matcher.Of(table, [], _ => null).Columns[2]);
        Assert.Equal(
            ImportColumn.Ignored,
            Matcher.Of(table, [], _ => [ImportColumn.Number, ImportColumn.Name, ImportColumn.Squad]).Columns[2]);
    }

    [Theory]
    [InlineData("Quince, Bartholomew", "Bartholomew Quince")]
    [InlineData("Quince, Bartholomew, Jr.", "Bartholomew Quince Jr.")]
    [InlineData("Quince, III", "Quince, III")]
    [InlineData("Bartholomew Quince", "Bartholomew Quince")]
    [InlineData("van der Maas, Noor", "Noor van der Maas")]
    public void FirstLast_AName_IsTurnedRound(string written, string said) => Assert.Equal(said, PersonName.FirstLast(written));

    [Theory]
    [InlineData("-- vacant --", true)]
    [InlineData("VACANCY 12", true)]
    [InlineData("To be announced", true)]
    [InlineData("n/a", true)]
    [InlineData("?", true)]
    [InlineData("Bye", true)]
    [InlineData("Openshaw, Bye", false)]
    [InlineData("Vacantia Tarn", false)]
    public void IsFree_AName_SaysSo(string name, bool isFree) => Assert.Equal(isFree, PersonName.IsFree(name));

    private static ImportTable Read(string text)
    {
        Assert.True(new ImportFile("The list", Encoding.UTF8.GetBytes(text)).TryRead(null, out var table, out var fault), fault);
        return table;
    }
}
