namespace Inspect.Station.Web;

/// <summary>The HTML id of the field for a path. Letters and digits are kept; every other character becomes a hyphen, so that a
/// link can name it.</summary>
public static class FieldId
{
    /// <summary><c>holes[0].depth</c> becomes <c>holes-0--depth</c>.</summary>
    public static string Of(string path) => string.Create(path.Length, path, (id, from) =>
    {
        for (var i = 0; i < id.Length; i++)
        {
            id[i] = char.IsAsciiLetterOrDigit(from[i]) ? from[i] : '-';
        }
    });
}
