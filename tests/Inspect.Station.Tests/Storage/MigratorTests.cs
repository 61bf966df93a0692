using System.Security.Cryptography;
using System.Text;
using Dapper;
using Inspect.Station.Storage;

namespace Inspect.Station.Tests.Storage;

/// <summary>The numbered schema files: each unchanged since it was merged, run once, strict and explained.</summary>
public sealed class MigratorTests : IDisposable
{
    private readonly TestStore _store = new();

    /// <summary>SHA-256 of every file. A file is never edited once merged; a change of schema is a new file and a new line here.</summary>
    public static TheoryData<string, string> Published => new()
    {
        { "001-register.sql", "bc49e91dedf3f9102fbdd4d14749fb2b6ae1faea52af4d314313a17c1cb55025" },
        { "002-people-and-events.sql", "b4be3ba35b948ee257999591e60a622eb165a067c37959740fc6bb0bd44a5945" },
        { "003-remarks.sql", "e0ce7f59d16e6b74fd520fa1ca42c73e768f70e8f1f629acb5e538e0662c5aae" },
        { "004-event-terms.sql", "6e384d24228a7f89f5e1cbe14f0abb066741fc3349fb668cd2240da0cb13c058" },
        { "005-rulings.sql", "501ddbbfa4e3fba0bc4c8893ef2bd41e66d1b67efb5d4be6ca9804476f0347f0" },
        { "006-checkpoints.sql", "3d8a93110e77706cc5d58da69925848e194ceb1688dc1b7ca2cbc27c8a7fe586" },
        { "007-finding.sql", "651813f9d8c8ffa170474ddbe2e16cf4e34d5184bbafc3294b9f36ea4bb852fe" },
        { "008-queue-tags-photographs.sql", "8aec8d10f7721f49ad5ab056dc2da679698fde5ee1d13ec876e8ab8446201639" },
        { "009-instruments.sql", "26d96498e6a25d21e83a0b186b74b7b86e800b86335550b83fbb3b59f9d721e2" },
        { "010-unfinished-sheets.sql", "18f3ee7d3eb08455693d372563b4727845877dcefa81205ec04bdfc804c96de1" },
        { "011-rules-found-faster.sql", "08df68c0d0d3625cb2d957dce95552a677c0c507a9666d6f09e5817119de6cc5" },
        { "012-ball-names.sql", "de94293d10715d9bd42d5f116b5e1be30e7ba2598c881cecbdf5fec3d2d50c04" },
        { "013-reports-issued.sql", "e052708f85edd977f6bec472fa110bddd81c5b5bcbbe61ccf1fac6ae1ef6a87d" },
        { "014-more-ways-to-find.sql", "6263b13dcefc228f4e101c1f3f900f53b0775ba002a3760040a1a391a5f23cce" },
        { "015-kinds-of-instruments.sql", "db311c772a77cf7a77dcd04179575c87f26711863524549ff33d4fe8fbd1ad1d" },
        { "016-roughness-tester.sql", "1fc9ce56b4603c82cb7cf7b9b377ce283581e8876b29236f4ac91bf0b74a60cb" },
        { "017-edition-changes.sql", "81b3390750298ce5eeab11aaa2fecb9cc29f82531606423bdbb5ff670084635d" },
        { "018-answers-made-again.sql", "3cfa53cb406c45570d685073e81d9634974f15c27752bb5d9631eb8c438e23d2" },
        { "019-ring-gauge.sql", "656ec2e9925e5c79d5e16b032cdd0071324d89dd359a5dd567d2276fe25ff610" },
        { "020-slips-printed.sql", "bbe930a694bb8776d62acf8450dd4f2f348fe95a0d59f0fa514d0dd37ab9083d" },
        { "021-corrections.sql", "c230b1b6b9d725c25ff2cb785375f01ed4895354888976cf3350977224c9b735" },
        { "022-import-heads.sql", "ea5d24151ea92879aac06030b765d33612d1058c787956eaeb63e5a6bf62f99f" },
        { "023-entered-balls.sql", "8a0dda8d9a3beb1708babc2d374d09c80116c04f1a8f5191a8c6e30f96ad271b" },
        { "024-custody.sql", "09b0ed0d4a3cf768d56a30ac9f40798daedc199a5d0c17d1c719b62350aa8c00" },
        { "025-spot-checks.sql", "b860627cc7e21d45cb778b959aa196e94e9a53d170e6f70cf97e6fa193dfe270" },
        { "026-names-kept.sql", "5dfa85c740b0fd0f8e88c4de14970a8385046a87064696f93dbadf2420e2fa1d" },
        { "027-under-age.sql", "c2f85d94cff27cc1dd3062b86ce43e197edc6d9279163e4d7ef07af2eb134512" },
        { "028-model-lists.sql", "b8b04b4f16333cbd8497a63a90901e4d993d7b7724770a64da6b097fead818d8" },
        { "029-lists-in-turns.sql", "00269e3597a688c2701b85fb0ec6d2fe3bba3eb65e60f5b8799bd2979b8291be" },
        { "030-slips-again.sql", "d661d81713db07f931b028810fb46150ec1f2ab835033faac6c68259e2a64425" },
        { "031-witness.sql", "19dc4b985136e797c47f33c6cb53641ee0f0c1a102881cdfb44f89da70294f28" },
    };

