using Inspect.Station.Storage;
using Inspect.Station.Web;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authentication.Cookies;
using Microsoft.AspNetCore.DataProtection;

namespace Inspect.Station.Access;

/// <summary>Sets up the sign-in cookie, the policies of who may do what, and the keys that protect cookies and forms.</summary>
public static class CookieSettings
{
    // One day at the counter, so that nobody has to sign in twice between the first squad and the last.
    private static readonly TimeSpan Lifetime = TimeSpan.FromHours(16);

    /// <summary>Adds sign-in, the two policies and antiforgery, with keys in the data folder, so that cookies stay
    /// valid after a restart.</summary>
    public static void AddSignIn(this IServiceCollection services, DataFolder folder)
    {
        services.AddDataProtection().SetApplicationName("Inspect").PersistKeysToFileSystem(new DirectoryInfo(folder.CookieKeysFolder));
        services.AddAuthentication(CookieAuthenticationDefaults.AuthenticationScheme).AddCookie(Configure);
        services.AddAuthorizationBuilder()
            .AddPolicy(Policies.Inspector, policy => policy.RequireRole(Roles.Inspector, Roles.Director))
            .AddPolicy(Policies.Director, policy => policy.RequireRole(Roles.Director));
        services.AddAntiforgery(form =>
        {
            form.Cookie.Name = "inspect-form";
            form.Cookie.HttpOnly = true;
            form.Cookie.SameSite = SameSiteMode.Strict;
            form.Cookie.SecurePolicy = CookieSecurePolicy.SameAsRequest;
            form.SuppressXFrameOptionsHeader = true;
        });
        services.AddSingleton<SignIns>();
        services.AddSingleton<People>();
        services.AddSingleton<SetUp>();
        services.AddSingleton<FreshPasscodes>();
        services.AddSingleton<SignInThrottle>();
        services.AddSingleton<FrontDoor>();
    }

    private static void Configure(CookieAuthenticationOptions options)
    {
        options.Cookie.Name = "inspect-session";
        options.Cookie.HttpOnly = true;
        options.Cookie.SameSite = SameSiteMode.Strict;
        options.Cookie.SecurePolicy = CookieSecurePolicy.SameAsRequest;
        options.ExpireTimeSpan = Lifetime;
        options.SlidingExpiration = true;
        options.Events.OnRedirectToLogin = context => Refuse(context, StatusCodes.Status401Unauthorized);
        options.Events.OnRedirectToAccessDenied = context => Refuse(context, StatusCodes.Status403Forbidden);
        options.Events.OnValidatePrincipal = Check;
    }

    // A program or a page's script gets the status. A person gets the sign-in form, and then the page they asked for.
    private static Task Refuse(RedirectContext<CookieAuthenticationOptions> context, int status)
    {
        var request = context.Request;
        if (status == StatusCodes.Status401Unauthorized && !request.IsForPrograms() && request.Headers["Sec-Fetch-Dest"] != "empty")
        {
            var back = HttpMethods.IsGet(request.Method) ? request.Path + request.QueryString : "/";
            context.Response.Redirect("/sign-in" + QueryString.Create("return", back));
        }
        else
        {
            context.Response.StatusCode = status;
        }

        return Task.CompletedTask;
    }

    private static Task Check(CookieValidatePrincipalContext context)
    {
        var signIns = context.HttpContext.RequestServices.GetRequiredService<SignIns>();
        if (context.Principal is null || !SignedIn.TryFrom(context.Principal, out var signedIn) || !signIns.IsStillGood(signedIn))
        {
            context.RejectPrincipal();
        }

        return Task.CompletedTask;
    }
}
