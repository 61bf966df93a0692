using System.Globalization;
using System.Security.Claims;
using Inspect.Sheets.Json;
using Inspect.Station.Access;
using Inspect.Station.Import;
using Inspect.Station.Storage;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;

namespace Inspect.Station.ModelLists;

/// <summary>Brings a version of a list in: a file is chosen, its columns are matched, and what it changes is seen first.</summary>
public static class BringListPages
{
    /// <summary>The form field of the file, and that of pasted lines.</summary>
    internal const string FileField = "file", LinesField = "lines";

    private const int LongestSource = 200;
    private const int MostSent = ImportFile.MostBytes + (64 * 1024);

    public static void MapBringListPages(this IEndpointRouteBuilder app)
    {
        var pages = app.MapGroup("/lists/{list:long}/bring").RequireAuthorization(Policies.Director).ExcludeFromDescription();
        pages.MapGet("", ShowStart).WithName("BringListPage").WithSummary("The form that takes a version of a list of models");
        pages.MapPost("", Take).WithName("TakeList").WithSummary("Takes a version of a list of models and shows what it changes")
            .WithMetadata(new RequestSizeLimitAttribute(MostSent))
            .WithFormOptions(valueLengthLimit: MostSent, multipartBodyLengthLimit: MostSent);
        pages.MapGet("{key}", Show).WithName("SeenListPage").WithSummary("What a version of a list of models changes");
        pages.MapPost("{key}", Bring).WithName("BringList").WithSummary("Brings a version of a list of models in");
    }

    private static Results<RazorComponentResult<BringListPage>, RazorComponentResult<ErrorPage>> ShowStart(
        long list, ListedModels models) =>
        models.Find(list) is { } found ? Start(found, new Faults()) : ModelListPages.NoList(list);

    private static async Task<Results<RedirectHttpResult, RazorComponentResult<BringListPage>, RazorComponentResult<ErrorPage>>> Take(
        long list, IFormCollection form, ClaimsPrincipal user, ListedModels models, HeldFiles files)
    {
        if (models.Find(list) is not { } found)
        {
            return ModelListPages.NoList(list);
        }

        var faults = new Faults();
        if (await ImportPages.Sent(form, faults) is { } sent)
        {
            if (sent.TryRead(null, out _, out var fault))
            {
                return TypedResults.LocalRedirect(PathOf(found, files.Hold(SignedIn.From(user).Person, PlaceOf(found), sent)));
            }

            faults.Add(form.Files[FileField] is { Length: > 0 } ? FileField : LinesField, fault);
        }

        return Start(found, faults, form[LinesField].ToString());
    }

    private static Results<RazorComponentResult<SeenListPage>, RazorComponentResult<BringListPage>, RazorComponentResult<ErrorPage>> Show(
        long list, string key, HttpRequest request, ClaimsPrincipal user, ListedModels models, HeldFiles files)
    {
        if (models.Find(list) is not { } found)
        {
            return ModelListPages.NoList(list);
        }

        return files.Find(SignedIn.From(user).Person, PlaceOf(found), key) is { } held
            ? Page(Look(found, held, models, name => request.Query[name]), new Faults(), "", "") : NotHeld(found);
    }

