using System.Security.Cryptography;
using Dapper;
using Inspect.Station.Storage;
using Microsoft.AspNetCore.Identity;

namespace Inspect.Station.Access;

/// <summary>The sign-ins of this station.</summary>
public sealed class SignIns(Database database, WriteGate gate)
{
    private const string Columns = """
        SELECT s.name AS Name, s.name_key AS NameKey, s.person AS Person, coalesce(p.name, '') AS PersonName,
               s.passcode_hash AS PasscodeHash, s.role AS Role, s.disabled AS Disabled, s.stamp AS Stamp
        FROM sign_in s JOIN person p ON p.id = s.person
        """;

    private static readonly PasswordHasher<string> Hasher = new();

    // Checked when the name is unknown, so that the answer takes as long as for a wrong passcode.
    private static readonly Lazy<string> NobodysHash = new(() => Hasher.HashPassword("", RandomNumberGenerator.GetHexString(32)));

    /// <summary>The person who signs in with this name and passcode, or null. An unknown name, a wrong passcode and a disabled sign-in give
    /// the same answer in the same time.</summary>
    public SignedIn? Check(string name, string passcode)
    {
        var row = Find(SignInRules.Key(name));
        var result = Hasher.VerifyHashedPassword("", row?.PasscodeHash ?? NobodysHash.Value, passcode);
        return row is { Disabled: 0 } && result != PasswordVerificationResult.Failed ? row.ToDomain() : null;
    }

    /// <summary>Whether an earlier cookie is still valid: the sign-in is not disabled and has had no new passcode or role since.</summary>
    public bool IsStillGood(SignedIn signedIn) =>
        Find(SignInRules.Key(signedIn.SignInName)) is { Disabled: 0 } row
        && row.Stamp == signedIn.Stamp
        && row.Person == signedIn.Person.ToString();

    /// <summary>Whether anyone can sign in at all.</summary>
    public bool AreNone()
    {
        using var connection = database.OpenForReading();
        return connection.ExecuteScalar<long>("SELECT EXISTS (SELECT 1 FROM sign_in)") == 0;
    }

    /// <summary>Makes the first sign-in of an empty station, for a director. Null when there is a sign-in already.</summary>
    public Task<SignedIn?> AddFirst(string personName, string signInName, string passcode)
    {
        var hash = Hasher.HashPassword("", passcode);
        return gate.Run(write =>
        {
            var taken = write.Connection.ExecuteScalar<long>("SELECT EXISTS (SELECT 1 FROM sign_in)", transaction: write.Transaction) == 1;
            return taken ? null : Insert(write, personName, signInName, hash, Role.Director);
        });
    }

    /// <summary>Everyone who has a sign-in, by name, with the disabled ones last.</summary>
    public IReadOnlyList<Official> All()
    {
        using var connection = database.OpenForReading();
        return [.. connection.Query<SignInRow>($"{Columns} ORDER BY s.disabled, p.name, s.name_key")
            .Select(row => new Official(row.PersonName, row.Name, Roles.Parse(row.Role), row.Disabled == 1))];
    }

    /// <summary>The person of a director's sign-in that can be used; null when there is none of this name.</summary>
    public PersonId? DirectorOf(string signInName) =>
        Find(SignInRules.Key(signInName)) is { Disabled: 0 } row && row.ToDomain() is { Role: Role.Director } director
            ? director.Person : null;

    /// <summary>Gives a person a sign-in. Null when the name is taken.</summary>
    public Task<SignedIn?> TryAdd(string personName, string signInName, string passcode, Role role)
    {
        var hash = Hasher.HashPassword("", passcode);
        return gate.Run(write => Row(write, signInName) is null ? Insert(write, personName, signInName, hash, role) : null);
    }

    /// <summary>Gives a sign-in a new passcode, which also enables a disabled one. Null when there is no such sign-in.</summary>
    public Task<SignedIn?> RenewPasscode(string signInName, string passcode)
    {
        var hash = Hasher.HashPassword("", passcode);
        return gate.Run(write => Row(write, signInName) is { } there ? ChangePasscode(write, there, hash) : null);
    }

