using System.Buffers;
using System.Globalization;
using System.Text.Json;
using Inspect.Rules.Judging;
using Inspect.Rules.Rulesets;
using Inspect.Sheets;
using Inspect.Sheets.Readings;

namespace Inspect.Benchmarks.Recording;

/// <summary>The reference: the comparisons of the national edition of 2020 written out for a plain ball, without a ruleset, conditions,
/// sentences or faults; and the same from JSON to JSON.</summary>
internal sealed class ByHand(Sheet sheet, Verdict verdict)
{
    private const decimal Ounce = 28.349523125m;
    private const decimal Inch = 25.4m;

    private static readonly Sentence Said = new("By hand.");

    private readonly Reference _reference = verdict.Findings[0].Reference;
    private readonly Limit _limit = verdict.Findings[0].Limit!.Limit!;

    /// <summary>The findings: one for each comparison.</summary>
    public List<Finding> Judge()
    {
        var found = new List<Finding>(32);
        var (weights, size, hardness, marks, holes) = (sheet.Weights!, sheet.Size!, sheet.Hardness!, sheet.Marks!, sheet.Holes!);
        Limit(found, "gross-weight", "weights.gross", weights.Gross!, 0, 256 * Ounce);
        Limit(found, "circumference", "size.circumference", size.Circumference!, 26.704m * Inch, 27.002m * Inch);
        var (low, high) = (size.Diameters![0], size.Diameters[0]);
        foreach (var diameter in size.Diameters)
        {
            low = diameter.Value < low.Value ? diameter : low;
            high = diameter.Value > high.Value ? diameter : high;
        }

        Limit(found, "diameter", "size.diameters[0]", high, 8.5m * Inch, 8.595m * Inch);
        Limit(found, "roundness", "size.diameters", high with { Value = high.Value - low.Value }, 0, 0.01m * Inch);
        State(found, "surface-pattern", "marks.surfacePattern", marks.SurfacePattern == false);
        State(found, "foreign-material", "marks.foreignMaterial", marks.ForeignMaterial == false);
        State(found, "model-name", "marks.modelReadable", marks.ModelReadable == true);
        State(found, "serial-number", "marks.serialReadable", marks.SerialReadable == true);
        State(found, "approved-list", "ball.listed", sheet.Ball!.Listed == Listing.Yes);
        var (gripping, balance) = (0, 0);
        foreach (var hole in holes)
        {
            gripping += hole.Kind is HoleKind.Grip or HoleKind.Indentation ? 1 : 0;
            balance += hole.Kind is HoleKind.Balance ? 1 : 0;
        }

        State(found, "grip-hole-count", "holes", gripping <= 5);
        State(found, "no-balance-hole", "holes", balance == 0);
        State(found, "demonstrated", "grip.demonstrated", sheet.Grip!.Demonstrated == true);
        Limit(found, "top-bottom", "weights.topBottom", weights.TopBottom!, -3 * Ounce, 3 * Ounce);
        Limit(found, "left-right", "weights.leftRight", weights.LeftRight!, -3 * Ounce, 3 * Ounce);
        Limit(found, "finger-thumb", "weights.fingerThumb", weights.FingerThumb!, -3 * Ounce, 3 * Ounce);
        for (var i = 0; i < holes.Count; i++)
        {
            State(found, "one-hole-per-digit", $"holes[{i}].digit", holes[i].Digit is not null);
            State(found, "grip-hole-use", $"holes[{i}]", sheet.Grip.Digits!.Contains(holes[i].Digit!.Value));
            Limit(found, "grip-hole-diameter", $"holes[{i}].diameter", holes[i].Diameter!, 0, 1.5625m * Inch);
            State(found, "void-in-hole", $"holes[{i}].secondaryHole", holes[i].SecondaryHole == false);
            Limit(found, "grip-hole-depth", $"holes[{i}].depth", holes[i].Depth!, 0, 4.5m * Inch);
        }

        var sum = 0m;
        foreach (var reading in hardness.Readings!)
        {
            sum += reading.Value;
        }

        Limit(
            found, "hardness", "hardness.readings", hardness.Readings[0] with { Value = sum }, 72 * hardness.Readings.Count,
            decimal.MaxValue);
        State(found, "temperature", "hardness.temperature", hardness.Temperature!.Value is >= 68 and <= 78);
        return found;
    }

    /// <summary>Reads a sheet's JSON, compares each of its readings once, and writes the texts of a verdict.</summary>
    public static byte[] JudgeJson(byte[] utf8, Verdict texts)
    {
        var within = 0;
        using (var document = JsonDocument.Parse(utf8))
        {
            within = Readings(document.RootElement);
        }

        var utf8Verdict = new ArrayBufferWriter<byte>(16 * 1024);
        using (var json = new Utf8JsonWriter(utf8Verdict))
        {
            json.WriteStartObject();
            json.WriteString("outcome", within > 0 ? "pass" : "fail");
            json.WriteStartArray("findings");
            foreach (var finding in texts.Findings)
            {
                json.WriteStartObject();
                json.WriteString("rule", finding.Rule);
                json.WriteString("subject", finding.Subject);
                json.WriteString("path", finding.Path);
                json.WriteString("outcome", "pass");
                json.WriteString("measured", "8.580 in");
                json.WriteString("limit", "8.500 in to 8.595 in");
                json.WriteString("margin", "0.015 in");
                json.WriteString(
                    "reason", "Every diameter measured lies in the allowed 8.500 in to 8.595 in; the nearest to an end is 8.580 in.");
                json.WriteStartObject("reference");
                json.WriteString("title", finding.Reference.Title);
                json.WriteString("section", finding.Reference.Section);
                json.WriteString("basis", "reprint");
                json.WriteEndObject();
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteEndObject();
        }

        return utf8Verdict.WrittenSpan.ToArray();
    }

    private static int Readings(JsonElement element) => element.ValueKind switch
    {
        JsonValueKind.Object => element.EnumerateObject().Sum(member => Readings(member.Value)),
        JsonValueKind.Array => element.EnumerateArray().Sum(Readings),
        JsonValueKind.String when element.GetString()!.Split(' ')[0] is var number
            && decimal.TryParse(number, NumberStyles.Number, CultureInfo.InvariantCulture, out var value) => value <= 100 ? 1 : 0,
        _ => 0,
    };

    private void Limit(List<Finding> found, string rule, string path, Reading reading, decimal least, decimal most)
    {
        var margin = Math.Min(reading.Value - least, most - reading.Value);
        found.Add(new Finding(
            rule, "ball", path, margin >= 0 ? Outcome.Pass : Outcome.Fail, null,
            new Amount(reading.Text, new Exact(reading.Value, reading.Notation)),
            new Allowed(null, _limit), new Amount(null, new Exact(margin, reading.Notation)), Said, _reference));
    }

    private void State(List<Finding> found, string rule, string path, bool passes) => found.Add(new Finding(
        rule, "ball", path, passes ? Outcome.Pass : Outcome.Fail, null, new Amount(passes ? "yes" : "no"), new Allowed("yes"), null, Said,
        _reference));
}
