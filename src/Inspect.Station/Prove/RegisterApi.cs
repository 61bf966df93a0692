using System.Text;
using Inspect.Ledger;
using Inspect.Station.Access;
using Inspect.Station.Storage;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Inspect.Station.Prove;

/// <summary>The register and its proofs, to verify them elsewhere.</summary>
public static class RegisterApi
{
    /// <summary>Adds the services for proofs.</summary>
    public static void AddProve(this IServiceCollection services) => services.AddSingleton<Checkpoints>();

    public static void MapRegisterApi(this IEndpointRouteBuilder app)
    {
        app.MapGet("/api/register.jsonl", Export).RequireAuthorization(Policies.Director).WithName("ExportRegister").WithTags("Register")
            .WithSummary("Every entry's body in order, a line each, and the signed checkpoint as the last line")
            .Sends("application/jsonl").MayRefuse(401, 403);
        var register = app.MapGroup("/api/register").RequireAuthorization(Policies.Director).WithTags("Register");
        register.MapGet("key.txt", (StationKey key) => Text(key.Public.Text + "\n", "station-key.txt")).WithName("StationKey")
            .WithSummary("The public key that signs now, in the text form of signed notes").Sends("text/plain").MayRefuse(401, 403);
        register.MapGet("key-changes.txt", Changes).WithName("KeyChanges")
            .WithSummary("Every statement in which a key of this station vouched for the next, as signed notes with an empty line between")
            .Sends("text/plain").MayRefuse(401, 403, 404);
        register.MapGet("checkpoint.txt", (Checkpoints checkpoints) => Text(checkpoints.SignNow(), "checkpoint.txt"))
            .WithName("SignedCheckpoint")
            .WithSummary("The register's size and root as they stand, signed: a C2SP tlog-checkpoint")
            .Sends("text/plain").MayRefuse(401, 403);
        register.MapGet("checkpoints/{size:long}.txt", Kept).WithName("KeptCheckpoint").WithSummary("A signed checkpoint that was kept")
            .Sends("text/plain").MayRefuse(401, 403, 404);
        register.MapGet("entries/{seq:long}.json", Entry)
            .WithName("RegisterEntry").WithSummary("An entry's body, byte for byte as it was hashed")
            .Sends("application/json").MayRefuse(401, 403, 404);
        register.MapGet("entries/{seq:long}.tlog-proof", Proof).WithName("EntryProof")
            .WithSummary("The proof that an entry is in the register: a C2SP tlog-proof").Sends("text/plain").MayRefuse(401, 403, 404);
        register.MapGet("since/{size:long}.txt", Since).WithName("GrowthProof")
            .WithSummary(
                "The proof that the register begins with its first entries as they were, in the form that a C2SP tlog-witness reads")
            .Sends("text/plain").MayRefuse(401, 403, 404);
    }

    private static async Task Export(HttpContext http, Database database, WriteGate gate, StationKey key)
    {
        http.Response.ContentType = "application/jsonl; charset=utf-8";
        http.Response.Headers.ContentDisposition = "attachment; filename=\"register.jsonl\"";
        await RegisterExport.Write(database, gate, key, http.Response.Body, http.RequestAborted);
    }

    private static Results<FileContentHttpResult, ProblemHttpResult> Changes(StationKey key) => key.Successions is { Count: > 0 } statements
        ? Text(KeySuccession.Join(statements), "key-changes.txt")
        : Problems.Refused(StatusCodes.Status404NotFound, "The key of this station was never changed.");

    private static Results<FileContentHttpResult, ProblemHttpResult> Kept(long size, Checkpoints checkpoints) =>
        checkpoints.OfSize(size) is { } kept
            ? Text(kept.Note, FormattableString.Invariant($"checkpoint-{size}.txt"))
            : Problems.Refused(StatusCodes.Status404NotFound,
                FormattableString.Invariant($"No checkpoint of {size} entries was kept here."));

    private static Results<FileContentHttpResult, ProblemHttpResult> Entry(long seq, Checkpoints checkpoints) =>
        checkpoints.EntryOf(seq) is { } body
            ? TypedResults.File(body, "application/json", FormattableString.Invariant($"entry-{seq}.json"))
            : NoEntry(seq);

    private static Results<FileContentHttpResult, ProblemHttpResult> Proof(long seq, Checkpoints checkpoints) =>
        checkpoints.Entry(seq) is { } proof ? Text(proof.Text, FormattableString.Invariant($"entry-{seq}.tlog-proof")) : NoEntry(seq);

    private static Results<FileContentHttpResult, ProblemHttpResult> Since(long size, Checkpoints checkpoints) =>
        checkpoints.Since(size) is { } proof
            ? Text(proof.Text, FormattableString.Invariant($"since-{size}.txt"))
            : Problems.Refused(StatusCodes.Status404NotFound,
                FormattableString.Invariant($"The register does not have {size} entries yet."));

    private static FileContentHttpResult Text(string text, string name) =>
        TypedResults.File(Encoding.UTF8.GetBytes(text), "text/plain; charset=utf-8", name);

    private static ProblemHttpResult NoEntry(long seq) =>
        Problems.Refused(StatusCodes.Status404NotFound, FormattableString.Invariant($"The register has no entry {seq}."));
}