    /// <summary>Disables a sign-in and ends its sessions. False when there is no such sign-in, or when the person who asks was disabled
    /// meanwhile: if two directors disable each other, one stays.</summary>
    public Task<bool> Disable(string signInName, SignedIn by) => gate.Run(write =>
        Row(write, by.SignInName) is { Disabled: 0 }
        && SignInRules.Key(by.SignInName) != SignInRules.Key(signInName)
        && write.Connection.Execute(
            "UPDATE sign_in SET disabled = 1, stamp = @stamp WHERE name_key = @key",
            new { key = SignInRules.Key(signInName), stamp = NewStamp() },
            write.Transaction) == 1);

    /// <summary>Makes the demo sign-ins, or gives existing ones this passcode, which is hashed once for all of them. With the same
    /// passcode their cookies stay valid.</summary>
    public async Task Demo(string passcode, IReadOnlyList<(string Person, string Name, Role Role)> wanted)
    {
        string? fits = null, differs = null;
        foreach (var (person, name, role) in wanted)
        {
            var there = Find(SignInRules.Key(name));
            if (there is null or { Disabled: 1 } || !Fits(there.PasscodeHash))
            {
                var hash = fits ??= Hasher.HashPassword("", passcode);
                await gate.Run(write => there is null ? Insert(write, person, name, hash, role) : ChangePasscode(write, there, hash));
            }
        }

        bool Fits(string stored)
        {
            if (stored != fits && stored != differs)
            {
                var isGood = Hasher.VerifyHashedPassword("", stored, passcode) != PasswordVerificationResult.Failed;
                (fits, differs) = isGood ? (stored, differs) : (fits, stored);
            }

            return stored == fits;
        }
    }

    /// <summary>Prepares the answer to an unknown name, so that not even the first one takes longer.</summary>
    public static void WarmUp() => _ = NobodysHash.Value;

    private static SignedIn Insert(WriteTransaction write, string personName, string signInName, string hash, Role role)
    {
        var person = People.Add(write, personName);
        var stamp = NewStamp();
        const string Sql = """
            INSERT INTO sign_in (name, name_key, person, passcode_hash, role, stamp)
            VALUES (@signInName, @key, @person, @hash, @role, @stamp)
            """;
        write.Connection.Execute(
            Sql,
            new { signInName, key = SignInRules.Key(signInName), person = person.ToString(), hash, role = role.Word(), stamp },
            write.Transaction);
        return new SignedIn(person, personName, signInName, role, stamp);
    }

    private static SignedIn ChangePasscode(WriteTransaction write, SignInRow there, string hash)
    {
        var changed = there with { PasscodeHash = hash, Stamp = NewStamp() };
        write.Connection.Execute(
            "UPDATE sign_in SET passcode_hash = @PasscodeHash, stamp = @Stamp, disabled = 0 WHERE name_key = @NameKey",
            new { changed.PasscodeHash, changed.Stamp, changed.NameKey },
            write.Transaction);
        return changed.ToDomain();
    }

    private static string NewStamp() => RandomNumberGenerator.GetHexString(32, lowercase: true);

    private SignInRow? Find(string nameKey)
    {
        using var connection = database.OpenForReading();
        return connection.QuerySingleOrDefault<SignInRow>($"{Columns} WHERE s.name_key = @nameKey", new { nameKey });
    }

    private static SignInRow? Row(WriteTransaction write, string signInName) => write.Connection.QuerySingleOrDefault<SignInRow>(
        $"{Columns} WHERE s.name_key = @key", new { key = SignInRules.Key(signInName) }, write.Transaction);

    private sealed record SignInRow(
        string Name, string NameKey, string Person, string PersonName, string PasscodeHash, string Role, long Disabled, string Stamp)
    {
        public SignedIn ToDomain() => new(PersonId.From(Person), PersonName, Name, Roles.Parse(Role), Stamp);
    }
}
