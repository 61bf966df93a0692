using Dapper;
using Inspect.Station.Access;
using Inspect.Station.Storage;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.Options;
using Demo = Inspect.Station.CommandLine.Demo;

namespace Inspect.Station.Tests.Ground;

/// <summary>What every station of the tests would make again at its first start, made once by the program itself and copied:
/// a store with all migrations, and for the demo its two sign-ins.</summary>
/// <remarks>The passcode is hashed in one round here, which the program accepts of a hash that stands in its store. The signing key, the
/// event and its entries are made by each station.</remarks>
internal static class PreparedStore
{
    private static readonly Lazy<byte[]> Migrated = new(() => Make(_ => { }));
    private static readonly Lazy<byte[]> WithSignIns = new(() => Make(AddSignIns));

    /// <summary>Puts a store into a folder that has none.</summary>
    public static void CopyTo(string folder, bool demo)
    {
        var file = Path.Combine(folder, "inspect.db");
        if (!File.Exists(file))
        {
            File.WriteAllBytes(file, (demo ? WithSignIns : Migrated).Value);
        }
    }

    private static byte[] Make(Action<Database> fill)
    {
        var folder = Directory.CreateTempSubdirectory("inspect-test-");
        try
        {
            var file = Path.Combine(folder.FullName, "inspect.db");
            var database = new Database(file, keepsOpen: false);
            Migrator.Migrate(database);
            fill(database);
            return File.ReadAllBytes(file);
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    private static void AddSignIns(Database database)
    {
        using (var gate = new WriteGate(database, []))
        {
            Demo.SignIn(new SignIns(database, gate), DemoPasscode.Chosen).GetAwaiter().GetResult();
        }

        var quick = new PasswordHasher<string>(Options.Create(new PasswordHasherOptions { IterationCount = 1 }));
        using var connection = database.OpenForWriting();
        connection.Execute("UPDATE sign_in SET passcode_hash = @hash", new { hash = quick.HashPassword("", DemoPasscode.Chosen) });
    }
}
