using System.Text;
using Inspect.Station.Import;
using Inspect.Station.ModelLists;

namespace Inspect.Station.Tests.ModelLists;

/// <summary>Files with lists of models, as bodies and makers write them. The layouts are common practice, no source.</summary>
public class ModelListReadingTests
{
    [Fact]
    public void Read_WithARowForEachWeight_HasTheFiguresOfEach()
    {
        var read = Read("""
            Brand,Ball Name,Weight,RG,Diff,Int. Diff,Date Approved
            Ostrava Kiln,Nightjar,15 lb,2.480,0.050,0.015,2025-05-01
            Ostrava Kiln,Nightjar,14 lb,2.495,0.047,0.013,2025-05-01
            """);

        Assert.Equal(
            [
                new ModelRow("Ostrava Kiln", "Nightjar", From: new DateOnly(2025, 5, 1), Pounds: 15, Rg: "2.480 in",
                    Differential: "0.050 in", Intermediate: "0.015 in"),
                new ModelRow("Ostrava Kiln", "Nightjar", From: new DateOnly(2025, 5, 1), Pounds: 14, Rg: "2.495 in",
                    Differential: "0.047 in", Intermediate: "0.013 in"),
            ],
            read.Rows);
        Assert.Equal((1, 0), (read.Models, read.RefusedRows));
    }

    [Fact]
    public void Read_WithAColumnForEachWeight_HasTheSameFigures()
    {
        var read = Read("Maker;Model;RG 15;RG 14;Diff 15#;Diff 14 lbs\nOstrava Kiln;Nightjar;2,480;2,495;0,050;0,047");

        Assert.Equal(
            [
                new ModelRow("Ostrava Kiln", "Nightjar", Pounds: 14, Rg: "2.495 in", Differential: "0.047 in"),
                new ModelRow("Ostrava Kiln", "Nightjar", Pounds: 15, Rg: "2.480 in", Differential: "0.050 in"),
            ],
            read.Rows);
    }

    [Fact]
    public void Read_WithHeadsBelowATitle_FindsThem()
    {
        var read = Read(
            "List of balls,,\nas of March 2027,,\nManufacturer,Model,Status\nVellum,Sandpiper,Approved\nVellum,Dunlin,REVOKED\n");

        Assert.Equal([("Sandpiper", true), ("Dunlin", false)], read.Rows.Select(row => (row.Model, row.IsListed)));
    }

    [Fact]
    public void Read_WithRowsThatCannotBe_RefusesThemTogetherAndReadsTheOthers()
    {
        var read = Read("""
            maker,model,status,from,until,weight,rg
            Vellum,Sandpiper,pending,,,,
            Vellum,Dunlin,approved,31/31/2020,,,
            Vellum,,approved,,,,
            Vellum,Knot,approved,2020-05-01,2019-05-01,,
            Vellum,Ruff,approved,,,17,
            Vellum,Plover,approved,,,15,24.8
            Vellum,Turnstone,approved,,,15,2.50
            Vellum,Turnstone,approved,,,15,2.51
            """);

        Assert.Equal("Turnstone 2.50 in", Assert.Single(read.Rows) is var row ? $"{row.Model} {row.Rg}" : "");
        Assert.Equal(7, read.RefusedRows);
        Assert.Equal(
            [
                "A cell is no day, as 2027-03-14: \"31/31/2020\" in row 3.",
                "A row has no model: row 4.",
                "A row has other figures than an earlier one for the same model and weight: \"Turnstone\" in row 9.",
                "A status is none of the words that are known here, such as approved, revoked, yes or no: \"pending\" in row 2.",
                "A weight is no whole number of pounds from 4 to 16: \"17\" in row 6.",
                "Declared RG is no length from 2 in to 3.5 in: \"24.8\" in row 7.",
                "The last day comes before the first: \"2019-05-01\" in row 5.",
            ],
            read.Refused);
    }

    [Theory]
    [InlineData("2019", false, "2019-01-01")]
    [InlineData("2019", true, "2019-12-31")]
    [InlineData("Feb 2024", true, "2024-02-29")]
    [InlineData("14.3.2027", false, "2027-03-14")]
    [InlineData("14 March 2027", false, "2027-03-14")]
    [InlineData("March 14, 2027", false, "2027-03-14")]
    [InlineData("3/14/2027", false, "2027-03-14")]
    [InlineData("2027-03-14 00:00", false, "2027-03-14")]
    public void Day_IsRead(string text, bool isLast, string day) =>
        Assert.Equal(
            DateOnly.ParseExact(day, "yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture),
            ListedDay.Read(text, isLast, dayFirst: false));

    [Fact]
    public void Days_OfWhichOneCannotBeginWithTheMonth_BeginWithTheDay() =>
        Assert.Equal(
            [new DateOnly(2024, 4, 3), new DateOnly(2024, 12, 25)],
            Read("maker,model,from\nVellum,Knot,03/04/2024\nVellum,Ruff,25/12/2024").Rows.Select(row => row.From!.Value));

    [Theory]
    [InlineData("Night-Jar", "NIGHTJAR", true)]
    [InlineData("Nightjar +", "Nightjar", false)]
    [InlineData("Échassier", "echassier", true)]
    [InlineData("Nightjar II", "Nightjar 2", false)]
    public void Name_IsComparedWithoutCaseAccentsAndBlanks(string one, string other, bool isSame) =>
        Assert.Equal(isSame, ModelRow.KeyOf(one) == ModelRow.KeyOf(other));

    [Theory]
    [InlineData("approved,2025-05-01,2026-03-01", "2025-04-30", false)]
    [InlineData("approved,2025-05-01,2026-03-01", "2025-05-01", true)]
    [InlineData("approved,2025-05-01,2026-03-01", "2026-03-01", true)]
    [InlineData("approved,2025-05-01,2026-03-01", "2026-03-02", false)]
    [InlineData("approved,,", "2026-03-02", true)]
    [InlineData("revoked,,2027-01-01", "2026-03-02", false)]
    public void Model_IsListedFromItsFirstDayToItsLast(string row, string day, bool isListed) => Assert.Equal(
        isListed,
        Assert.Single(Read($"maker,model,status,from,until\nVellum,Knot,{row}").Rows)
            .IsListedOn(DateOnly.ParseExact(day, "yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture)));

    [Fact]
    public void Csv_OfTheSameRowsInAnotherOrder_IsTheSame()
    {
        var rows = Read("maker,model\nVellum,Knot\nVellum,Dunlin").Rows;

        Assert.Equal(ModelRow.Csv(rows), ModelRow.Csv(rows.Reverse()));
        Assert.Equal(rows.ToHashSet(), Read(ModelRow.Csv(rows)).Rows.ToHashSet());
    }

    private static ReadModels Read(string text)
    {
        Assert.True(new ImportFile("The list", Encoding.UTF8.GetBytes(text)).TryRead(null, out var table, out var fault), fault);
        var matching = ModelMatching.Of(table);
        var faults = new Inspect.Station.Web.Faults();
        matching.Check(faults);
        Assert.Empty(faults.All);
        return new ModelListReading(table, matching).Read();
    }
}
