using System.Text;
using System.Text.Json.Nodes;
using Dapper;
using Inspect.Station.CommandLine;
using Inspect.Station.Storage;
using Inspect.Station.Tests.Ground;
using Microsoft.Data.Sqlite;

namespace Inspect.Station.Tests.Storage;

/// <summary>A store damaged in many ways: the station either refuses it in a sentence, or says what is damaged, or nothing is damaged any
/// more. It never starts in silence. The ways are this project's own, no source; INSPECT_DAMAGE=long damages many more places.</summary>
public sealed class DamageTests(StoreToDamage stores) : IClassFixture<StoreToDamage>
{
    private static readonly int Places = StoreToDamage.IsLong ? 40 : 4;

    [Theory]
    [InlineData("bodies")]
    [InlineData("bodies in the file")]
    [InlineData("both leaf hashes")]
    [InlineData("leaf hash beside the entry")]
    [InlineData("leaf hash in the index")]
    [InlineData("kind")]
    [InlineData("index rows")]
    [InlineData("index rows deleted")]
    [InlineData("index rows added")]
    [InlineData("entries deleted")]
    [InlineData("log")]
    [InlineData("store")]
    [InlineData("key")]
    [InlineData("witness")]
    [InlineData("chain rewritten")]
    public async Task Start_DamagedStore_IsNeverSilent(string what)
    {
        var (silent, noticed) = (new List<string>(), 0);
        foreach (var (name, from, damage) in Damages(what))
        {
            var folder = stores.CopyOf(from);
            damage(folder);
            var started = await StoreToDamage.Start(folder);
            if (started.Refusal is { } refusal)
            {
                Assert.DoesNotContain("   at ", refusal, StringComparison.Ordinal);
                Assert.EndsWith(".", refusal, StringComparison.Ordinal);
            }
            else if (started.IsSilent && StoreToDamage.Dump(folder) != stores.Whole)
            {
                silent.Add(name);
            }

            noticed += started.IsSilent ? 0 : 1;
            Directory.Delete(folder, recursive: true);
        }

        Assert.Empty(silent);
        Assert.NotEqual(0, noticed);
    }

    [Fact]
    public async Task Start_WholeStore_IsSilentAndSound()
    {
        Assert.True((await StoreToDamage.Start(stores.CopyOf(stores.Stopped))).IsSilent);
        Assert.True((await StoreToDamage.Start(stores.CopyOf(stores.Killed))).IsSilent);
    }

    /// <summary>Whatever was damaged, the index is rebuilt or refused in a sentence, never with a stack trace.</summary>
    [Theory]
    [InlineData("index rows")]
    [InlineData("index rows deleted")]
    [InlineData("index rows added")]
    [InlineData("leaf hash in the index")]
    public async Task Reindex_DamagedIndex_IsSoundAfterwards(string what)
    {
        foreach (var (name, from, damage) in Damages(what))
        {
            var folder = stores.CopyOf(from);
            damage(folder);
            using var error = new StringWriter();
            Assert.True(ReindexVerb.Run(["--data", folder], TextWriter.Null, error) == 0, $"{name}: {error}");

            Assert.Equal(stores.Whole, StoreToDamage.Dump(folder));
            Assert.True((await StoreToDamage.Start(folder)).IsSilent, name);
            Directory.Delete(folder, recursive: true);
        }
    }

    [Theory]
    [InlineData("bodies")]
    [InlineData("both leaf hashes")]
    [InlineData("entries deleted")]
    [InlineData("chain rewritten")]
    public void Verbs_DamagedRegister_SayItInASentence(string what)
    {
        foreach (var (name, from, damage) in Damages(what))
        {
            var folder = stores.CopyOf(from);
            damage(folder);
            using var output = new StringWriter();
            using var error = new StringWriter();

            Assert.True(CheckVerb.Run(["--data", folder], output, error) == 1, name);
            Assert.NotEmpty(output.ToString());
            Assert.Equal(3, ReindexVerb.Run(["--data", folder], TextWriter.Null, error));
            Assert.DoesNotContain("   at ", error.ToString(), StringComparison.Ordinal);
            Directory.Delete(folder, recursive: true);
        }
    }

