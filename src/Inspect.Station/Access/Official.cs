namespace Inspect.Station.Access;

/// <summary>Somebody who has a sign-in here, as the list of people shows them.</summary>
/// <param name="Name">The name as people read it.</param>
/// <param name="SignInName">What is typed to sign in.</param>
/// <param name="Role">What they may do.</param>
/// <param name="IsDisabled">Whether the sign-in may no longer be used.</param>
public sealed record Official(string Name, string SignInName, Role Role, bool IsDisabled);
