using System.IO.Compression;
using System.Net;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json.Nodes;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using Inspect.Ledger;
using Inspect.Station.Close;
using Inspect.Station.CommandLine;
using Inspect.Station.Prepare;
using Inspect.Station.Storage;
using Inspect.Station.Tests.Ground;
using Inspect.Station.Tests.Record;
using Microsoft.Extensions.DependencyInjection;

namespace Inspect.Station.Tests.Close;

/// <summary>The archive of an event, checked without the station. The hashes in it are worked out anew by the framework; the behaviour is
/// defined by this project.</summary>
public sealed class ArchiveTests(ArchiveTests.Made made) : IClassFixture<ArchiveTests.Made>
{
    [Fact]
    public void Archive_AsTaken_IsWholeAndSignedByTheStation()
    {
        var finding = Check(made.Plain, made.Key);

        Assert.True(finding.IsWhole, string.Join('\n', finding.Wrong));
        Assert.StartsWith("The archive of LANTERN, made 2026-11-2", finding.Sentences[0], StringComparison.Ordinal);
        Assert.Contains("with 2 inspections and the rules that they name.", finding.Sentences[0], StringComparison.Ordinal);
        Assert.Equal("The 3 entries agree with their checkpoint, signed by the key you gave.", finding.Sentences[1]);
        Assert.Contains("the signer is unproven", Check(made.Plain).Sentences[^1], StringComparison.Ordinal);
    }

    [Fact]
    public void Archive_ReadByOtherMeans_HasWhatItsManifestSays()
    {
        using var zip = new ZipArchive(new MemoryStream(made.Plain));
        var lines = Text(made.Plain, "manifest.txt").Split('\n').Where(line => line.StartsWith("file ", StringComparison.Ordinal)).ToList();

        Assert.Equal(zip.Entries.Count - 1, lines.Count);
        Assert.All(lines.Select(line => line.Split(' ')), parts =>
        {
            var bytes = Bytes(made.Plain, parts[3]);
            Assert.Equal((parts[1], parts[2]), (Convert.ToHexStringLower(SHA256.HashData(bytes)), $"{bytes.Length}"));
        });
        Assert.Equal(
            [
                "register.jsonl", "checkpoint.txt", "key.txt", "keys.txt", "event.json", "editions/us-national/2020-08-01.2.json",
                "manifest.txt",
            ],
            zip.Entries.Select(entry => entry.FullName));
        Assert.Equal(
            File.ReadAllBytes(Path.Combine(Repository.Root, "rulesets", "us-national", "2020-08-01.2", "ruleset.json")),
            Bytes(made.Plain, "editions/us-national/2020-08-01.2.json"));
        Assert.True(RegisterCheck.Check(new MemoryStream(Bytes(made.Plain, "register.jsonl"))).IsSound);
        var told = JsonNode.Parse(Text(made.Plain, "event.json"))!;
        Assert.Equal(24, told["entries"]!.AsArray().Count);
        Assert.Equal("7TT01884", Assert.Single(told["balls"]!.AsArray())!["serial"]!.GetValue<string>());
        Assert.Equal("LANTERN-0001", Assert.Single(told["custody"]!.AsArray())!["number"]!.GetValue<string>());
    }

    [Fact]
    public void Archive_NamesAndReports_AreInItOnlyWhereAskedFor()
    {
        Assert.DoesNotContain("Aoife", string.Concat(Names(made.Plain).Select(name => Text(made.Plain, name))), StringComparison.Ordinal);
        Assert.Contains("Aoife Brannock-Thorne", Text(made.Named, "event.json"), StringComparison.Ordinal);
        Assert.StartsWith("%PDF", Text(made.Named, "reports/LANTERN-R000002.pdf"), StringComparison.Ordinal);
        Assert.True(Check(made.Named, made.Key).IsWhole);
        Assert.Equal("Hollis Vantreight", made.Taken!.By);
    }

