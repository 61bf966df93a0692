namespace Inspect.Rules.Judging;

/// <summary>The sentence of a finding: as recorded, or formed when it is read.</summary>
public sealed class Sentence : IEquatable<Sentence>
{
    private readonly Func<int, string>? _make;
    private string? _text;

    /// <summary>A fixed sentence.</summary>
    public Sentence(string text) => _text = text;

    /// <summary>A sentence that is formed when it is read, for a version of the record: the earlier ones word some things otherwise.
    /// </summary>
    internal Sentence(Func<int, string> make) => _make = make;

    /// <inheritdoc/>
    public override string ToString() => In(VerdictJson.Latest);

    /// <summary>Whether the words are the same.</summary>
    public bool Equals(Sentence? other) => other is not null && ToString() == other.ToString();

    /// <inheritdoc/>
    public override bool Equals(object? obj) => Equals(obj as Sentence);

    /// <inheritdoc/>
    public override int GetHashCode() => StringComparer.Ordinal.GetHashCode(ToString());

    /// <summary>The sentence as a record of that version words it.</summary>
    internal string In(int version) =>
        _make is null ? _text! : version == VerdictJson.Latest ? _text ??= _make(version) : _make(version);
}