    private static async Task<Results<RedirectHttpResult,
        RazorComponentResult<SeenListPage>, RazorComponentResult<BringListPage>, RazorComponentResult<ErrorPage>>> Bring(
        long list, string key, IFormCollection form, ClaimsPrincipal user, ListedModels models, HeldFiles files, WriteGate gate,
        TimeProvider time)
    {
        if (models.Find(list) is not { } found)
        {
            return ModelListPages.NoList(list);
        }

        if (files.Find(SignedIn.From(user).Person, PlaceOf(found), key) is not { } held)
        {
            return NotHeld(found);
        }

        var look = Look(found, held, models, name => form[name]);
        var (source, day, faults) = (form["source"].ToString().Trim(), form["day"].ToString().Trim(), new Faults());
        if (source.Length is 0 or > LongestSource || !PlainText.IsLine(source))
        {
            faults.Add("source", source.Length == 0 ? "Write where the list is from, such as a page or a letter."
                : $"The source has {source.Length} characters or a line break; write at most {LongestSource} in one line.");
        }

        if (!DateOnly.TryParseExact(day, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var of))
        {
            faults.Add("day", day.Length == 0 ? "Write the day of which the list is." : $"\"{day}\" is not a day; write it as 2027-03-14.");
        }

        if (look.Models is { Rows.Count: > 0 } read && faults.AreNone)
        {
            var (file, sha256) = ListedModels.FileOf(read.Rows);
            if (found.Versions.FirstOrDefault(version => version.Sha256 == sha256 && version.Day == of) is { } same)
            {
                faults.Add(Faults.Whole, string.Create(
                    CultureInfo.InvariantCulture, $"Version {same.Version} of this day is the same; nothing was brought in."));
                return Page(look, faults, source, day);
            }

            var (by, at) = (SignedIn.From(user).Person, time.GetUtcNow());
            await gate.Run(write =>
            {
                ListedModels.Remember(write, found.Id, look.Table, look.Matching);
                return ListedModels.AddVersion(
                    write, new ModelListVersion(found.Id, 0, of, source, sha256, read.Models, 0), read.Rows, file, by, at);
            });
            files.Forget(held);
            return TypedResults.LocalRedirect(string.Create(CultureInfo.InvariantCulture, $"/lists/{found.Id}"));
        }

        return Page(look, faults, source, day);
    }

    /// <summary>Where a list that is held belongs.</summary>
    private static string PlaceOf(ModelList list) => string.Create(CultureInfo.InvariantCulture, $"list {list.Id}");

    private static string PathOf(ModelList list, HeldFile held) =>
        string.Create(CultureInfo.InvariantCulture, $"/lists/{list.Id}/bring/{held.Key}");

    private static ListLook Look(ModelList list, HeldFile held, ListedModels models, Func<string, string?> typed)
    {
        var sheet = int.TryParse(typed("sheet"), NumberStyles.None, CultureInfo.InvariantCulture, out var chosen) ? chosen : (int?)null;
        if (!held.File.TryRead(sheet, out var table, out _))
        {
            held.File.TryRead(null, out table, out _);
        }

        var matching = ModelMatching.Typed(table!, typed) ?? models.Remembered(list.Id, table!) ?? ModelMatching.Of(table!);
        var faults = new Faults();
        matching.Check(faults);
        var read = faults.AreNone ? new ModelListReading(table!, matching).Read() : null;
        if (read is { Models: > ModelListReading.Most })
        {
            faults.Add(Faults.Whole, string.Create(
                CultureInfo.InvariantCulture, $"The list has {read.Models:N0} models, and at most {ModelListReading.Most:N0} are taken."));
            read = null;
        }

        return new ListLook(list, held, table!, matching, read, faults)
        {
            Changes = read is null ? null : ListChanges.Of(list.Newest is { } newest ? models.Rows(newest) : [], read.Rows),
        };
    }

    private static RazorComponentResult<SeenListPage> Page(ListLook look, Faults faults, string source, string day)
    {
        var all = new Faults();
        foreach (var (path, message) in look.Faults.All.Concat(faults.All))
        {
            all.Add(path, message);
        }

        return new RazorComponentResult<SeenListPage>(new { Look = look, Faults = all, Source = source, Day = day })
        {
            StatusCode = all.AreNone ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity,
        };
    }

    private static RazorComponentResult<BringListPage> Start(ModelList list, Faults faults, string lines = "") =>
        new(new { List = list, Faults = faults, Lines = lines })
        {
            StatusCode = faults.AreNone ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity,
        };

    private static RazorComponentResult<BringListPage> NotHeld(ModelList list)
    {
        var faults = new Faults();
        faults.Add(FileField, "The list is not held any more: choose it again. A list is held for an hour, or until the next one.");
        return new RazorComponentResult<BringListPage>(new { List = list, Faults = faults, Lines = "" })
        {
            StatusCode = StatusCodes.Status404NotFound,
        };
    }
}
