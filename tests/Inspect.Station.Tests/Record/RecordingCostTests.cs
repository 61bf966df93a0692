using System.Net;
using System.Text.Json.Nodes;
using Dapper;
using Inspect.Ledger;
using Inspect.Rules.Judging;
using Inspect.Station.Prepare;
using Inspect.Station.Record;
using Inspect.Station.Storage;
using Inspect.Station.Tests.Ground;
using Microsoft.Extensions.DependencyInjection;

namespace Inspect.Station.Tests.Record;

/// <summary>What one recording costs at the write gate, where everybody waits for it, and that nothing is lost by preparing it before. The
/// bounds are this project's own.</summary>
public sealed class RecordingCostTests
{
    [Fact]
    public async Task Record_OneBall_TakesFewStatementsAndLittleMemoryAtTheGate()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        var gate = station.Services.GetRequiredService<WriteGate>();
        for (var i = 0; i < 40; i++)
        {
            await inspector.Recorded(SampleSheets.Legal());
        }

        var (statements, bytes) = (long.MaxValue, long.MaxValue);
        for (var i = 0; i < 10; i++)
        {
            var before = await Used(gate);
            await inspector.Recorded(SampleSheets.Legal());
            var after = await Used(gate);
            (statements, bytes) = (Math.Min(statements, after.Statements - before.Statements), Math.Min(bytes, after.Bytes - before.Bytes));
        }

        // Of the statements, eight begin and end a transaction: four of the recording, four of looking.
        Assert.InRange(statements, 1, 18);
        Assert.InRange(bytes, 1, 88_000);
    }

    [Fact]
    public async Task Record_EventChangesBetweenJudgingAndAppending_IsJudgedAgain()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        var gate = station.Services.GetRequiredService<WriteGate>();
        using var mayCommit = new ManualResetEventSlim();
        using var hasChanged = new ManualResetEventSlim();
        var guarded = JudgingTerms.None with { DecisionRule = DecisionRule.GuardedAcceptance(2) };

        // Until this turn commits, the recording reads the terms as they were; its own turn comes after.
        var change = gate.Run(write =>
        {
            EventTerms.Set(write, DemoEvent.Id, guarded, null, new Dictionary<string, int>());
            hasChanged.Set();
            mayCommit.Wait();
            return true;
        });
        hasChanged.Wait();
        var recording = inspector.Record(SampleSheets.Request(SampleSheets.Legal()));
        while (gate.Waiting == 0)
        {
            await Task.Delay(5);
        }

        mayCommit.Set();
        await change;
        using var answer = await recording;

        Assert.Equal(HttpStatusCode.Created, answer.StatusCode);
        using var connection = station.Services.GetRequiredService<Database>().OpenForReading();
        var body = JsonNode.Parse(Register.BodyOf(connection, 1)!)!;
        Assert.Equal("guarded-acceptance", body["terms"]!["decision"]!.GetValue<string>());
        Assert.Equal("guarded-acceptance", body["verdict"]!["decision"]!.GetValue<string>());
    }

    /// <summary>What is recorded names an event and an entry that are there when it is appended.</summary>
    [Theory]
    [InlineData("UPDATE entry SET withdrawn = 1", "Entry 101 is withdrawn, and no ball of it is measured; a director can bring it back.")]
    [InlineData("UPDATE entry SET entry = '901' WHERE entry = '101'", "There is no entry \"101\" in LANTERN any more.")]
    public async Task Record_EntryGoesBetweenJudgingAndAppending_IsRefused(string meanwhile, string said)
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        var gate = station.Services.GetRequiredService<WriteGate>();
        using var mayCommit = new ManualResetEventSlim();
        using var hasChanged = new ManualResetEventSlim();
        var change = gate.Run(write =>
        {
            Dapper.SqlMapper.Execute(write.Connection, meanwhile, null, write.Transaction);
            hasChanged.Set();
            mayCommit.Wait();
            return true;
        });
        hasChanged.Wait();
        var recording = inspector.Record(SampleSheets.Request(SampleSheets.Legal()));
        while (gate.Waiting == 0)
        {
            await Task.Delay(5);
        }

        mayCommit.Set();
        await change;
        using var answer = await recording;

        Assert.Equal(said, await answer.ProblemAt("entry"));
        Assert.Equal(0, gate.Head.Size);
    }

    [Fact]
    public async Task Record_Answer_IsNotKeptBesideTheRecord()
    {
        await using var station = new StationFixture();
        using var inspector = await station.Client("inspector");
        await inspector.Recorded(SampleSheets.Legal());

        using var connection = station.Services.GetRequiredService<Database>().OpenForReading();

        Assert.Equal(1, connection.ExecuteScalar<long>("SELECT count(*) FROM idempotency WHERE body IS NULL AND seq = 1"));
    }

    [Fact]
    public void Bytes_SheetAndVerdict_AreThoseOfTheSameJsonMadeCanonical()
    {
        var sheet = SampleSheets.Legal();
        sheet["ball"]!["maker"] = "Ostrava \u2028 Kiln \U0001F3B3 ½\"\\";
        sheet["weights"]!["leftRight"] = "3.01 oz";
        sheet["authority"] = "us-national";
        var read = Sheets.SheetReader.Read(System.Text.Encoding.UTF8.GetBytes(sheet.ToJsonString()), [])!;
        var verdict = SheetJudge.Judge(Station.Rulesets.RulesetBook.Open(null, [])!.Editions, read, [])!;

        var parts = BodyParts.Of(read, verdict);

        Assert.Equal(CanonicalJson.Write(Sheets.SheetJson.Write(read)), parts.Sheet.ToArray());
        Assert.Equal(CanonicalJson.Write(VerdictJson.Recorded(verdict, InspectionBody.Version)), parts.Verdict.ToArray());
        Assert.True(CanonicalJson.IsCanonical(parts.Sheet.Span) && CanonicalJson.IsCanonical(parts.Verdict.Span));
    }

    private static Task<(long Statements, long Bytes)> Used(WriteGate gate) => gate.Run(
        write => (((KeptStatements)write.Connection).Runs, GC.GetAllocatedBytesForCurrentThread()));
}
