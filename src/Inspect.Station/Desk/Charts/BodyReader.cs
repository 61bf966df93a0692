using System.Text.Json;
using Inspect.Rules.Judging;
using Inspect.Station.Record;

namespace Inspect.Station.Desk.Charts;

/// <summary>Reads from the bodies of inspections only what the charts count.</summary>
/// <remarks>Use one reader for the bodies of one event: texts that recur are stored once.</remarks>
internal sealed class BodyReader
{
    private const int LongestShared = 200;

    private readonly HashSet<string> _texts = new(StringComparer.Ordinal);
    private readonly HashSet<JudgedUnder> _under = [];
    private readonly HashSet<Allowed> _limits = [];

    // Words of version 1 recur as well, so each is read once.
    private readonly Dictionary<(string Words, string? Path), decimal?> _measured = [];
    private readonly Dictionary<(string Words, string? Path), Allowed> _allowed = [];

    private int _version;

    /// <summary>When it was measured, or else recorded, the findings and the single readings.</summary>
    /// <exception cref="JsonException">The body is not a JSON object.</exception>
    public BodyFigures Read(ReadOnlySpan<byte> body)
    {
        var reader = new Utf8JsonReader(body);
        string? at = null, measuredAt = null;
        IReadOnlyList<CountedFinding> findings = [];
        var under = JudgedUnder.Nothing;
        IReadOnlyList<CountedObservation> observations = [];
        reader.Read();
        while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
        {
            if (reader.ValueTextEquals("at"u8))
            {
                at = Text(ref reader);
            }
            else if (reader.ValueTextEquals("v"u8))
            {
                // In a canonical body it comes before the verdict.
                reader.Read();
                _version = reader.GetInt32();
            }
            else if (reader.ValueTextEquals("measuredAt"u8))
            {
                measuredAt = Text(ref reader);
            }
            else if (reader.ValueTextEquals("observations"u8))
            {
                observations = List(ref reader, Observation);
            }
            else if (reader.ValueTextEquals("verdict"u8))
            {
                findings = Verdict(ref reader, out under);
            }
            else
            {
                reader.Skip();
            }
        }

        return new BodyFigures(
            InspectionBody.ReadInstant(measuredAt ?? at ?? throw new JsonException("This inspection has no \"at\".")), under, findings,
            observations);
    }

    private delegate T Member<out T>(ref Utf8JsonReader reader);

    private IReadOnlyList<CountedFinding> Verdict(ref Utf8JsonReader reader, out JudgedUnder under)
    {
        IReadOnlyList<CountedFinding> findings = [];
        under = JudgedUnder.Nothing;
        reader.Read();
        while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
        {
            if (reader.ValueTextEquals("findings"u8))
            {
                findings = List(ref reader, Finding);
            }
            else if (reader.ValueTextEquals("edition"u8))
            {
                reader.Read();
                under = under with { Edition = Mark(ref reader) };
            }
            else if (reader.ValueTextEquals("supplements"u8))
            {
                under = under with { Supplements = List(ref reader, Mark) };
            }
            else if (reader.ValueTextEquals("decision"u8))
            {
                under = under with { Decision = Text(ref reader) };
            }
            else if (reader.ValueTextEquals("guardFactor"u8))
            {
                under = under with { GuardFactor = Text(ref reader) };
            }
            else
            {
                reader.Skip();
            }
        }

        // An event is judged under a few sets of rules: inspections under the same set share one.
        if (!_under.TryGetValue(under, out var known))
        {
            _under.Add(under);
            known = under;
        }

        under = known;
        return findings;
    }

    private RulesMark Mark(ref Utf8JsonReader reader)
    {
        var (id, sha256) = ("", "");
        string? version = null;
        while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
        {
            if (reader.ValueTextEquals("id"u8))
            {
                id = Text(ref reader);
            }
            else if (reader.ValueTextEquals("version"u8))
            {
                version = Text(ref reader);
            }
            else if (reader.ValueTextEquals("sha256"u8))
            {
                sha256 = Text(ref reader);
            }
            else
            {
                reader.Skip();
            }
        }

        return new RulesMark(id, version, sha256);
    }

