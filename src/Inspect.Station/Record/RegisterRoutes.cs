using Inspect.Station.Access;
using Inspect.Station.Storage;
using Inspect.Station.Web;

namespace Inspect.Station.Record;

/// <summary>The whole register for those who check it elsewhere.</summary>
public static class RegisterRoutes
{
    public static void MapRegister(this IEndpointRouteBuilder app) => app.MapGet("/api/register.jsonl", Export)
        .RequireAuthorization(Policies.Director).WithName("ExportRegister").WithTags("Register")
        .WithSummary("Every entry's body in order, a line each, and the signed checkpoint as the last line")
        .Produces(200, contentType: "application/jsonl").MayRefuse(401, 403);

    private static async Task Export(HttpContext http, Database database, WriteGate gate, StationKey key)
    {
        http.Response.ContentType = "application/jsonl; charset=utf-8";
        http.Response.Headers.ContentDisposition = "attachment; filename=\"register.jsonl\"";
        await RegisterExport.Write(database, gate, key, http.Response.Body, http.RequestAborted);
    }
}
