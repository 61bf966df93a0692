using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
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
    /// <summary>The numbers of a finding, or null where it has none.</summary>
    internal static JsonObject? Write(Finding finding)
    {
        var written = new JsonObject();
        if (finding.Measured?.Exact is { } measured)
        {
            written["measured"] = Number(measured);
        }

        if (finding.Limit?.Limit is { } limit)
        {
            var ends = new JsonObject();
            Add(limit.Least, "atLeast", "over");
            Add(limit.Most, "atMost", "under");
            written["limit"] = ends;

            void Add(Bound? bound, string inclusive, string exclusive)
            {
                if (bound is not null)
                {
                    var end = Number(new Exact(bound.Value, bound.Notation));
                    end["text"] = bound.Text;
                    ends[bound.Inclusive ? inclusive : exclusive] = end;
                }
            }
        }

        if (finding.Margin?.Exact is { } margin)
        {
            written["margin"] = Number(margin);
        }

        return written.Count > 0 ? written : null;
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

    private static JsonObject Number(Exact exact)
    {
        var written = new JsonObject
        {
            [exact.Of == 1 ? "value" : "sum"] = exact.Sum.ToString("0.############################", CultureInfo.InvariantCulture),
        };
        if (exact.Of != 1)
        {
            written["of"] = exact.Of;
        }

        if (exact.Notation is { } notation)
        {
            written["unit"] = Units.Word(Units.Base(notation.Unit));
            written["written"] = Units.Word(notation.Unit);
            if (notation.Fraction)
            {
                written["fraction"] = true;
            }

            if (notation.Decimals > 0)
            {
                written["decimals"] = notation.Decimals;
            }
        }

        return written;
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
