using Inspect.Sheets.Json;

namespace Inspect.Station.Rulesets;

/// <summary>The bytes of one edition and where they were found.</summary>
/// <param name="Id">Authority and first day as the place says, such as <c>us-national/2020-08-01</c>.</param>
/// <param name="Place">The file for a message to a person.</param>
/// <param name="Utf8">The bytes of the file, which are hashed.</param>
public sealed record RulesetFile(string Id, string Place, byte[] Utf8);

/// <summary>One thing wrong with a file of rulesets.</summary>
public sealed record RulesetFault(string Place, Fault Fault)
{
    public RulesetFault(string place, string path, string message)
        : this(place, new Fault(path, message))
    {
    }

    /// <summary>File, path and fault on one line.</summary>
    public override string ToString() => $"{Place}: {Fault.Path}: {Fault.Message}";
}
