using System.Net;
using System.Text;
using AngleSharp.Html.Dom;
using Inspect.Station.CommandLine;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Record;

namespace Inspect.Station.Tests.Prove;

/// <summary>An auditor who knows one key only, and a station whose key was changed twice since. The form of the
/// statements is defined by this project.</summary>
public sealed class KeyChangeTests
{
    [Fact]
    public async Task Verify_GrowthOverTwoKeyChanges_FollowsTheStatementsFromTheKeyGiven()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        var folder = Directory.CreateTempSubdirectory("inspect-keys-").FullName;
        await director.Recorded(SampleSheets.Legal());
        var first = await Download(director, "key.txt", folder, "key-1.txt");
        var kept = await Download(director, "checkpoint.txt", folder, "kept.txt");
        using var none = await director.GetAsync("/api/register/key-changes.txt");
        Assert.Equal(HttpStatusCode.NotFound, none.StatusCode);
        await Change(director);
        await Change(director);
        await director.Recorded(SampleSheets.Legal(), "102");
        var last = await Download(director, "key.txt", folder, "key-3.txt");
        var since = await Download(director, "since/1.txt", folder, "since.txt");
        var changes = await Download(director, "key-changes.txt", folder, "key-changes.txt");
        var export = Path.Combine(folder, "register.jsonl");
        await File.WriteAllBytesAsync(export, await director.GetByteArrayAsync("/api/register.jsonl"));

        var (code, said) = Verify(since, "--since", kept, "--key", first, "--changes", changes);
        Assert.True(code == 0, said);
        Assert.Contains("The earlier one is signed by the key you gave", said, StringComparison.Ordinal);
        Assert.Contains("The later one is signed by a later key, which the one you gave vouches for", said, StringComparison.Ordinal);
        Assert.Equal(0, Verify(since, "--since", kept, "--key", first, "--changes", export).Code);
        var (unlinked, why) = Verify(since, "--since", kept, "--key", first);
        Assert.Equal(1, unlinked);
        Assert.Contains("The later checkpoint is not signed by the key you gave", why, StringComparison.Ordinal);

        // The new key vouches for nothing that came before it.
        Assert.Equal(1, Verify(since, "--since", kept, "--key", last, "--changes", changes).Code);

        // Without the first statement the chain is broken; with a statement altered it is no chain at all.
        var text = await File.ReadAllTextAsync(changes);
        var second = text[(text.IndexOf("\n\nThe key of this register", StringComparison.Ordinal) + 2)..];
        Assert.Equal(1, Verify(since, "--since", kept, "--key", first, "--changes", await Write(folder, "second.txt", second)).Code);
        Assert.Equal(3, Verify(
            since, "--since", kept, "--key", first, "--changes",
            await Write(folder, "altered.txt", text.Replace("changes from", "changes to", StringComparison.Ordinal))).Code);
        Assert.Equal(3, Verify(since, "--since", kept, "--changes", changes).Code);

        var entry = await Download(director, "entries/1.json", folder, "entry.json");
        var proof = await Download(director, "entries/1.tlog-proof", folder, "entry.tlog-proof");
        Assert.Equal(1, Verify(proof, "--entry", entry, "--key", first).Code);
        Assert.Equal(0, Verify(proof, "--entry", entry, "--key", first, "--changes", changes).Code);
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task Page_GivenACheckpointKeptBeforeTheChange_SaysWhoSignedItAndThatTheRegisterOnlyGrew()
    {
        await using var station = new StationFixture();
        using var director = await station.Client("director");
        await using var elsewhere = new StationFixture();
        using var stranger = await elsewhere.Client("director");
        await director.Recorded(SampleSheets.Legal());
        await stranger.Recorded(SampleSheets.Legal());
        var first = (await director.GetStringAsync("/api/register/key.txt")).Trim();
        var kept = await director.GetStringAsync("/api/register/checkpoint.txt");
        var foreign = await stranger.GetStringAsync("/api/register/checkpoint.txt");
        await Change(director);
        var second = (await director.GetStringAsync("/api/register/key.txt")).Trim();

        var said = await Checked(director, kept, "");
        Assert.Contains("The checkpoint and the register agree", said, StringComparison.Ordinal);
        Assert.Contains("It is signed by key 1 of this station", said, StringComparison.Ordinal);
        Assert.Contains("agree", await Checked(director, kept, first), StringComparison.Ordinal);
        Assert.Contains("The checkpoint is signed by another key", await Checked(director, kept, second), StringComparison.Ordinal);
        Assert.Contains("It is signed by the key that signs now", await Checked(
            director, await director.GetStringAsync("/api/register/checkpoint.txt"), first), StringComparison.Ordinal);
        Assert.Contains("The checkpoint is not of this register", await Checked(director, foreign, ""), StringComparison.Ordinal);
        Assert.Contains("it was altered, or it is false", await Checked(
            director, kept.Replace("\n1\n", "\n2\n", StringComparison.Ordinal), ""), StringComparison.Ordinal);
    }

    private static async Task Change(HttpClient director)
    {
        using var changed = await director.Send(Form(await director.GetPage("/desk/register"), "/key"), ("sure", "yes"));
        Assert.Equal(HttpStatusCode.Redirect, changed.StatusCode);
    }

    private static async Task<string> Checked(HttpClient director, string file, string key)
    {
        var form = Form(await director.GetPage("/desk/register"), "/check");
        using var content = new MultipartFormDataContent
        {
            { new StringContent(
                form.QuerySelector("[name=__RequestVerificationToken]")!.GetAttribute("value")!), "__RequestVerificationToken" },
            { new StringContent(key), "key" },
            { new ByteArrayContent(Encoding.UTF8.GetBytes(file)), "export", "checkpoint.txt" },
        };
        using var answer = await director.PostAsync("/desk/register/check", content);
        return (await answer.Read()).QuerySelector("[role=status]")!.TextContent;
    }

    private static IHtmlFormElement Form(AngleSharp.Dom.IDocument page, string action) =>
        page.QuerySelectorAll("main form").OfType<IHtmlFormElement>().Single(one => one.Action.EndsWith(action, StringComparison.Ordinal));

    private static async Task<string> Download(HttpClient client, string path, string folder, string name)
    {
        var file = Path.Combine(folder, name);
        await File.WriteAllBytesAsync(file, await client.GetByteArrayAsync($"/api/register/{path}"));
        return file;
    }

    private static async Task<string> Write(string folder, string name, string text)
    {
        var file = Path.Combine(folder, name);
        await File.WriteAllTextAsync(file, text);
        return file;
    }

    private static (int Code, string Output) Verify(params string[] arguments)
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        return (VerifyVerb.Run(arguments, output, error), output.ToString() + error);
    }
}
