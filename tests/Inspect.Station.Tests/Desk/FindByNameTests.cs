using Inspect.Station.Access;
using Inspect.Station.Storage;
using Microsoft.Extensions.DependencyInjection;
using static Inspect.Station.Tests.Desk.DeskRecords;

namespace Inspect.Station.Tests.Desk;

/// <summary>Finding records by what people say: a name in any spelling, a number, a slip's code.
/// The behaviour is defined by this project; look-alikes and spellings are common practice, no source.</summary>
public sealed class FindByNameTests : IAsyncLifetime
{
    private readonly DeskRecords _on = new();

    public Task InitializeAsync() => _on.InitializeAsync();

    public Task DisposeAsync() => _on.DisposeAsync();

    [Theory]
    [InlineData("Tomás Ibarrondo Quell")]
    [InlineData("quell, tomas")]
    [InlineData("QUELL IBARRONDO TOMAS")]
    [InlineData("que tom")]
    [InlineData("Toma\u0301s Ibar")]
    public async Task Name_OtherAccentsCaseOrderOrPart_IsForgiven(string typed)
    {
        await _on.Finds($"q={Uri.EscapeDataString(typed)}", _on.Again, _on.Heavy);
        await _on.Finds($"bowler={Uri.EscapeDataString(typed)}", _on.Again, _on.Heavy);
    }

    [Fact]
    public async Task Name_LettersWithoutADecomposition_AreSpelledAsTyped() => await _on.Finds("q=thordis", _on.OfCup);

    [Fact]
    public async Task Name_OneWordForTwoTyped_IsNotEnough() => await _on.Finds("bowler=quell%20quell");

    [Fact]
    public async Task Name_Struck_IsFoundNoMoreAndLeavesNoWords()
    {
        await _on.Station.Services.GetRequiredService<WriteGate>().Run(write => Dapper.SqlMapper.Execute(
            write.Connection, "UPDATE person SET name = NULL, salt = NULL WHERE name LIKE 'Tom%'", null, write.Transaction));

        await _on.Finds("q=quell", _on.OfCup);
        await _on.Finds("entry=103", _on.Again, _on.Heavy);
        var row = (await _on.Answer("entry=103"))["inspections"]![0]!.AsObject();
        Assert.False(row.ContainsKey("bowler"));
        using var connection = _on.Station.Services.GetRequiredService<Database>().OpenForReading();
        Assert.Equal(0, Dapper.SqlMapper.ExecuteScalar<long>(connection, "SELECT count(*) FROM person_name_word WHERE word LIKE 'ibar%'"));
    }

    [Fact]
    public async Task NameWords_Rebuilt_AreTheSame()
    {
        var before = Words();
        await _on.Station.Services.GetRequiredService<WriteGate>().Run(write =>
        {
            Dapper.SqlMapper.Execute(
                write.Connection, "DELETE FROM person_name_word WHERE person IN (SELECT id FROM person LIMIT 5)", null, write.Transaction);
            return 0;
        });
        Assert.NotEqual(before, Words());

        await _on.Station.Services.GetRequiredService<WriteGate>().Run(NameWords.FillIn);
        Assert.Equal(before, Words());
        await _on.Station.Services.GetRequiredService<WriteGate>().Run(write =>
        {
            NameWords.Rebuild(write);
            return 0;
        });
        Assert.Equal(before, Words());

        List<string> Words()
        {
            using var connection = _on.Station.Services.GetRequiredService<Database>().OpenForReading();
            return [
                .. Dapper.SqlMapper.Query<string>(connection, "SELECT word || ' ' || person FROM person_name_word ORDER BY word, person")];
        }
    }

    [Fact]
    public async Task Number_WholeRunningOrInOneEvent_IsFound()
    {
        await _on.Finds($"q={Number(_on.Heavy)}", _on.Heavy);
        await _on.Finds("q=lantern-2", _on.Heavy);
        await _on.Finds("q=2&event=LANTERN", _on.Heavy);
        await _on.Finds("q=1", _on.OfCup, _on.Legal);
        await _on.Finds("q=1&event=CUP27", _on.OfCup);
        await _on.Finds("q=LANTERN-2&event=CUP27");
        await _on.Finds("q=LANTERN0002", _on.Heavy);
        await _on.Finds("q=cup271", _on.OfCup);
    }

    [Theory]
    [InlineData("entry 104")]
    [InlineData("Entry: 104")]
    [InlineData("#104")]
    [InlineData("no. 104")]
    [InlineData("serial QX 5501")]
    [InlineData("inspection LANTERN-4")]
    public async Task Number_WithTheWordThatIsSaidBeforeIt_IsFound(string typed) =>
        await _on.Finds($"q={Uri.EscapeDataString(typed)}", _on.Open);

    [Fact]
    public async Task Code_GroupedOrNotInAnyCase_IsFound()
    {
        var code = _on.Open["code"]!.GetValue<string>();
        await _on.Finds($"q={code}", _on.Open);
        await _on.Finds($"q={code.ToLowerInvariant()[..4]}-{code[4..8]}%20{code[8..13]}-{code[13..]}", _on.Open);
    }

    /// <summary>A scanner that acts as a keyboard types what the QR code on the slip holds.</summary>
    [Fact]
    public async Task Code_AsAScannerTypesIt_IsFound()
    {
        var code = _on.Open["code"]!.GetValue<string>();
        await _on.Finds($"q={Uri.EscapeDataString($"HTTPS://INSPECT.EXAMPLE/S/{code}")}", _on.Open);
        await _on.Finds($"q={Uri.EscapeDataString($"https://inspect.example/club/S/{code}/")}", _on.Open);
        await _on.Finds($"q={Uri.EscapeDataString("https://inspect.example/S/00000000000000")}");
    }
}
