using System.Net;
using System.Text;
using AngleSharp.Html.Dom;
using Dapper;
using Inspect.Ledger;
using Inspect.Station.CommandLine;
using Inspect.Station.Storage;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Record;
using Microsoft.Extensions.DependencyInjection;

namespace Inspect.Station.Tests.Prove;

/// <summary>What a director hands out and an outsider checks: RFC 6962 trees, C2SP signed notes, tlog-proof
/// and the witness form of growth.</summary>
public sealed class ProveTests(SharedStation shared) : IClassFixture<SharedStation>
{
    [Fact]
    public async Task EntryProof_Downloaded_IsCheckedWithTheKeyAloneAndNotForAnotherEntry()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        for (var i = 0; i < 5; i++)
        {
            await director.Recorded(SampleSheets.Legal(), $"{101 + i}");
        }

        var folder = Directory.CreateTempSubdirectory("inspect-prove-").FullName;
        var key = await Download(director, "/api/register/key.txt", folder);
        var entry = await Download(director, "/api/register/entries/3.json", folder);
        var other = await Download(director, "/api/register/entries/4.json", folder);
        var proof = await Download(director, "/api/register/entries/3.tlog-proof", folder);

        Assert.Equal(0, Verify(proof, "--entry", entry, "--key", key).Code);
        var (code, said) = Verify(proof, "--entry", other, "--key", key);
        Assert.Equal(1, code);
        Assert.Contains("is not entry 3", said, StringComparison.Ordinal);
        Assert.Equal(3, Verify(proof, "--entry", entry).Code);
        Assert.Equal(3, Verify(entry, "--entry", entry, "--key", key).Code);
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task KeptCheckpoint_AndGrowthSince_ShowThatTheRegisterOnlyGrew()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        await director.Recorded(SampleSheets.Legal());
        await director.Recorded(SampleSheets.Legal(), "102");
        var page = await director.GetPage("/desk/register");
        var keep = page.QuerySelectorAll("main form")
            .OfType<IHtmlFormElement>().Single(form => form.Action.EndsWith("/checkpoints", StringComparison.Ordinal));
        using var kept = await director.Send(keep);
        using var again = await director.Send(keep);
        Assert.Equal((HttpStatusCode.Redirect, HttpStatusCode.Redirect), (kept.StatusCode, again.StatusCode));
        await director.Recorded(SampleSheets.Legal(), "103");

        var folder = Directory.CreateTempSubdirectory("inspect-prove-").FullName;
        var key = await Download(director, "/api/register/key.txt", folder);
        var old = await Download(director, "/api/register/checkpoints/2.txt", folder);
        var since = await Download(director, "/api/register/since/2.txt", folder);

        var (code, said) = Verify(since, "--since", old, "--key", key);
        Assert.Equal(0, code);
        Assert.Contains("begins with the 2 entries", said, StringComparison.Ordinal);
        Assert.Equal(1, Verify(since, "--since", await Download(director, "/api/register/checkpoint.txt", folder), "--key", key).Code);
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task Slip_Asked_AgreesAndDiffersOnceAnEntryWasAltered()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        await director.Recorded(SampleSheets.Legal());
        await director.Recorded(SampleSheets.Legal(), "102");
        var printed = station.Services.GetRequiredService<WriteGate>().Head;
        await director.Recorded(SampleSheets.Legal(), "103");
        var root = printed.Edge.Root.ToString()[..12];

        Assert.Contains("agree", await Asked("2", root), StringComparison.Ordinal);
        Assert.Contains("agree", await Asked("2", root.ToUpperInvariant()), StringComparison.Ordinal);
        Assert.Contains("differ", await Asked("2", "000000000000"), StringComparison.Ordinal);
        Assert.Contains("has more entries", await Asked("4,182", root), StringComparison.Ordinal);

        // Somebody with the file in hand and a tool for it: past the triggers, the leaf of an altered entry.
        using (var connection = station.Services.GetRequiredService<Database>().OpenForWriting())
        {
            connection.Execute(
                "DROP TRIGGER register_entry_never_changed; UPDATE register_entry SET leaf_hash = zeroblob(32) WHERE seq = 1;");
        }

        Assert.Contains("differ", await Asked("2", root), StringComparison.Ordinal);