    /// <summary>One bit of each file is another, in the file as it is unpacked.</summary>
    [Fact]
    public void Bit_FlippedInAnyFile_IsNamed()
    {
        foreach (var name in Names(made.Named))
        {
            var bytes = Bytes(made.Named, name);
            bytes[bytes.Length / 2] ^= 1;

            var finding = Check(With(made.Named, name, bytes), made.Key);

            Assert.False(finding.IsWhole, name);
            var said = name == "manifest.txt" ? "manifest" : $"\"{name}\"";
            Assert.Contains(finding.Wrong, wrong => wrong.Contains(said, StringComparison.Ordinal));
        }
    }

    /// <summary>A byte of the ZIP file itself is another: the check says so, or the file reads as before; it never throws.</summary>
    [Fact]
    public void Byte_ChangedAnywhereInTheFile_NeverMakesAnotherArchive()
    {
        var broken = 0;
        for (var at = 0; at < made.Plain.Length; at += 97)
        {
            var bytes = made.Plain.ToArray();
            bytes[at] ^= 0x55;

            var finding = Check(bytes, made.Key);

            broken += finding.IsWhole ? 0 : 1;
            Assert.True(!finding.IsWhole || Names(bytes).All(name => Bytes(bytes, name).AsSpan().SequenceEqual(Bytes(made.Plain, name))));
        }

        Assert.True(broken > made.Plain.Length / 97 / 2);
    }

    [Fact]
    public void File_LeftOutAddedSwappedOrTwice_IsNamed()
    {
        foreach (var name in Names(made.Named).Except(["manifest.txt", "key.txt"]))
        {
            Assert.Contains(
                $"\"{name}\" is in the manifest and not in the archive.", Check(With(made.Named, name, null), made.Key).Wrong);
        }

        Assert.Equal(["\"more.txt\" is in the archive and not in its manifest."], Check(With(made.Plain, "more.txt", [1])).Wrong);
        var swapped = With(With(made.Plain, "event.json", Bytes(made.Plain, "keys.txt")), "keys.txt", Bytes(made.Plain, "event.json"));
        Assert.Equal(
            2, Check(swapped).Wrong.Count(wrong => wrong.Contains("has other bytes than the manifest says", StringComparison.Ordinal)));
        using var twice = new MemoryStream();
        twice.Write(made.Plain);
        using (var zip = new ZipArchive(twice, ZipArchiveMode.Update, leaveOpen: true))
        {
            using var again = zip.CreateEntry("event.json").Open();
            again.Write("{}"u8);
        }

        Assert.Equal(["\"event.json\" is in the archive more than once."], Check(twice.ToArray()).Wrong);
    }

    [Fact]
    public void Manifest_SignedByAnotherKey_IsRefused()
    {
        using var other = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        Assert.True(ArchiveManifest.TryParse(Text(made.Plain, "manifest.txt"), out var manifest, out _));
        var key = PublicKey.Of(other, made.Key.Name);

        var signed = With(made.Plain, "manifest.txt", Signed(manifest, other));
        Assert.Contains("The manifest is not signed by the key in \"key.txt\".", Check(signed).Wrong);

        // Even with that key in the archive, the register is signed by the station's.
        var bytes = Encoding.UTF8.GetBytes(key.Text + "\n");
        var fits = manifest with { Files = [.. manifest.Files.Select(file => file.Name == "key.txt" ? Of("key.txt", bytes) : file)] };
        var both = With(With(made.Plain, "key.txt", bytes), "manifest.txt", Signed(fits, other));
        Assert.Equal(["The register is signed by another key than the manifest."], Check(both).Wrong);
        Assert.False(Check(made.Plain, key).IsWhole);
    }

    [Fact]
    public void Rules_ThatAreNotThoseOfTheInspections_AreNamedThoughTheManifestFits()
    {
        using var other = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        Assert.True(ArchiveManifest.TryParse(Text(made.Named, "manifest.txt"), out var manifest, out _));
        const string Edition = "editions/us-national/2020-08-01.2.json";
        const string Report = "reports/LANTERN-R000002.pdf";
        var files = manifest.Files.Select(file => file.Name is Edition or Report ? Of(file.Name, "{}"u8.ToArray()) : file);
        var changed = With(With(With(made.Named, Edition, "{}"u8.ToArray()), Report, "{}"u8.ToArray()), "manifest.txt",
            Signed(manifest with { Files = [.. files] }, other));
        var finding = Check(With(changed, "key.txt", Encoding.UTF8.GetBytes(PublicKey.Of(other, made.Key.Name).Text + "\n")));

        Assert.Contains(finding.Wrong, wrong => wrong.StartsWith($"\"{Edition}\" is not there with the hash ", StringComparison.Ordinal));
        Assert.Contains($"\"{Report}\" is not a report that the register names.", finding.Wrong);
    }

