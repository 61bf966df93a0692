using System.Net.Http.Json;
using System.Text;
using System.Text.Json.Nodes;
using Inspect.Station.Desk;
using Inspect.Station.Prepare;
using Inspect.Station.Record;
using Inspect.Station.Storage;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Record;
using Microsoft.Extensions.DependencyInjection;

namespace Inspect.Station.Tests.Desk;

/// <summary>The CSV of a search, read by a reader written from the grammar of RFC 4180, section 2, and compared with the JSON of the same
/// search. What begins a formula: OWASP, CSV Injection.</summary>
public sealed class FoundCsvTests
{
    // What a spreadsheet would run, and what a careless writer would break on.
    private static readonly string[] Names =
        [
            "=cmd|' /C calc'!A0", "+1+2", "-2", "@SUM(A1)", "'quoted'", "Quill, \"Ann\"", "Ordinary Bowler", "Ångström, Åsa", "＝1+1", "\"",
            ","];

    [Fact]
    public async Task Csv_EveryRow_IsTheJsonOfTheSameSearch()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        await station.Services.GetRequiredService<WriteGate>().Run(write =>
        {
            foreach (var (index, name) in Names.Index())
            {
                Events.Enter(write, DemoEvent.Id, new NewEntry($"9{index:00}", name, null));
            }

            return 0;
        });
        foreach (var index in Enumerable.Range(0, Names.Length))
        {
            var sheet = index % 3 == 0 ? SampleSheets.TooHeavyOnTheLeft() : SampleSheets.Legal();
            sheet["ball"]!["serial"] = index % 2 == 0 ? $"=HYPERLINK(\"x\",{index})" : $"-{index},7";
            sheet.Remove(index % 4 == 0 ? "hardness" : "nothing");
            await director.Recorded(sheet, $"9{index:00}");
        }

        using var answer = await director.GetAsync("/api/inspections.csv?event=LANTERN");
        var bytes = await answer.Content.ReadAsByteArrayAsync();
        var table = ReadCsv(new UTF8Encoding(false, throwOnInvalidBytes: true).GetString(bytes));
        var json = (await director.GetFromJsonAsync<JsonObject>("/api/inspections?event=LANTERN&size=200"))!["inspections"]!.AsArray();

        Assert.Equal("text/csv", answer.Content.Headers.ContentType!.MediaType);
        Assert.Equal("utf-8", answer.Content.Headers.ContentType.CharSet);
        Assert.Equal("attachment", answer.Content.Headers.ContentDisposition!.DispositionType);
        Assert.Equal(Names.Length + 1, table.Count);
        Assert.Equal(Names.Length, json.Count);
        foreach (var (row, inspection) in table.Skip(1).Zip(json))
        {
            Assert.Equal(table[0].Count, row.Count);
            foreach (var (name, cell) in table[0].Zip(row))
            {
                Assert.DoesNotContain(cell.FirstOrDefault(), "=+-@＝＋－＠");
                Assert.Equal((name, Text(inspection![name])), (name, cell.StartsWith('\'') ? cell[1..] : cell));
            }

            Assert.Empty(inspection!.AsObject().Select(member => member.Key).Except(table[0]));
        }
    }

    [Fact]
    public async Task Csv_MoreThanOneHelping_HasEveryInspectionOnce()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        var first = (await director.Recorded(SampleSheets.Legal()))["number"]!.GetValue<string>();
        await station.Services.GetRequiredService<WriteGate>().Run(write =>
        {
            var body = JsonNode.Parse(Register.BodyOf(write.Connection, 1)!)!.AsObject();
            for (var running = 2; running <= 1234; running++)
            {
                var copy = body.DeepClone().AsObject();
                copy["number"] = $"LANTERN-{running:0000}";
                copy["code"] = $"C{running:000000000000}";
                copy.Remove("seq");
                copy.Remove("prior");
                Register.Append(write, InspectionBody.Kind, 1, copy);
            }

            return 0;
        });

        var table = ReadCsv(await director.GetStringAsync("/api/inspections.csv"));

        Assert.Equal(
            Enumerable.Range(1, 1234).Reverse().Select(running => $"LANTERN-{running:0000}"),
            table.Skip(1).Select(row => row[0]));
        Assert.Equal("LANTERN-0001", first);
    }

    [Fact]
    public void Row_CellsOfEveryKind_AreQuotedOnlyWhereNeeded()
    {
        var row = new FoundRow(
            1, "N-0001", "2027-03-14T09:26:53.589Z", "N", "1", "a,b", null, "say \"x\"", "=Kiln", "2027-03-14", "fail", null, "line\nbreak",
            null, null, "accept", "a b", "");

        Assert.Equal(
            "N-0001,2027-03-14T09:26:53.589Z,N,1,\"a,b\",,\"say \"\"x\"\"\",'=Kiln,2027-03-14,fail,ruled,accept,a "
                + "b,,,\"line\nbreak\",,\r\n", FoundCsv.Row(row));
    }

    private static string Text(JsonNode? member) => member switch
    {
        null => "",
        JsonArray list => string.Join(' ', list.Select(each => each!.GetValue<string>())),
        _ => member.GetValue<string>(),
    };

    // file = record *(CRLF record) [CRLF]; a field is escaped in quotes, or free of quotes, commas and line ends.
    private static List<List<string>> ReadCsv(string text)
    {
        var (table, at) = (new List<List<string>>(), 0);
        while (at < text.Length)
        {
            var row = new List<string>();
            do
            {
                row.Add(ReadField(text, ref at));
            }
            while (at < text.Length && text[at] == ',' && ++at > 0);

            Assert.True(at + 1 < text.Length && text[at] == '\r' && text[at + 1] == '\n', $"At {at} a record does not end in CRLF.");
            at += 2;
            table.Add(row);
        }

        return table;
    }

    private static string ReadField(string text, ref int at)
    {
        var field = new StringBuilder();
        if (text[at] != '"')
        {
            for (; at < text.Length && text[at] is not (',' or '\r' or '\n'); at++)
            {
                Assert.NotEqual('"', text[at]);
                field.Append(text[at]);
            }

            return field.ToString();
        }

        for (at++; ; at++)
        {
            if (text[at] != '"')
            {
                field.Append(text[at]);
            }
            else if (text[at + 1] == '"')
            {
                field.Append(text[at++]);
            }
            else
            {
                at++;
                return field.ToString();
            }
        }
    }
}