    private static List<T> List<T>(ref Utf8JsonReader reader, Member<T> read)
    {
        var list = new List<T>(24);
        reader.Read();
        while (reader.Read() && reader.TokenType == JsonTokenType.StartObject)
        {
            list.Add(read(ref reader));
        }

        return list;
    }

    private CountedFinding Finding(ref Utf8JsonReader reader)
    {
        var (rule, outcome) = ("", Outcome.Hold);
        string? path = null, measured = null, limit = null;
        var numbers = default(RecordedNumbers);
        while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
        {
            if (reader.ValueTextEquals("rule"u8))
            {
                rule = Text(ref reader);
            }
            else if (reader.ValueTextEquals("path"u8))
            {
                path = Text(ref reader);
            }
            else if (reader.ValueTextEquals("outcome"u8))
            {
                outcome = VerdictJson.Outcomes[Text(ref reader)];
            }
            else if (reader.ValueTextEquals("measured"u8))
            {
                measured = Text(ref reader);
            }
            else if (reader.ValueTextEquals("limit"u8))
            {
                limit = Text(ref reader);
            }
            else if (reader.ValueTextEquals("exact"u8))
            {
                reader.Read();
                numbers = RecordedNumbers.Read(ref reader);
            }
            else
            {
                reader.Skip();
            }
        }

        var isWords = _version == VerdictJson.WordsOnly;
        return new CountedFinding(
            rule,
            path,
            outcome,
            measured is null ? null : isWords ? MeasuredInWords((measured, path)) : new Amount(measured, numbers.Measured).Measure,
            limit is null ? null : isWords ? AllowedInWords((limit, path)) : Shared(new Allowed(limit, numbers.Limit)));
    }

    private decimal? MeasuredInWords((string Words, string? Path) read) => _measured.TryGetValue(read, out var known)
        ? known
        : _measured[read] = FirstVersion.Measured(read.Words, read.Path).Measure;

    private Allowed AllowedInWords((string Words, string? Path) read) => _allowed.TryGetValue(read, out var known)
        ? known
        : _allowed[read] = FirstVersion.Allowed(read.Words, read.Path);

    // The same limits recur in every inspection of an event, so equal ones are stored once.
    private Allowed Shared(Allowed allowed)
    {
        if (!_limits.TryGetValue(allowed, out var known))
        {
            _limits.Add(allowed);
            known = allowed;
        }

        return known;
    }

    private CountedObservation Observation(ref Utf8JsonReader reader)
    {
        var (path, text, turned) = ("", "", false);
        string? instrument = null;
        int? trial = null;
        while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
        {
            if (reader.ValueTextEquals("path"u8))
            {
                path = Text(ref reader);
            }
            else if (reader.ValueTextEquals("text"u8))
            {
                text = Text(ref reader);
            }
            else if (reader.ValueTextEquals("instrument"u8))
            {
                instrument = Text(ref reader);
            }
            else if (reader.ValueTextEquals("turned"u8))
            {
                reader.Read();
                turned = reader.GetBoolean();
            }
            else if (reader.ValueTextEquals("trial"u8))
            {
                reader.Read();
                trial = reader.GetInt32();
            }
            else
            {
                reader.Skip();
            }
        }

        return new CountedObservation(path, text, instrument, turned, trial);
    }

    private string Text(ref Utf8JsonReader reader)
    {
        reader.Read();
        if (reader.ValueSpan.Length > LongestShared)
        {
            return reader.GetString()!;
        }

        Span<char> letters = stackalloc char[LongestShared];
        letters = letters[..reader.CopyString(letters)];
        var known = _texts.GetAlternateLookup<ReadOnlySpan<char>>();
        if (!known.TryGetValue(letters, out var text))
        {
            text = letters.ToString();
            _texts.Add(text);
        }

        return text;
    }
}

/// <summary>What the charts count from one body.</summary>
/// <param name="At">When it was measured, or else recorded.</param>
/// <param name="Under">Which rules were applied.</param>
/// <param name="Findings">The findings.</param>
/// <param name="Observations">The single readings.</param>
internal sealed record BodyFigures(
    DateTimeOffset At, JudgedUnder Under, IReadOnlyList<CountedFinding> Findings, IReadOnlyList<CountedObservation> Observations);
