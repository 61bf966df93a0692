using System.Text;
using System.Text.Json;
using Inspect.Station.Papers;
using Inspect.Station.Record;

namespace Inspect.Station.Close;

/// <summary>What an event's entries of the register name that is kept beside it: the rules of its inspections and its reports, each by its
/// name in the archive and its hash.</summary>
/// <param name="eventId">The event's short name.</param>
internal sealed class NamedInRegister(string eventId)
{
    // How the canonical bytes of an entry say it; only such entries are parsed.
    private readonly byte[] _event = Encoding.UTF8.GetBytes($"\"event\":\"{eventId}\"");

    /// <summary>The editions, supplements and lists of models.</summary>
    public HashSet<(string Name, string Sha256)> Rules { get; } = [];

    /// <summary>The closing reports.</summary>
    public HashSet<(string Name, string Sha256)> Reports { get; } = [];

    /// <summary>How many inspections of the event there are.</summary>
    public long Inspections { get; private set; }

    /// <summary>The name of an edition's file.</summary>
    public static string Edition(string id) => $"editions/{id}.json";

    /// <summary>The name of a supplement's file.</summary>
    public static string Supplement(string id) => $"supplements/{id}.json";

    /// <summary>The name of the file of a list of models.</summary>
    public static string List(string sha256) => $"lists/{sha256}.csv";

    /// <summary>The name of a report's file.</summary>
    public static string Report(string number) => $"reports/{number}.pdf";

    /// <summary>Takes a line of the register; one that cannot be read is left to the check of the register.</summary>
    public void Add(ReadOnlyMemory<byte> body)
    {
        if (body.Span.IndexOf(_event) < 0)
        {
            return;
        }

        try
        {
            using var entry = JsonDocument.Parse(body);
            var members = entry.RootElement;
            if (Text(members, "event") != eventId)
            {
                return;
            }

            switch (Text(members, "kind"))
            {
                case InspectionBody.Kind:
                    Inspections++;
                    if (members.TryGetProperty("edition", out var edition))
                    {
                        Rules.Add((Edition(Text(edition, "id")), Text(edition, "sha256")));
                    }

                    if (members.TryGetProperty("supplements", out var supplements))
                    {
                        Rules.UnionWith(supplements.EnumerateArray().Select(each => (Supplement(Text(each, "id")), Text(each, "sha256"))));
                    }

                    if (members.TryGetProperty("list", out var list))
                    {
                        Rules.Add((List(Text(list, "sha256")), Text(list, "sha256")));
                    }

                    break;
                case IssuedReports.Kind:
                    Reports.Add((Report(Text(members, "report")), Text(members, "sha256")));
                    break;
                default:
                    break;
            }
        }
        catch (Exception unreadable) when (unreadable is JsonException or InvalidOperationException)
        {
        }
    }

    private static string Text(JsonElement members, string name) =>
        members.TryGetProperty(name, out var text) ? text.GetString() ?? "" : "";
}