    [Fact]
    public async Task Check_StoreOfARunningStation_Is0()
    {
        await using var station = new StationFixture(folder: stores.CopyOf(stores.Stopped));
        using var client = await station.Client();
        using var output = new StringWriter();

        Assert.Equal(0, CheckVerb.Run(["--data", station.Folder], output, output));
        Assert.StartsWith($"The {StoreToDamage.Balls + 2} entries of the register are sound.", output.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Check_WholeStore_Is0() => Assert.Equal(
        0, CheckVerb.Run(["--data", stores.CopyOf(stores.Stopped)], TextWriter.Null, TextWriter.Null));

    private IEnumerable<(string Name, string From, Action<string> Damage)> Damages(string what) => what switch
    {
        "bodies" => Seqs().Select(seq => Damage($"body {seq}", folder => StoreToDamage.Change(folder, connection =>
        {
            var body = connection.QuerySingle<byte[]>("SELECT body FROM register_entry WHERE seq = @seq", new { seq });
            body[(int)(seq * 7919 % body.Length)] ^= (byte)(1 << (int)(seq % 8));
            connection.Execute("UPDATE register_entry SET body = @body WHERE seq = @seq", new { body, seq });
        }))),
        "bodies in the file" => Seqs().Select(seq => Damage($"byte of {seq}", folder =>
            FlipInFile(folder, Encoding.UTF8.GetBytes(FormattableString.Invariant($"\"number\":\"LANTERN-{seq:0000}\"")), 10))),
        "both leaf hashes" => Seqs().Select(seq => Damage($"leaves {seq}", folder => StoreToDamage.Change(folder, connection =>
            connection.Execute("UPDATE register_entry SET leaf_hash = @other WHERE seq = @seq",
                new { other = Flipped(LeafOf(connection, seq)), seq })))),
        "leaf hash beside the entry" => Seqs().Select(seq => Damage($"row leaf {seq}", folder => FlipLeaf(folder, seq, isIndex: false))),
        "leaf hash in the index" => Seqs().Select(seq => Damage($"index leaf {seq}", folder => FlipLeaf(folder, seq, isIndex: true))),
        "kind" => Seqs().Select(seq => Damage($"kind {seq}", folder => StoreToDamage.Change(folder, connection =>
            connection.Execute("UPDATE register_entry SET kind = 'spot-check' WHERE seq = @seq", new { seq })))),
        "index rows" => new[]
        {
            "inspection_index SET outcome = 'pass' WHERE outcome = 'fail'", "inspection_index SET number = 'LANTERN-9999' WHERE seq = 3",
            "inspection_index SET superseded_by = 'LANTERN-0009' WHERE seq = 4", "inspection_index SET code = 'X' WHERE seq = 5",
            "inspection_index SET at = '2020-01-01T00:00:00.000Z' WHERE seq = 6", "ruling_index SET decision = 'accept'",
            "inspection_rule SET outcome = 'hold' WHERE seq = 3", "inspection_index SET serial_folded = 'Z' WHERE seq = 7",
        }.Select(change => Damage(change, folder => StoreToDamage.Change(folder, connection => connection.Execute($"UPDATE {change}")))),
        "index rows deleted" => new[]
        {
            "inspection_index WHERE seq = 9", "inspection_index", "inspection_rule WHERE seq = 3", "ruling_index",
            $"inspection_index WHERE seq > {StoreToDamage.Balls}",
        }.Select(rows => Damage(rows, folder => StoreToDamage.Change(folder, connection => connection.Execute($"DELETE FROM {rows}")))),
        "index rows added" =>
        [
            Damage("inspection", folder => StoreToDamage.Change(folder, connection => connection.Execute(
                """
                INSERT INTO inspection_index (seq, number, event, running, entry, code, play, outcome, by_person, at)
                SELECT seq, 'LANTERN-8888', 'LANTERN', 8888, '101', 'NONE', '2026-11-21', 'pass', 'p-1', '2026-11-21T00:00:00.000Z'
                FROM register_entry WHERE kind = 'key'
                """))),
        ],
        "entries deleted" =>
        [
            Damage("last", folder => StoreToDamage.Change(folder, connection => connection.Execute(
                "DELETE FROM register_entry WHERE seq = (SELECT max(seq) FROM register_entry)"))),
            Damage("last ten", folder => StoreToDamage.Change(folder, connection => connection.Execute(
                "DELETE FROM register_entry WHERE seq > (SELECT max(seq) - 10 FROM register_entry)"))),
            Damage("one between", folder => StoreToDamage.Change(folder, connection => connection.Execute(
                "DELETE FROM register_entry WHERE seq = 7"))),
            Damage("all", folder => StoreToDamage.Change(folder, connection => connection.Execute("DELETE FROM register_entry"))),
        ],
        "log" => Logs(),
        "store" =>
        [
            Damage("deleted", folder => File.Delete(Db(folder))),
            ("killed and deleted", stores.Killed, folder => File.Delete(Db(folder))),
            Damage("emptied", folder => File.WriteAllBytes(Db(folder), [])),
            Damage("cut", folder => Cut(Db(folder), 0.5)),
            Damage("begun anew", folder =>
            {
                File.Delete(Db(folder));
                PreparedStore.CopyTo(folder, demo: true);
            }),
            Damage("from the backup", folder => File.Copy(stores.Backup, Db(folder), overwrite: true)),
            Damage("of another station", folder => File.Copy(Db(stores.Other), Db(folder), overwrite: true)),
            Damage("of another station with its key", folder =>
            {
                File.Copy(Db(stores.Other), Db(folder), overwrite: true);
                File.Copy(Key(stores.Other), Key(folder), overwrite: true);
            }),
        ],
        "key" =>
        [
            Damage("removed", folder => File.Delete(Key(folder))),
            Damage("changed", folder => File.Copy(Key(stores.Other), Key(folder), overwrite: true)),
            Damage("unreadable", folder => File.WriteAllText(Key(folder), "no key")),
            Damage("row changed", folder => StoreToDamage.Change(folder, connection => connection.Execute(
                "UPDATE station_key SET public_key = 'none' WHERE number = 2"))),
        ],
        "witness" =>
        [
            Damage("removed", folder => File.Delete(Witness(folder))),
            Damage("emptied", folder => File.WriteAllBytes(Witness(folder), [])),
            Damage("first slot", folder => FlipAt(Witness(folder), 40)),
            Damage("second slot", folder => FlipAt(Witness(folder), 4096 + 40)),
            Damage("both slots", folder =>
            {
                FlipAt(Witness(folder), 45);
                FlipAt(Witness(folder), 4096 + 45);
            }),
            Damage("of another station", folder => File.Copy(Witness(stores.Other), Witness(folder), overwrite: true)),
        ],
        _ =>
        [
            .. Seqs().Select(seq => Damage($"from {seq}", folder => StoreToDamage.RewriteChain(folder, seq, entry =>
            {
                if (entry["verdict"] is JsonObject verdict)
                {
                    verdict["outcome"] = "pass";
                }
            }))),
        ],
    };

    private IEnumerable<(string, string, Action<string>)> Logs()
    {
        static string Log(string folder) => Db(folder) + "-wal";
        yield return ("log deleted", stores.Killed, folder => File.Delete(Log(folder)));
        for (var i = 0; i <= Places; i++)
        {
            var part = i / (double)(Places + 1);
            yield return ($"log cut at {part}", stores.Killed, folder => Cut(Log(folder), part));
            yield return ($"log flipped at {part}", stores.Killed, folder =>
                FlipAt(Log(folder), (long)(new FileInfo(Log(folder)).Length * part)));
        }
    }

    // Some in the middle and the last.
    private static IEnumerable<long> Seqs() => Enumerable.Range(0, Places).Select(i => 3 + ((long)i * (StoreToDamage.Balls - 4) / Places))
        .Append(StoreToDamage.Balls);

    private (string, string, Action<string>) Damage(string name, Action<string> damage) => (name, stores.Stopped, damage);

    private static string Db(string folder) => Path.Combine(folder, "inspect.db");

    private static string Key(string folder) => Path.Combine(folder, "station-key.pem");

    private static string Witness(string folder) => Path.Combine(folder, StoreWitness.FileName);

    private static byte[] LeafOf(SqliteConnection connection, long seq) =>
        connection.QuerySingle<byte[]>("SELECT leaf_hash FROM register_entry WHERE seq = @seq", new { seq });

    private static byte[] Flipped(byte[] bytes)
    {
        bytes[3] ^= 4;
        return bytes;
    }

    // The hash stands twice in the file: before the entry's body, and in the index of the leaves.
    private static void FlipLeaf(string folder, long seq, bool isIndex)
    {
        byte[] leaf = [];
        StoreToDamage.Change(folder, connection => leaf = LeafOf(connection, seq));
        var file = File.ReadAllBytes(Db(folder));
        foreach (var at in Found(file, leaf).Where(
            place => (place + leaf.Length < file.Length && file[place + leaf.Length] == (byte)'{') != isIndex))
        {
            FlipAt(Db(folder), at + 5);
        }
    }

    private static void FlipInFile(string folder, byte[] text, int offset) =>
        FlipAt(Db(folder), Found(File.ReadAllBytes(Db(folder)), text).First() + offset);

    private static IEnumerable<int> Found(byte[] file, byte[] sought)
    {
        for (var at = 0; at < file.Length; at++)
        {
            var next = file.AsSpan(at).IndexOf(sought);
            if (next < 0)
            {
                yield break;
            }

            at += next;
            yield return at;
        }
    }

    private static void FlipAt(string path, long at)
    {
        using var file = new FileStream(path, FileMode.Open, FileAccess.ReadWrite);
        file.Position = Math.Min(at, file.Length - 1);
        var was = file.ReadByte();
        file.Position--;
        file.WriteByte((byte)(was ^ 1));
    }

    private static void Cut(string path, double part)
    {
        using var file = new FileStream(path, FileMode.Open);
        file.SetLength((long)(file.Length * part));
    }
}