    public void Dispose() => _store.Dispose();

    [Theory]
    [MemberData(nameof(Published))]
    public void Files_Published_KeepTheirBytes(string name, string sha256)
    {
        var file = Assert.Single(Migrator.Files, file => file.Name == name);

        Assert.Equal(sha256, Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(file.Sql))));
    }

    [Fact]
    public void Files_Numbers_RunFrom001WithoutAGapAndAllArePublished()
    {
        Assert.Equal(Published.Count, Migrator.Files.Count);
        Assert.All(Migrator.Files.Index(), file => Assert.StartsWith($"{file.Index + 1:000}-", file.Item.Name, StringComparison.Ordinal));
    }

    [Fact]
    public void Migrate_StoreThatIsUpToDate_ChangesNothing()
    {
        var before = Schema();

        Migrator.Migrate(_store.Database);

        Assert.Equal(before, Schema());
    }

    [Fact]
    public void Migrate_StoreOfALaterVersion_IsRefusedInASentence()
    {
        using (var connection = _store.Database.OpenForWriting())
        {
            connection.Execute("INSERT INTO SchemaVersions (ScriptName, Applied) VALUES ('999-later.sql', '2031-01-01')");
        }

        var error = Assert.Throws<CannotStartException>(() => Migrator.Migrate(_store.Database));

        Assert.Contains("'999-later.sql'", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Schema_EveryTableOfOurs_IsStrict()
    {
        using var connection = _store.Database.OpenForReading();
        var loose = connection.Query<string>(
            "SELECT name FROM pragma_table_list WHERE schema = 'main' AND type = 'table' AND strict = 0 AND name NOT LIKE 'sqlite_%'");

        // DbUp's own list of what has run.
        Assert.Equal(["SchemaVersions"], loose);
    }

    [Fact]
    public void Schema_EveryColumn_HasAComment()
    {
        foreach (var (name, sql) in Migrator.Files)
        {
            var lines = sql.Split('\n');
            foreach (var (index, line) in lines.Index().Where(line => line.Item.StartsWith("  ", StringComparison.Ordinal)))
            {
                var words = line.Trim().Split(' ');
                if (words.Length > 1 && words[1] is "TEXT" or "INTEGER" or "BLOB" or "REAL" or "ANY")
                {
                    Assert.True(line.Contains("-- ", StringComparison.Ordinal), $"{name}, line {index + 1}: '{words[0]}' has no comment.");
                }
            }
        }
    }

    private List<string> Schema()
    {
        using var connection = _store.Database.OpenForReading();
        return connection.Query<string>("SELECT name || coalesce(sql, '') FROM sqlite_schema ORDER BY name").AsList();
    }
}