    [Fact]
    public void File_ThatUnpacksToMoreThanItsManifestSays_IsNotUnpackedFurther()
    {
        var large = new byte[64 * 1024 * 1024];
        var bomb = With(made.Plain, "event.json", large);
        Assert.True(bomb.Length < 1024 * 1024);
        var before = GC.GetAllocatedBytesForCurrentThread();

        Assert.Contains(Check(bomb).Wrong, wrong => wrong.StartsWith("\"event.json\" has other bytes", StringComparison.Ordinal));
        Assert.True(GC.GetAllocatedBytesForCurrentThread() - before < 8 * 1024 * 1024);
        Assert.Contains(ArchiveCheck.Check(new MemoryStream(made.Plain), null, 1000).Wrong, wrong =>
            wrong.Contains("when it is unpacked", StringComparison.Ordinal));
        Assert.False(Check(With(made.Plain, "manifest.txt", large)).IsWhole);
        Assert.False(Check([]).IsWhole);
        Assert.False(Check("PK\u0003\u0004 and nothing more"u8.ToArray()).IsWhole);
    }

    [Fact]
    public async Task Page_ForAnyone_ChecksAnArchive()
    {
        await using var station = new StationFixture();
        using var anyone = await station.Client();

        var whole = await Sent(anyone, made.Plain);
        Assert.Equal("The archive is whole", whole.QuerySelector("main section h2")!.TextContent);
        var broken = await Sent(anyone, With(made.Plain, "event.json", "{}"u8.ToArray()));
        Assert.Contains("\"event.json\" has other bytes than the manifest says.", broken.QuerySelector("main section")!.TextContent,
            StringComparison.Ordinal);
        var none = await Sent(anyone, []);
        Assert.Equal("Choose the archive of an event, a ZIP file.", none.FaultAt("archive"));
    }

    [Fact]
    public void Verbs_ArchiveAndVerify_GoRound()
    {
        var file = Path.Combine(made.Folder, "lantern.zip");
        using var output = new StringWriter();
        using var error = new StringWriter();

        Assert.Equal((0, ""), (ArchiveVerb.Run(["--data", made.Folder, "--event", "LANTERN", "--out", file], output, error,
            StationClock.Only), error.ToString()));
        Assert.Equal((0, ""), (VerifyVerb.Run([file, "--key", made.Key.Text], output, error), error.ToString()));
        Assert.Contains("The archive of LANTERN, made ", output.ToString(), StringComparison.Ordinal);
        Assert.Equal(3, ArchiveVerb.Run(["--data", made.Folder, "--event", "LANTERN", "--out", file], output, error));
        Assert.Contains("cannot be written", error.ToString(), StringComparison.Ordinal);
        File.WriteAllBytes(file, With(File.ReadAllBytes(file), "keys.txt", [1]));
        using var wrong = new StringWriter();
        Assert.Equal(1, VerifyVerb.Run([file], wrong, TextWriter.Null));
        Assert.Contains("\"keys.txt\" has other bytes", wrong.ToString(), StringComparison.Ordinal);
        Assert.Equal(3, ArchiveVerb.Run(["--data", made.Folder, "--event", "NOWHERE", "--out", "x"], TextWriter.Null, TextWriter.Null));
    }

    private static async Task<IDocument> Sent(HttpClient client, byte[] archive)
    {
        var page = await client.GetPage("/archive");
        using var form = new MultipartFormDataContent();
        var token = page.QuerySelector<IHtmlInputElement>("main form input[type=hidden]")!;
        form.Add(new StringContent(token.Value), token.Name!);
        form.Add(new ByteArrayContent(archive), "archive", "lantern.zip");
        using var answer = await client.PostAsync("/archive", form);
        return await answer.Read();
    }