        async Task<string> Asked(string size, string beginning) =>
            (await director.GetPage($"/desk/register?size={size}&root={beginning}")).QuerySelector("[role=status] h2")!.TextContent;
    }

    [Theory]
    [InlineData("size=x&root=2812df3c94da", "size")]
    [InlineData("size=0&root=2812df3c94da", "size")]
    [InlineData("size=2&root=28", "root")]
    [InlineData("size=2&root=ghijklmnopqr", "root")]
    [InlineData("size=&root=", "size")]
    public async Task Slip_AskedInNonsense_SaysWhatIsWrong(string query, string field)
    {
        var station = shared.Station;
        using var director = await station.Client("director");

        Assert.NotNull((await director.GetPage($"/desk/register?{query}")).FaultAt(field));
    }

    [Fact]
    public async Task Check_Upload_NamesTheFirstBrokenEntryAndKeepsNothing()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        await director.Recorded(SampleSheets.Legal());
        await director.Recorded(SampleSheets.TooHeavyOnTheLeft(), "102");
        var export = await director.GetStringAsync("/api/register.jsonl");
        var key = (await director.GetStringAsync("/api/register/key.txt")).Trim();

        Assert.Contains("The export is whole", await Checked(export, key), StringComparison.Ordinal);
        Assert.Contains("the signer is unproven", await Checked(export, ""), StringComparison.Ordinal);
        var broken = await Checked(export.Replace("-3.25 oz", "-2.25 oz", StringComparison.Ordinal), key);
        Assert.Contains("The export is broken", broken, StringComparison.Ordinal);
        Assert.Contains("ntry 2", broken, StringComparison.Ordinal);
        Assert.Contains("is not the public key of a station", await Checked(export, "not a key"), StringComparison.Ordinal);
        Assert.Contains("The export is broken", await Checked("not a register\n", key), StringComparison.Ordinal);
        Assert.Contains("Choose the exported file", await Checked("", key), StringComparison.Ordinal);

        async Task<string> Checked(string text, string typedKey)
        {
            var page = await director.GetPage("/desk/register");
            var form = page.QuerySelectorAll("main form")
                .OfType<IHtmlFormElement>().Single(one => one.Action.EndsWith("/check", StringComparison.Ordinal));
            using var content = new MultipartFormDataContent
            {
                { new StringContent(
                    form.QuerySelector("[name=__RequestVerificationToken]")!.GetAttribute("value")!), "__RequestVerificationToken" },
                { new StringContent(typedKey), "key" },
                { new ByteArrayContent(Encoding.UTF8.GetBytes(text)), "export", "register.jsonl" },
            };
            using var answer = await director.PostAsync("/desk/register/check", content);
            return (await answer.Read()).QuerySelector("main")!.TextContent;
        }
    }

    [Fact]
    public async Task Key_Changed_TheOldVouchesForTheNewAndPressingTwiceChangesItOnce()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        await director.Recorded(SampleSheets.Legal());
        var first = (await director.GetStringAsync("/api/register/key.txt")).Trim();
        var page = await director.GetPage("/desk/register");
        var form = page.QuerySelectorAll("main form")
            .OfType<IHtmlFormElement>().Single(one => one.Action.EndsWith("/key", StringComparison.Ordinal));

        using var unsure = await director.Send(form);
        using var changed = await director.Send(form, ("sure", "yes"));
        using var twice = await director.Send(form, ("sure", "yes"));
        var second = (await director.GetStringAsync("/api/register/key.txt")).Trim();

        Assert.Equal(HttpStatusCode.UnprocessableEntity, unsure.StatusCode);
        Assert.Equal(HttpStatusCode.Redirect, changed.StatusCode);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, twice.StatusCode);
        Assert.NotEqual(first, second);
        Assert.True(PublicKey.TryParse(first, out var old));
        using var export = new MemoryStream(await director.GetByteArrayAsync("/api/register.jsonl"));
        var finding = RegisterCheck.Check(export, old);
        Assert.True(finding is { IsSound: true, IsSignerProven: true }, finding.Sentence);
    }

    [Theory]
    [InlineData("/api/register/key.txt")]
    [InlineData("/api/register/entries/1.json")]
    [InlineData("/api/register/entries/1.tlog-proof")]
    [InlineData("/api/register/since/1.txt")]
    public async Task Register_ForAnInspector_IsRefused(string path)
    {
        var station = await WithOneRecord();
        using var inspector = await station.Client("inspector");

        using var answer = await inspector.GetAsync(path);

        Assert.Equal(HttpStatusCode.Forbidden, answer.StatusCode);
    }

    [Theory]
    [InlineData("/api/register/entries/2.json")]
    [InlineData("/api/register/entries/2.tlog-proof")]
    [InlineData("/api/register/entries/0.tlog-proof")]
    [InlineData("/api/register/since/2.txt")]
    [InlineData("/api/register/checkpoints/1.txt")]
    public async Task Register_BeyondWhatIsThere_IsNotFound(string path)
    {
        var station = await WithOneRecord();
        using var director = await station.Client("director");

        using var answer = await director.GetAsync(path);

        Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
    }

    private static async Task<string> Download(HttpClient client, string path, string folder)
    {
        var file = Path.Combine(folder, path[1..].Replace('/', '-'));
        await File.WriteAllBytesAsync(file, await client.GetByteArrayAsync(path));
        return file;
    }

    private static (int Code, string Output) Verify(params string[] arguments)
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        return (VerifyVerb.Run(arguments, output, error), output.ToString() + error);
    }

    private Task<StationFixture> WithOneRecord() => shared.After(async station =>
    {
        using var inspector = await station.Client("inspector");
        await inspector.Recorded(SampleSheets.Legal());
    });
}
