using System.Diagnostics.CodeAnalysis;
using System.Security.Claims;

namespace Inspect.Station.Access;

/// <summary>The person who is signed in, as the cookie has it.</summary>
/// <param name="Person">Who it is.</param>
/// <param name="Name">The name as people read it.</param>
/// <param name="SignInName">The name they signed in with.</param>
/// <param name="Role">What they may do.</param>
/// <param name="Stamp">The sign-in's stamp when the cookie was set.</param>
public sealed record SignedIn(PersonId Person, string Name, string SignInName, Role Role, string Stamp)
{
    private const string StampClaim = "stamp";
    private const string SignInNameClaim = "sign-in";

    /// <summary>The principal for the cookie.</summary>
    public ClaimsPrincipal ToPrincipal(string scheme) => new(new ClaimsIdentity(
        [
            new(ClaimTypes.NameIdentifier, Person.ToString()),
            new(ClaimTypes.Name, Name),
            new(SignInNameClaim, SignInName),
            new(ClaimTypes.Role, Role.Word()),
            new(StampClaim, Stamp),
        ],
        scheme));

    /// <summary>Reads what <see cref="ToPrincipal"/> wrote; false when nobody is signed in.</summary>
    public static bool TryFrom(ClaimsPrincipal principal, [NotNullWhen(true)] out SignedIn? signedIn)
    {
        signedIn = principal.Identity?.IsAuthenticated == true
            ? new(
                PersonId.From(principal.FindFirstValue(ClaimTypes.NameIdentifier) ?? ""),
                principal.FindFirstValue(ClaimTypes.Name) ?? "",
                principal.FindFirstValue(SignInNameClaim) ?? "",
                Roles.Parse(principal.FindFirstValue(ClaimTypes.Role) ?? ""),
                principal.FindFirstValue(StampClaim) ?? "")
            : null;
        return signedIn is not null;
    }

    /// <summary>The person who is signed in, on a route that requires it.</summary>
    public static SignedIn From(ClaimsPrincipal principal) =>
        TryFrom(principal, out var signedIn) ? signedIn : throw new InvalidOperationException("Nobody is signed in on this route.");
}