    private static ArchiveFinding Check(byte[] archive, PublicKey? trusted = null) =>
        ArchiveCheck.Check(new MemoryStream(archive), trusted);

    private static ArchivedFile Of(string name, byte[] bytes) => new(name, Convert.ToHexStringLower(SHA256.HashData(bytes)), bytes.Length);

    private byte[] Signed(ArchiveManifest manifest, ECDsa key) =>
        Encoding.UTF8.GetBytes(SignedNote.Sign(manifest.Text, made.Key.Name, key));

    private static List<string> Names(byte[] archive)
    {
        using var zip = new ZipArchive(new MemoryStream(archive));
        return [.. zip.Entries.Select(entry => entry.FullName)];
    }

    private static string Text(byte[] archive, string name) => Encoding.UTF8.GetString(Bytes(archive, name));

    private static byte[] Bytes(byte[] archive, string name)
    {
        using var zip = new ZipArchive(new MemoryStream(archive));
        using var bytes = new MemoryStream();
        using var entry = zip.GetEntry(name)!.Open();
        entry.CopyTo(bytes);
        return bytes.ToArray();
    }

    // The same archive with one file that has other bytes, or without it.
    private static byte[] With(byte[] archive, string name, byte[]? bytes)
    {
        using var to = new MemoryStream();
        using (var zip = new ZipArchive(to, ZipArchiveMode.Create, leaveOpen: true))
        {
            foreach (var each in Names(archive).Append(name).Distinct().Where(each => each != name || bytes is not null))
            {
                using var entry = zip.CreateEntry(each).Open();
                entry.Write(each == name ? bytes : Bytes(archive, each));
            }
        }

        return to.ToArray();
    }

    /// <summary>Two archives of one event, without names and with them, and the folder of the station, which has stopped.</summary>
    public sealed class Made : IAsyncLifetime
    {
        public string Folder { get; } = StationFixture.NewFolder();

        public byte[] Plain { get; private set; } = [];

        public byte[] Named { get; private set; } = [];

        public PublicKey Key { get; private set; } = null!;

        public KeptChange? Taken { get; private set; }

        public async Task InitializeAsync()
        {
            await using var station = new StationFixture(folder: Folder);
            using var director = await station.Client("director");
            await director.Recorded(SampleSheets.Legal());
            await director.Recorded(SampleSheets.TooHeavyOnTheLeft(), "102");
            using var issued = await director.Send(await director.GetPage("/desk/events/LANTERN/reports"));
            Assert.Equal(HttpStatusCode.Redirect, issued.StatusCode);
            var custody = await director.GetPage("/events/LANTERN/custody?ball=LANTERN-0001");
            using var takenIn = await director.Send(custody.QuerySelector<IHtmlFormElement>("form[method=post][action$='/custody']")!);
            var list = await director.GetPage("/events/LANTERN/entries/101/balls/list");
            using var listed = await director.Send(
                list.QuerySelector<IHtmlFormElement>("form:has([name='ball.serial'])")!,
                ("ball.model", "Low Lantern"), ("ball.serial", "7TT01884"));
            Assert.Equal((HttpStatusCode.Redirect, HttpStatusCode.Redirect), (takenIn.StatusCode, listed.StatusCode));
            var page = await director.GetPage("/events/LANTERN/archive");
            using var plain = await director.Send(page);
            Assert.Equal("LANTERN-archive.zip", plain.Content.Headers.ContentDisposition!.FileNameStar);
            Plain = await plain.Content.ReadAsByteArrayAsync();
            using var named = await director.Send(page, ("names", "yes"));
            Named = await named.Content.ReadAsByteArrayAsync();
            Key = station.Services.GetRequiredService<StationKey>().Public;
            Taken = station.Services.GetRequiredService<EventChanges>().ArchivesWithNames("LANTERN").SingleOrDefault();
        }

        public Task DisposeAsync()
        {
            Directory.Delete(Folder, recursive: true);
            return Task.CompletedTask;
        }
    }
}
