namespace Inspect.Station.Access;

/// <summary>What a sign-in may do. A director may do all that an inspector may.</summary>
public enum Role
{
    /// <summary>Measures and records.</summary>
    Inspector,

    /// <summary>Rules, audits and prepares the event.</summary>
    Director,
}

/// <summary>The words for roles, in the store, in cookies and in answers.</summary>
public static class Roles
{
    public const string Inspector = "inspector";
    public const string Director = "director";

    /// <summary>The word for a role.</summary>
    public static string Word(this Role role) => role == Role.Director ? Director : Inspector;

    /// <summary>The role of a word that <see cref="Word"/> wrote.</summary>
    public static Role Parse(string word) => word switch
    {
        Inspector => Role.Inspector,
        Director => Role.Director,
        _ => throw new FormatException($"\"{word}\" is not a role."),
    };
}

/// <summary>The names of the authorisation policies that routes ask for.</summary>
public static class Policies
{
    /// <summary>Anyone who works at the event: an inspector or a director.</summary>
    public const string Inspector = "inspector";

    /// <summary>A director.</summary>
    public const string Director = "director";
}
