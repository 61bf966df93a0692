namespace Inspect.Station.Access;

/// <summary>A person with a sign-in, as shown in the list of people.</summary>
/// <param name="Name">The name as people read it.</param>
/// <param name="SignInName">What is typed to sign in.</param>
/// <param name="Role">What they may do.</param>
/// <param name="IsDisabled">Whether the sign-in may no longer be used.</param>
public sealed record Official(string Name, string SignInName, Role Role, bool IsDisabled);
