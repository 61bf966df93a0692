using System.IO.Compression;
using System.Net.Http.Headers;
using System.Text;
using System.Text.RegularExpressions;
using Inspect.Benchmarks.Desk;
using Inspect.Station.Import;
using Inspect.Station.Prepare;
using Inspect.Station.Storage;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.DependencyInjection;
using Clock = System.Diagnostics.Stopwatch;

namespace Inspect.Benchmarks.Import;

/// <summary>A list of entries from the file to the last entry, as CSV and as a workbook, and how long recordings wait meanwhile; beside
/// the time that the engine takes to insert as many rows in one transaction.</summary>
internal static partial class ImportBenchmark
{
    private static readonly TimeSpan Pause = TimeSpan.FromMilliseconds(20);

    public static async Task Run(int rows)
    {
        var folder = Directory.CreateTempSubdirectory("inspect-benchmark-").FullName;
        try
        {
            var reference = Insert(Path.Combine(folder, "bare.db"), rows);
            Report.Line($"reference: {rows:N0} rows inserted in one transaction", reference, reference);
            await using var station = new BenchmarkStation(Path.Combine(folder, "station"));
            station.UseKestrel(0);
            using var director = await station.SignedIn("director");
            using var inspector = await station.SignedIn("inspector");

            // What is compiled is compiled before.
            await Longest("first", inspector, Task.Delay(TimeSpan.FromSeconds(2)), reference, isPrinted: false);
            await Longest("no list", inspector, Task.Delay(TimeSpan.FromSeconds(3)), reference, isPrinted: true);
            await Whole(station, director, inspector, (Csv(2000, "Bram"), "WARM", "list.csv"), reference, isPrinted: false);
            await Whole(station, director, inspector, (Csv(rows, "Oriel"), "CSV", "list.csv"), reference, isPrinted: true);
            await Whole(station, director, inspector, (Workbook(rows, "Petra"), "XLSX", "list.xlsx"), reference, isPrinted: true);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static async Task Whole(
        BenchmarkStation station, HttpClient director, HttpClient inspector, (byte[] Bytes, string Event, string Name) list,
        TimeSpan reference, bool isPrinted)
    {
        var held = DemoEvent.On(DemoEvent.Today(TimeProvider.System)) with { Id = list.Event, Name = list.Event };
        await station.Services.GetRequiredService<WriteGate>().Run(write => Events.TryAdd(write, held));
        var began = Clock.GetTimestamp();
        if (!new ImportFile(list.Name, list.Bytes).TryRead(null, out var table, out var fault))
        {
            throw new InvalidOperationException(fault);
        }

        var read = Clock.GetElapsedTime(began);
        began = Clock.GetTimestamp();
        var plan = station.Services.GetRequiredService<EntryImport>().Plan(held, table, Matcher.Of(table, held.Squads, _ => null));
        var planned = Clock.GetElapsedTime(began);
        if (isPrinted)
        {
            Print("read", read);
            Print($"plan, {plan.Added.Count:N0} to be added", planned);
        }

        began = Clock.GetTimestamp();
        var path = $"/events/{list.Event}/entries/add";
        using var form = new MultipartFormDataContent();
        foreach (var (name, value) in Hidden(await director.GetStringAsync(path)))
        {
            form.Add(new StringContent(value), name);
        }

        form.Add(new ByteArrayContent(list.Bytes), "file", list.Name);
        using var sent = await director.PostAsync(path, form);
        path = sent.RequestMessage!.RequestUri!.AbsolutePath;
        var page = await sent.Content.ReadAsStringAsync();
        if (isPrinted)
        {
            Print($"the file sent and previewed, {page.Length / 1000} kB", Clock.GetElapsedTime(began));
        }

        var (pressed, processor) = (Clock.GetTimestamp(), Environment.CpuUsage.TotalTime);
        var writing = Write(director, path, page);
        var written = Written(station, list.Event);
        var gate = LongestTurn(station, written);
        await Longest($"{list.Event}, meanwhile", inspector, written, reference, isPrinted);
        await writing;
        var there = station.Services.GetRequiredService<Events>().EntriesOf(list.Event).Count;
        if (isPrinted)
        {
            Report.Line($"another turn at the gate, {list.Event}, meanwhile: longest", await gate, reference);
            Print($"press to {there:N0} written", Clock.GetElapsedTime(pressed, await written));
            Print("press to the page that says so", Clock.GetElapsedTime(pressed, await writing));
            Print("the same, processor time, recordings with it", Environment.CpuUsage.TotalTime - processor);
            Print("read, matched, previewed and written", Clock.GetElapsedTime(began, await written));
        }

        void Print(string what, TimeSpan time) => Report.Line($"{list.Event}: {what}", time, reference);
    }

    // When the page comes that says that it is done.
    private static async Task<long> Write(HttpClient director, string path, string page)
    {
        var answer = await director.PostAsync(path, new FormUrlEncodedContent(
            Hidden(page).Select(each => KeyValuePair.Create(each.Name, each.Value))));
        while (answer.EnsureSuccessStatusCode().RequestMessage!.RequestUri is { } at
            && at.AbsolutePath.EndsWith("/progress", StringComparison.Ordinal))
        {
            await Task.Delay(100);
            answer.Dispose();
            answer = await director.GetAsync(at);
        }

        answer.Dispose();
        return Clock.GetTimestamp();
    }

    private static async Task<long> Written(BenchmarkStation station, string eventId)
    {
        var runs = station.Services.GetRequiredService<ImportRuns>();
        while (runs.Of(eventId) is null)
        {
            await Task.Delay(5);
        }

        await runs.Of(eventId)!.Ended;
        return Clock.GetTimestamp();
    }

    private static async Task<TimeSpan> LongestTurn(BenchmarkStation station, Task meanwhile)
    {
        var longest = TimeSpan.Zero;
        while (!meanwhile.IsCompleted)
        {
            var asked = Clock.GetTimestamp();
            await station.Services.GetRequiredService<WriteGate>().Run(_ => true);
            longest = TimeSpan.FromTicks(Math.Max(longest.Ticks, Clock.GetElapsedTime(asked).Ticks));
            await Task.Delay(Pause);
        }

        return longest;
    }

    private static async Task Longest(string when, HttpClient inspector, Task meanwhile, TimeSpan reference, bool isPrinted)
    {
        var times = new List<TimeSpan>();
        while (!meanwhile.IsCompleted)
        {
            using var message = new HttpRequestMessage(HttpMethod.Post, "/api/inspections")
            {
                Content = new StringContent(SampleSheets.Request(times.Count).ToJsonString(), new MediaTypeHeaderValue("application/json")),
            };
            message.Headers.Add("Idempotency-Key", $"{when.Replace(", ", "-", StringComparison.Ordinal).Replace(' ', '-')}-{times.Count}");
            var sent = Clock.GetTimestamp();
            using var answer = await inspector.SendAsync(message);
            answer.EnsureSuccessStatusCode();
            times.Add(Clock.GetElapsedTime(sent));
            await Task.Delay(Pause);
        }

        if (isPrinted)
        {
            times.Sort();
            Report.Line($"a recording, {when}: p50 of {times.Count}", times[times.Count / 2], reference);
            Report.Line($"a recording, {when}: longest", times[^1], reference);
        }
    }

    private static IEnumerable<(string Name, string Value)> Hidden(string page)
    {
        var main = page[page.IndexOf("<main", StringComparison.Ordinal)..];
        var form = main.Contains("name=\"seen\"", StringComparison.Ordinal)
            ? main[main.LastIndexOf("<form", main.IndexOf("name=\"seen\"", StringComparison.Ordinal), StringComparison.Ordinal)..] : main;
        return HiddenField().Matches(form[..form.IndexOf("</form>", StringComparison.Ordinal)])
            .Select(each => (Attribute(each.Value, "name"), Attribute(each.Value, "value")));
    }

    private static string Attribute(string tag, string name) => Regex.Match(tag, $"{name}=\"([^\"]*)\"").Groups[1].Value;

    private static byte[] Csv(int rows, string first) => Encoding.UTF8.GetBytes(
        string.Join('\n', Rows(rows, first).Select(cells => string.Join(',', cells))));

    private static IEnumerable<string[]> Rows(int rows, string first) => Enumerable.Range(1, rows)
        .Select(i => (string[])
            [$"{i}", $"{first}{i % 4000}", $"Tarnmoor{i}", $"{"ABC"[i % 3]}", $"{150 + (i % 90)}", $"bowler{i}@example.org"])
        .Prepend(["Number", "First name", "Last name", "Squad", "Average", "E-mail"]);

    // As little of a workbook as its standard asks for (ECMA-376, part 1, from memory).
    private static byte[] Workbook(int rows, string first)
    {
        using var bytes = new MemoryStream();
        using (var parts = new ZipArchive(bytes, ZipArchiveMode.Create))
        {
            const string Main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
            const string Office = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
            const string Package = "http://schemas.openxmlformats.org/package/2006";
            const string Kind = "application/vnd.openxmlformats-officedocument.spreadsheetml";
            Part("[Content_Types].xml", [$"""
                <Types xmlns="{Package}/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>
                <Override PartName="/xl/workbook.xml" ContentType="{Kind}.sheet.main+xml"/>
                <Override PartName="/xl/worksheets/sheet1.xml" ContentType="{Kind}.worksheet+xml"/></Types>
                """]);
            Part("_rels/.rels", [$"""
                <Relationships xmlns="{Package}/relationships"><Relationship Id="r1" Type="{Office}/officeDocument" Target="xl/workbook.xml"/></Relationships>
                """]);
            Part("xl/workbook.xml", [$"""
                <workbook xmlns="{Main}" xmlns:r="{Office}"><sheets><sheet name="List" sheetId="1" r:id="r1"/></sheets></workbook>
                """]);
            Part("xl/_rels/workbook.xml.rels", [$"""
                <Relationships xmlns="{Package}/relationships"><Relationship Id="r1" Type="{Office}/worksheet" Target="worksheets/sheet1.xml"/></Relationships>
                """]);
            Part("xl/worksheets/sheet1.xml", Rows(rows, first)
                .Select(cells => $"<row>{string.Concat(cells.Select(cell => $"<c t=\"inlineStr\"><is><t>{cell}</t></is></c>"))}</row>")
                .Prepend($"<worksheet xmlns=\"{Main}\"><sheetData>").Append("</sheetData></worksheet>"));

            void Part(string name, IEnumerable<string> texts)
            {
                using var part = new StreamWriter(parts.CreateEntry(name).Open());
                foreach (var text in texts)
                {
                    part.Write(text);
                }
            }
        }

        return bytes.ToArray();
    }

