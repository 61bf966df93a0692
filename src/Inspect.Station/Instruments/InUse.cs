using System.Text.Json.Nodes;
using Dapper;
using Inspect.Sheets;
using Inspect.Station.Access;
using Inspect.Station.Storage;

namespace Inspect.Station.Instruments;

/// <summary>Which instrument of each kind an inspector uses at their table, and its name in the readings.</summary>
public sealed class InUse(Database database)
{
    /// <summary>The form field for the instrument of a kind in use.</summary>
    public static string Field(InstrumentKind kind) => $"use.{InstrumentKinds.WordOf(kind)}";

    /// <summary>The form field for the constant of the scale in use.</summary>
    public const string ScaleConstantField = "use.scale.constant";

    /// <summary>The instruments a person chose: kind to name. Those retired since are left out.</summary>
    public IReadOnlyDictionary<InstrumentKind, string> Of(PersonId person)
    {
        using var connection = database.OpenForReading();
        var chosen = connection.Query<ChoiceRow>(
            "SELECT kind AS Kind, instrument AS Instrument FROM instrument_in_use WHERE person = @person",
            new { person = person.ToString() });
        var usable = InstrumentBook.All(connection, null).Where(one => !one.IsRetired)
            .ToDictionary(one => one.Name, one => one, StringComparer.OrdinalIgnoreCase);
        return chosen.Select(row => usable.GetValueOrDefault(row.Instrument)).OfType<Instrument>()
            .ToDictionary(one => one.Kind, one => one.Name);
    }

    /// <summary>Saves what a person uses from now on, in place of their earlier choice.</summary>
    public static void Choose(WriteTransaction write, PersonId person, IEnumerable<Instrument> chosen, DateTimeOffset at)
    {
        write.Connection.Execute("DELETE FROM instrument_in_use WHERE person = @person", new { person = person.ToString() },
            write.Transaction);
        foreach (var one in chosen)
        {
            write.Connection.Execute(
                "INSERT INTO instrument_in_use (person, kind, instrument, since) VALUES (@person, @kind, @Name, @since)",
                new { person = person.ToString(), kind = InstrumentKinds.WordOf(one.Kind), one.Name, since = UtcText.Of(at) },
                write.Transaction);
        }
    }

    /// <summary>Adds the instrument in use at the table to each reading of a request to record. Readings that name one
    /// already are not changed.</summary>
    /// <param name="request">The request with its sheet.</param>
    /// <param name="chosen">Which instrument of a kind was in use where the reading at a path of the sheet was
    /// typed; empty for none.</param>
    public static void Name(JsonObject request, Func<string, InstrumentKind, string> chosen)
    {
        if (request["sheet"] is not JsonObject sheet)
        {
            return;
        }

        var observations = request["observations"] as JsonArray ?? [];
        var observed = new HashSet<string>(StringComparer.Ordinal);
        foreach (var observation in observations.OfType<JsonObject>())
        {
            var path = observation["path"]?.GetValue<string>() ?? "";
            observed.Add(path);
            if (observation["instrument"] is null && NameFor(path, chosen) is { } name)
            {
                observation["instrument"] = name;
            }
        }

        foreach (var (path, text) in Readings(sheet))
        {
            if (!observed.Contains(path) && NameFor(path, chosen) is { } name)
            {
                observations.Add((JsonNode)new JsonObject { ["path"] = path, ["text"] = text, ["instrument"] = name });
            }
        }

        if (observations.Count > 0 && observations.Parent is null)
        {
            request["observations"] = observations;
        }
    }

    private static string? NameFor(string path, Func<string, InstrumentKind, string> chosen) =>
        InstrumentKinds.For(path).Select(kind => chosen(path, kind)).FirstOrDefault(name => name.Length > 0);

    private static IEnumerable<(string Path, string Text)> Readings(JsonObject sheet) =>
        from member in Catalogue.All
        where member.IsMeasured
        from found in At(sheet, "", (member.IsList ? $"{member.Path}[]" : member.Path).Split('.'))
        where Text(found.Node) is not null
        select (found.Path, Text(found.Node)!);

    /// <summary>Every value at a path; <c>holes[]</c> means every hole.</summary>
    private static IEnumerable<(string Path, JsonNode? Node)> At(JsonNode? node, string path, ReadOnlyMemory<string> steps)
    {
        if (steps.IsEmpty)
        {
            return [(path, node)];
        }

        var (step, rest) = (steps.Span[0], steps[1..]);
        var name = step.TrimEnd('[', ']');
        var (below, at) = ((node as JsonObject)?[name], path.Length == 0 ? name : $"{path}.{name}");
        return name == step ? At(below, at, rest)
            : (below as JsonArray ?? []).Index()
                .SelectMany(each => At(each.Item, FormattableString.Invariant($"{at}[{each.Index}]"), rest));
    }

    private static string? Text(JsonNode? node) => node is JsonValue value && value.TryGetValue<string>(out var text) ? text : null;

    private sealed record ChoiceRow(string Kind, string Instrument);
}
