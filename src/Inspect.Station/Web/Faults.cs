using Inspect.Sheets.Json;

namespace Inspect.Station.Web;

/// <summary>What is wrong with a request or a form: messages by place, in the order they were found.</summary>
/// <remarks>A place is a path in the JSON (<c>holes[0].depth</c>), and the name of the form field as well.</remarks>
public sealed class Faults
{
    private readonly List<(string Path, string Message)> _all = [];

    /// <summary>The place of a fault that concerns the whole.</summary>
    public const string Whole = "$";

    /// <summary>The faults that reading a document found.</summary>
    public static Faults Of(IEnumerable<Fault> found)
    {
        var faults = new Faults();
        foreach (var fault in found)
        {
            faults.Add(fault.Path, fault.Message);
        }

        return faults;
    }

    /// <summary>Whether nothing is wrong.</summary>
    public bool AreNone => _all.Count == 0;

    /// <summary>Every fault in the order found.</summary>
    public IReadOnlyList<(string Path, string Message)> All => _all;

    /// <summary>Adds one plain sentence to a place.</summary>
    public void Add(string path, string message) => _all.Add((path, message));

    /// <summary>The first message at a place, or null.</summary>
    public string? At(string path) => _all.Find(fault => fault.Path == path).Message;

    /// <summary>Every message at a place, in the order found.</summary>
    public IEnumerable<string> AllAt(string path) => _all.Where(fault => fault.Path == path).Select(fault => fault.Message);

    /// <summary>The <c>errors</c> member of a problem: each path with its messages.</summary>
    public Dictionary<string, string[]> ToErrors() =>
        _all.GroupBy(fault => fault.Path, fault => fault.Message).ToDictionary(group => group.Key, group => group.ToArray());
}