    private static TimeSpan Insert(string file, int rows)
    {
        using var connection = new SqliteConnection($"Data Source={file};Pooling=False");
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = "PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL; "
            + "CREATE TABLE entry (number TEXT NOT NULL PRIMARY KEY, name TEXT NOT NULL, squad TEXT NOT NULL) STRICT;";
        command.ExecuteNonQuery();
        var began = Clock.GetTimestamp();
        using var transaction = connection.BeginTransaction();
        using var insert = connection.CreateCommand();
        insert.CommandText = "INSERT INTO entry (number, name, squad) VALUES ($number, $name, $squad)";
        var (number, name, squad) = (insert.Parameters.Add("$number", SqliteType.Text), insert.Parameters.Add("$name", SqliteType.Text),
            insert.Parameters.Add("$squad", SqliteType.Text));
        foreach (var cells in Rows(rows, "Oriel").Skip(1))
        {
            (number.Value, name.Value, squad.Value) = (cells[0], $"{cells[1]} {cells[2]}", cells[3]);
            insert.ExecuteNonQuery();
        }

        transaction.Commit();
        return Clock.GetElapsedTime(began);
    }

    [GeneratedRegex("<input[^>]*type=\"hidden\"[^>]*>")]
    private static partial Regex HiddenField();
}
