using System.Globalization;
using System.Security.Claims;
using System.Text;
using Inspect.Ledger;
using Inspect.Station.Access;
using Inspect.Station.Storage;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;

namespace Inspect.Station.Prove;

/// <summary>The director's page about the register: what is signed, what can be proved, and the check of an export.</summary>
public static class RegisterPages
{
    // A day of the largest event is about 20 MB; check longer exports with the verb, which needs no upload.
    private const long MostBytes = 256L * 1024 * 1024;

    private const int LongestCheckpoint = 16 * 1024;

    public static void MapRegisterPages(this IEndpointRouteBuilder app)
    {
        var pages = app.MapGroup("/desk/register").RequireAuthorization(Policies.Director).ExcludeFromDescription();
        pages.MapGet("", Show).WithName("RegisterPage").WithSummary("The register: its size, root, key, checkpoints and proofs");
        pages.MapPost("checkpoints", Keep).WithName("KeepCheckpoint")
            .WithSummary("Signs the register as it is now and keeps the checkpoint");
        pages.MapPost("key", Rotate).WithName("RotateKey").WithSummary("Makes a new key, for which the old one vouches");
        pages.MapPost("check", Check).WithName("CheckExport").WithSummary("Checks an exported register")
            .WithMetadata(new RequestSizeLimitAttribute(MostBytes),
                new RequestFormLimitsAttribute { MultipartBodyLengthLimit = MostBytes });
    }

    private static RazorComponentResult<RegisterPage> Show(
        Checkpoints checkpoints, WriteGate gate, StationKey key, People people, StoreState store, string? size = null,
        string? root = null)
    {
        var faults = new Faults();
        var heard = size is null && root is null ? null : Hear(checkpoints, gate.Head.Size, size ?? "", root ?? "", faults)?.In(store);
        return Page(checkpoints, gate, key, people, faults, heard, size, root);
    }

    private static async Task<RedirectHttpResult> Keep(ClaimsPrincipal user, IFormCollection form, Checkpoints checkpoints)
    {
        _ = form;
        await checkpoints.Keep(SignedIn.From(user).Person);
        return TypedResults.LocalRedirect("/desk/register");
    }

    private static async Task<Results<RedirectHttpResult, RazorComponentResult<RegisterPage>>> Rotate(
        ClaimsPrincipal user, IFormCollection form, Checkpoints checkpoints, WriteGate gate, StationKey key, People people)
    {
        // The form has the key that was shown, so a second press does not change the key again.
        if (form["sure"] == "yes" && form["shown"] == key.Public.Fingerprint)
        {
            await key.Rotate(gate, SignedIn.From(user).Person.ToString());
            return TypedResults.LocalRedirect("/desk/register");
        }

        var faults = new Faults();
        faults.Add("sure", form["sure"] == "yes"
            ? "The key was changed meanwhile; this page shows the new one."
            : "Tick to confirm: anyone who checks the register then needs the new key, or the old key with the key change.");
        return Page(checkpoints, gate, key, people, faults);
    }

    private static RazorComponentResult<RegisterPage> Check(
        IFormCollection form, Checkpoints checkpoints, WriteGate gate, StationKey key, People people, StoreState store)
    {
        var faults = new Faults();
        PublicKey? trusted = null;
        if (form["key"].ToString().Trim() is { Length: > 0 } typed && !PublicKey.TryParse(typed, out trusted))
        {
            faults.Add("key", $"\"{(typed.Length > 60 ? typed[..60] + "…" : typed)}\" is not the public key of a station; it is one line, "
                + "as in key.txt.");
        }

        if (form.Files["export"] is not { Length: > 0 } file)
        {
            faults.Add("export", "Choose the exported file, register.jsonl, or a checkpoint that was kept.");
            return Page(checkpoints, gate, key, people, faults);
        }

        if (!faults.AreNone)
        {
            return Page(checkpoints, gate, key, people, faults);
        }

        using var sent = file.OpenReadStream();
        return Page(checkpoints, gate, key, people, faults, Earlier(sent) is var (earlier, signed)
            ? ProofAnswer.Of(earlier, checkpoints.Keys().FirstOrDefault(known => signed.IsSignedBy(known.Key)), trusted, checkpoints, key,
                gate.Head.Size).In(store)
            : ProofAnswer.Of(RegisterCheck.Check(sent, trusted)));
    }

    // A checkpoint is a few lines and begins with its origin; an export begins with an entry.
    private static (Checkpoint Earlier, SignedNote Signed)? Earlier(Stream sent)
    {
        var bytes = new byte[LongestCheckpoint];
        var read = sent.ReadAtLeast(bytes, bytes.Length, throwOnEndOfStream: false);
        sent.Position = 0;
        return read < bytes.Length && Checkpoint.TryParse(Encoding.UTF8.GetString(bytes.AsSpan(0, read)), out var earlier, out var signed)
            ? (earlier, signed) : null;
    }

    private static ProofAnswer? Hear(Checkpoints checkpoints, long now, string size, string root, Faults faults)
    {
        var plain = size.Trim().Replace(",", "", StringComparison.Ordinal);
        if (!long.TryParse(plain, NumberStyles.None, CultureInfo.InvariantCulture, out var entries) || entries < 1)
        {
            faults.Add("size", $"\"{size}\" is not a number of entries; read it at the foot of the slip, such as 4,182.");
        }

        var digits = root.Trim().ToLowerInvariant();
        if (digits.Length is < 8 or > 64 || !digits.All(char.IsAsciiHexDigit))
        {
            faults.Add("root", $"\"{root}\" is not the beginning of a root; read it at the foot of the slip: "
                + "12 of the digits 0 to 9 and a to f.");
        }

        return faults.AreNone ? ProofAnswer.Of(checkpoints.Hear(entries, digits), "slip", entries, now) : null;
    }

    private static RazorComponentResult<RegisterPage> Page(
        Checkpoints checkpoints, WriteGate gate, StationKey key, People people, Faults faults, ProofAnswer? answer = null,
        string? size = null, string? root = null) => new(new
        {
            gate.Head,
            Keys = checkpoints.Keys(),
            Kept = checkpoints.All(),
            NameOf = (Func<PersonId, string?>)people.NameOf,
            Faults = faults,
            Answer = answer,
            Size = size,
            Root = root,
        })
        { StatusCode = faults.AreNone ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity };
}
