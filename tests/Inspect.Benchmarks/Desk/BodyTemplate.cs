using System.Buffers;
using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using Inspect.Ledger;

namespace Inspect.Benchmarks.Desk;

/// <summary>What stands in one generated entry and in no other.</summary>
internal sealed record EntryFacts(
    long Seq, string Prior, string Number, string Code, string At, string Event, string Entry, string Ball, string Serial, string Bowler,
    string By, string Play);

/// <summary>A recorded body cut at what differs from entry to entry, so that a million of them are written without being parsed.</summary>
internal sealed class BodyTemplate
{
    private const char Mark = '\u0001';

    private static readonly (string Name, Func<EntryFacts, string> Of)[] Places =
    [
        ("seq", facts => facts.Seq.ToString(CultureInfo.InvariantCulture)),
        ("prior", facts => facts.Prior),
        ("number", facts => facts.Number),
        ("code", facts => facts.Code),
        ("at", facts => facts.At),
        ("event", facts => facts.Event),
        ("entry", facts => facts.Entry),
        ("ball", facts => facts.Ball),
        ("serial", facts => facts.Serial),
        ("bowler", facts => facts.Bowler),
        ("by", facts => facts.By),
        ("play", facts => facts.Play),
    ];

    private readonly List<byte[]> _texts = [];
    private readonly List<Func<EntryFacts, string>> _values = [];

    public BodyTemplate(byte[] body)
    {
        var members = JsonNode.Parse(body)!.AsObject();
        Outcome = members["verdict"]!["outcome"]!.GetValue<string>();
        Model = $"{members["sheet"]!["ball"]!["maker"]} {members["sheet"]!["ball"]!["model"]}";
        Rules =
        [
            .. members["verdict"]!["findings"]!.AsArray()
                .Where(finding => finding!["outcome"]!.GetValue<string>() != "pass")
                .GroupBy(finding => finding!["rule"]!.GetValue<string>())
                .Select(rule => (rule.Key, rule.Any(finding => finding!["outcome"]!.GetValue<string>() == "fail") ? "fail" : "hold")),
        ];
        foreach (var name in new[] { "seq", "prior", "number", "code", "at", "event", "entry", "ball" })
        {
            members[name] = Placeholder(name);
        }

        members["sheet"]!["ball"]!["serial"] = Placeholder("serial");
        members["sheet"]!["play"] = Placeholder("play");
        members["bowler"]!["person"] = Placeholder("bowler");
        members["by"]!["person"] = Placeholder("by");
        Cut(Encoding.UTF8.GetString(CanonicalJson.Write(members)));
    }

    /// <summary>The verdict.</summary>
    public string Outcome { get; }

    /// <summary>Maker and model of the ball.</summary>
    public string Model { get; }

    /// <summary>The rules that were not passed, and how each came out.</summary>
    public IReadOnlyList<(string Rule, string Outcome)> Rules { get; }

    /// <summary>The body with these facts: the canonical bytes.</summary>
    public byte[] Write(EntryFacts facts)
    {
        var bytes = new ArrayBufferWriter<byte>(8192);
        for (var i = 0; i < _values.Count; i++)
        {
            bytes.Write(_texts[i]);
            Encoding.UTF8.GetBytes(_values[i](facts), bytes);
        }

        bytes.Write(_texts[^1]);
        return bytes.WrittenSpan.ToArray();
    }

    private static string Placeholder(string name) => $"@@{name}@@";

    // The number of an entry is a number in JSON, so its placeholder loses its quotes.
    private void Cut(string text)
    {
        text = text.Replace($"\"{Placeholder("seq")}\"", Placeholder("seq"), StringComparison.Ordinal);
        foreach (var ((name, _), index) in Places.Select((place, index) => (place, index)))
        {
            text = text.Replace(Placeholder(name), $"{Mark}{(char)('a' + index)}", StringComparison.Ordinal);
        }

        var pieces = text.Split(Mark);
        _texts.Add(Encoding.UTF8.GetBytes(pieces[0]));
        foreach (var piece in pieces[1..])
        {
            _values.Add(Places[piece[0] - 'a'].Of);
            _texts.Add(Encoding.UTF8.GetBytes(piece[1..]));
        }
    }
}
