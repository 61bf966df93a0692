namespace Inspect.Station.Measure;

/// <summary>The message shown when two tables typed into the same sheet.</summary>
internal static class MergeWords
{
    /// <summary>The sentence for one field.</summary>
    public static string Of(FieldOfAnother other, string who)
    {
        var written = other.Kept.Values.Length == 0 ? "emptied this" : $"wrote \"{string.Join(", ", other.Kept.Values)}\" here";
        return other.IsConflict
            ? $"Meanwhile {who} {written}; leave yours or change it, then send again."
            : $"Meanwhile {who} {written}; look at it, then send again.";
    }
}
