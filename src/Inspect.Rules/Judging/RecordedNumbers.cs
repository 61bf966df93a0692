using System.Globalization;
using System.Text.Json;
using Inspect.Rules.Rulesets;
using Inspect.Sheets.Readings;

namespace Inspect.Rules.Judging;

/// <summary>The numbers of a finding as records of version 2 hold them, in the member <c>exact</c> next to the words.</summary>
/// <remarks>
/// <c>{"measured": N, "limit": {"atMost": N}, "margin": N}</c>, each where it is a number. An end of the limit is named <c>atLeast</c>,
/// <c>over</c>, <c>atMost</c> or <c>under</c>. A number N has its <c>value</c>, or the <c>sum</c> <c>of</c> so many readings, as text in
/// the base unit, which <c>unit</c> names; <c>written</c> is the unit it was written in, with <c>fraction</c> or so many <c>decimals</c>.
/// A count has no unit. An end of a limit has its <c>text</c> as well.
/// </remarks>
public readonly record struct RecordedNumbers(Exact? Measured, Limit? Limit, Exact? Margin)
{
    /// <summary>Writes the member <c>exact</c> of a finding, where it has numbers.</summary>
    internal static void Write(Utf8JsonWriter to, JsonEncodedText name, Finding finding, bool byName)
    {
        var (measured, limit, margin) = (finding.Measured?.Exact, finding.Limit?.Limit, finding.Margin?.Exact);
        if (measured is null && limit is null && margin is null)
        {
            return;
        }

        to.WriteStartObject(name);
        if (limit is not null)
        {
            to.WriteStartObject("limit"u8);
            End(limit.Least, true, "atLeast"u8);
            End(limit.Most, true, "atMost"u8);
            End(limit.Least, false, "over"u8);
            End(limit.Most, false, "under"u8);
            to.WriteEndObject();
        }

        Number("margin"u8, margin);
        Number("measured"u8, measured);
        to.WriteEndObject();

        void End(Bound? bound, bool inclusive, ReadOnlySpan<byte> name)
        {
            if (bound is not null && bound.Inclusive == inclusive)
            {
                Write(to, name, new Exact(bound.Value, bound.Notation), bound.Text);
            }
        }

        void Number(ReadOnlySpan<byte> name, Exact? exact)
        {
            if (exact is { } number)
            {
                Write(to, name, number);
            }
        }
    }

    /// <summary>Reads the member <c>exact</c> to the end of its object; the reader must be at the beginning of that object.</summary>
    /// <exception cref="FormatException">It does not have the form described at <see cref="RecordedNumbers"/>.</exception>
    public static RecordedNumbers Read(ref Utf8JsonReader reader)
    {
        var read = default(RecordedNumbers);
        while (NextMember(ref reader))
        {
            if (reader.ValueTextEquals("measured"u8))
            {
                read = read with { Measured = Number(ref reader, out _) };
            }
            else if (reader.ValueTextEquals("margin"u8))
            {
                read = read with { Margin = Number(ref reader, out _) };
            }
            else if (reader.ValueTextEquals("limit"u8))
            {
                read = read with { Limit = Ends(ref reader) };
            }
            else
            {
                reader.Skip();
            }
        }

        return read;
    }

    private static void Write(Utf8JsonWriter to, ReadOnlySpan<byte> name, Exact exact, string? text = null)
    {
        var sum = Written.Plain(exact.Sum);
        to.WriteStartObject(name);
        if (exact.Notation is { Decimals: > 0 and var decimals })
        {
            to.WriteNumber("decimals"u8, decimals);
        }

        if (exact.Notation is { Fraction: true })
        {
            to.WriteBoolean("fraction"u8, true);
        }

        if (exact.Of != 1)
        {
            to.WriteNumber("of"u8, exact.Of);
            to.WriteString("sum"u8, sum);
        }

        if (text is not null)
        {
            to.WriteString("text"u8, text);
        }

        if (exact.Notation is { } notation)
        {
            to.WriteString("unit"u8, Units.Word(Units.Base(notation.Unit)));
        }

        if (exact.Of == 1)
        {
            to.WriteString("value"u8, sum);
        }

        if (exact.Notation is { } written)
        {
            to.WriteString("written"u8, Units.Word(written.Unit));
        }

        to.WriteEndObject();
    }

    private static Limit Ends(ref Utf8JsonReader reader)
    {
        Bound? least = null, most = null;
        reader.Read();
        while (NextMember(ref reader))
        {
            var (isLeast, inclusive) = (reader.ValueTextEquals("atLeast"u8) || reader.ValueTextEquals("over"u8),
                reader.ValueTextEquals("atLeast"u8) || reader.ValueTextEquals("atMost"u8));
            var exact = Number(ref reader, out var text);
            var bound = new Bound(exact.Sum, inclusive, text, exact.Notation);
            (least, most) = isLeast ? (bound, most) : (least, bound);
        }

        return new Limit(least, most);
    }

    private static Exact Number(ref Utf8JsonReader reader, out string text)
    {
        text = "";
        var (of, decimals, fraction) = (1, 0, false);
        decimal? sum = null;
        Unit? unit = null;
        if (!reader.Read() || reader.TokenType != JsonTokenType.StartObject)
        {
            throw new FormatException("A number of this record is not written as one.");
        }

        while (NextMember(ref reader))
        {
            if (reader.ValueTextEquals("value"u8) || reader.ValueTextEquals("sum"u8))
            {
                sum = decimal.Parse(
                    Text(ref reader), NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture);
            }
            else if (reader.ValueTextEquals("of"u8))
            {
                reader.Read();
                of = reader.GetInt32();
            }
            else if (reader.ValueTextEquals("decimals"u8))
            {
                reader.Read();
                decimals = reader.GetInt32();
            }
            else if (reader.ValueTextEquals("fraction"u8))
            {
                reader.Read();
                fraction = reader.GetBoolean();
            }
            else if (reader.ValueTextEquals("written"u8))
            {
                var word = Text(ref reader);
                unit = Units.OfWord(word) ?? throw new FormatException($"\"{word}\" is not a unit of a record.");
            }
            else if (reader.ValueTextEquals("text"u8))
            {
                text = Text(ref reader);
            }
            else
            {
                reader.Skip();
            }
        }

        return sum is { } known && of > 0
            ? new Exact(known, unit is { } named ? new Notation(named, fraction, decimals) : null, of)
            : throw new FormatException("A number of this record has no value.");
    }

    private static bool NextMember(ref Utf8JsonReader reader) => reader.Read() && reader.TokenType == JsonTokenType.PropertyName;

    private static string Text(ref Utf8JsonReader reader)
    {
        reader.Read();
        return reader.GetString() ?? throw new FormatException("A text of this record is null.");
    }
}
