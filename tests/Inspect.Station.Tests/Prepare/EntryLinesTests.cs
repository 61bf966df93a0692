using Inspect.Station.Access;
using Inspect.Station.Prepare;
using Inspect.Station.Web;

namespace Inspect.Station.Tests.Prepare;

/// <summary>Pasted entries. Commas and quotes as RFC 4180, section 2; heads, tabs and messages are this project's own.</summary>
public class EntryLinesTests
{
    private static readonly Event Into = DemoEvent.On(new DateOnly(2027, 3, 14));

    [Theory]
    [InlineData("7, Mirembe, A", "7", "Mirembe", "A")]
    [InlineData("7\tMirembe\tA", "7", "Mirembe", "A")]
    [InlineData("7,Mirembe", "7", "Mirembe", null)]
    [InlineData("7,Mirembe,", "7", "Mirembe", null)]
    [InlineData("7, \"Quince, Bartholomew\", b", "7", "Quince, Bartholomew", "B")]
    [InlineData("7,\"Bartholomew \"\"Bart\"\" Quince\",B", "7", "Bartholomew \"Bart\" Quince", "B")]
    [InlineData("7,Bartholomew \"Bart\" Quince,B", "7", "Bartholomew \"Bart\" Quince", "B")]
    [InlineData("7\tQuince, Bartholomew\tB", "7", "Quince, Bartholomew", "B")]
    [InlineData("Squad,Name,Number\r\nB,Łucja Wierzbosz,W-7\r\n", "W-7", "Łucja Wierzbosz", "B")]
    [InlineData("\uFEFFnumber,name\n\n7,Mirembe", "7", "Mirembe", null)]
    public void Read_OneGoodLine_IsTheEntry(string text, string number, string bowler, string? squad)
    {
        var (entries, faults) = Read(text);

        Assert.Empty(faults.All);
        Assert.Equal(new NewEntry(number, bowler, squad), Assert.Single(entries));
    }

    [Theory]
    [InlineData("7", "Line 1: \"7\" has one part; write number, name and squad, and put a name with a comma in quotes.")]
    [InlineData("7,Quince,Bartholomew,B", "Line 1: \"7, Quince, Bartholomew, B\" has 4 parts; write number, name and squad, and put a "
        + "name with a comma in quotes.")]
    [InlineData("7,\"Mirembe,A", "Line 1: the quotes of \"Mirembe,A are not closed before the next part; write \"like, this\" and a "
        + "quote within as \"\".")]
    [InlineData("7,\"Mirembe\" A,B", "Line 1: the quotes of \"Mirembe\" A,B are not closed before the next part; write \"like, this\" "
        + "and a quote within as \"\".")]
    [InlineData("7/8,Mirembe,A", "Line 1: \"7/8\" is not an entry number; give 1 to 12 letters A to Z, digits or hyphens.")]
    [InlineData(
        "1234567890123,Mirembe,A", "Line 1: \"1234567890123\" is not an entry number; give 1 to 12 letters A to Z, digits or hyphens.")]
    [InlineData("Add,Mirembe,A", "Line 1: \"Add\" cannot be an entry number here; give another one.")]
    [InlineData("7,,A", "Line 1: entry \"7\" has no name that can be used; give one of 1 to 200 characters.")]
    [InlineData("\n7,Mirembe,D", "Line 2: there is no squad \"D\" in Quillhaven Lantern Open; it has A, B, C.")]
    [InlineData("101,Mirembe,A", "Line 1: entry \"101\" is already in Quillhaven Lantern Open, for Aoife Brannock-Thorne; take the "
        + "line out, or give another number.")]
    [InlineData("7,Mirembe,A\n7,Rowan,B", "Line 2: entry \"7\" is in line 1 already; give each bowler a different number.")]
    [InlineData(
        "number,name,club\n7,Mirembe,A", "Line 1: \"club\" is not a column head, or is there twice; the heads are number, name and squad.")]
    [InlineData("number,name", "Give at least one entry, as 101, Name of the bowler, A.")]
    [InlineData(" \n ", "Give at least one entry, as 101, Name of the bowler, A.")]
    public void Read_OneFault_SaysWhichLineAndWhatWouldBeRight(string text, string message)
    {
        var (_, faults) = Read(text);

        Assert.Equal((EntryLines.Field, message), Assert.Single(faults.All));
    }

    [Fact]
    public void Read_SeveralFaults_NamesEveryLine()
    {
        var (_, faults) = Read("7,Mirembe,A\n8,,A\n9,Rowan,D\n7,Rowan,B\n");

        Assert.Equal(["Line 2", "Line 3", "Line 4"], faults.All.Select(fault => fault.Message[..6]));
    }

    private static (IReadOnlyList<NewEntry> Entries, Faults Faults) Read(string text)
    {
        var faults = new Faults();
        return (EntryLines.Read(text, Into, [new Entry("101", PersonId.New(), "Aoife Brannock-Thorne", "A")], faults), faults);
    }
}
