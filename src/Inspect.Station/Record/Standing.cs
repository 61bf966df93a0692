namespace Inspect.Station.Record;

/// <summary>Whether a recorded inspection still speaks for its ball.</summary>
public static class Standing
{
    public const string Stands = "stands";
    public const string Superseded = "superseded";

    /// <summary>The word for where an inspection stands.</summary>
    public static string WordOf(FoundInspection found) => found.IsSuperseded ? Superseded : Stands;
}
