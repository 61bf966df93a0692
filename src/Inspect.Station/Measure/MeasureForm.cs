using System.Text.Json.Nodes;
using Inspect.Rules.Json;
using Inspect.Rules.Readings;
using Inspect.Rules.Sheets;
using Inspect.Station.Web;

namespace Inspect.Station.Measure;

/// <summary>The measuring form as typed, and the sheet it makes: the same JSON that a program would send.</summary>
/// <remarks>
/// A field is named by the path of the member it becomes. Where a field adds a unit or a side, the sheet gets the text with both; a
/// hole's row (<c>hole.thumb.depth</c>) becomes an element of <c>holes</c>, and faults find their way back by <see cref="FieldOf"/>.
/// </remarks>
public sealed partial class MeasureForm
{
    /// <summary>The digits in the order in which their holes are gauged.</summary>
    public static readonly IReadOnlyList<Digit> Digits = [Digit.Thumb, Digit.Middle, Digit.Ring, Digit.Index, Digit.Little];

    // Where a part of the sheet was made of other fields than its path says: the path it begins with, and the field instead.
    private readonly List<(string Path, string Field)> _origins = [];
    private readonly List<SeveralReadings> _several = [];

    private MeasureForm(TypedFields fields) => Fields = fields;

    /// <summary>What stands in the form.</summary>
    public TypedFields Fields { get; }

    /// <summary>What is wrong with what was typed, by field.</summary>
    public Faults Faults { get; } = new();

    /// <summary>The sheet that the form makes.</summary>
    public JsonObject Sheet { get; } = [];

    /// <summary>The readings left out on purpose: the field, and why.</summary>
    public IReadOnlyList<(string Field, string Reason)> LeftOut { get; private set; } = [];

    /// <summary>The values that were worked out of several readings.</summary>
    public IReadOnlyList<SeveralReadings> Several => _several;

    /// <summary>What was chosen of a list of boxes.</summary>
    public IEnumerable<string> Chosen(string name) => Fields.Several(name);

    /// <summary>A form with nothing measured: only what is known already.</summary>
    public static MeasureForm Blank(IReadOnlyDictionary<string, string> known) => From(TypedFields.Of(known));

    /// <summary>Reads what stands in a form.</summary>
    public static MeasureForm From(TypedFields fields)
    {
        var read = new MeasureForm(fields);
        read.Fill();
        return read;
    }

    /// <summary>What was typed into a field, exactly.</summary>
    public string Typed(string name) => Fields.One(name);

    /// <summary>Adds a fault of the sheet at the field it came from.</summary>
    public void Refuse(Fault fault) => Faults.Add(FieldOf(fault.Path), fault.Message);

    /// <summary>The field that a path of the sheet was made from.</summary>
    public string FieldOf(string path)
    {
        var origin = _origins.Where(each => path.StartsWith(each.Path, StringComparison.Ordinal)).OrderByDescending(each => each.Path.Length).FirstOrDefault();
        var field = origin.Path is null ? path : origin.Field + path[origin.Path.Length..];
        return field switch
        {
            "holes" => _origins.Count == 0 ? "hole.thumb.diameter" : "holes.other",
            "size.diameters" or "hardness.readings" => $"{field}[0]",
            _ when field.EndsWith(".pieces", StringComparison.Ordinal) => $"{field}[0].diameter",
            _ when field.EndsWith(".position", StringComparison.Ordinal) => $"{field}.arc",
            _ when field.EndsWith(".pitch", StringComparison.Ordinal) => $"{field}.south",
            _ when field.EndsWith(".angle", StringComparison.Ordinal) => $"{field[..^".angle".Length]}.arc",
            _ => field,
        };
    }

    /// <summary>The member of the sheet that a field becomes: how a program would name it.</summary>
    public string PathOf(string field)
    {
        var origin = _origins.Where(each => field.StartsWith($"{each.Field}.", StringComparison.Ordinal)).OrderByDescending(each => each.Field.Length).FirstOrDefault();
        return origin.Path is not null ? origin.Path + field[origin.Field.Length..]
            : field.StartsWith("hole.", StringComparison.Ordinal) ? "holes" : field;
    }

    private void Fill()
    {
        PutText("play");
        PutText("grip.hand");
        PutList("grip.digits", Chosen("grip.digits"));
        PutFlag("grip.demonstrated");
        PutText("ball.maker");
        PutText("ball.model");
        PutText("ball.serial");
        PutText("ball.listed");
        PutText("ball.made");
        PutReading("ball.oilAbsorption", Quantity.Duration, Unit.Minute);
        PutFlag("ball.highPerformanceCore");
        PutReading("ball.declared.rg", Quantity.Length, Unit.Inch);
        PutReading("ball.declared.differential", Quantity.SignedLength, Unit.Inch);
        PutReading("ball.declared.intermediate", Quantity.SignedLength, Unit.Inch);
        PutHouseBall();
        PutReading("weights.gross", Quantity.Weight, Unit.PoundOunce);
        foreach (var (path, positive, negative) in FormFields.Imbalances)
        {
            PutImbalance(path, positive, negative);
        }

        PutReading("weights.anyHalves", Quantity.Imbalance, Unit.Ounce);
        PutReading("weights.scaleConstant", Quantity.Length, Unit.Inch);
        PutHoles();
        foreach (var (path, _) in FormFields.Marks)
        {
            if (Place(path) is { } place)
            {
                Put(path, place);
            }
        }

        PutReadings("size.diameters", 4, Quantity.Length, Unit.Inch);
        PutReading("size.circumference", Quantity.Length, Unit.Inch);
        PutReadings("hardness.readings", 5, Quantity.Hardness, Unit.ShoreD);
        PutReading("hardness.temperature", Quantity.Temperature, Unit.Fahrenheit);
        PutFlag("marks.modelReadable");
        PutFlag("marks.serialReadable");
        PutCount("marks.palmMarks");
        PutFlag("marks.foreignMaterial");
        PutFlag("marks.surfacePattern");
        LeftOut = FormFields.LeftOut(Fields, Faults);
    }

    /// <summary>Puts the constant of the scale in use beside the weights: no verdict rests on it, what is said about a cure does.</summary>
    internal void PutScaleConstant(string constant)
    {
        const string Path = "weights.scaleConstant";
        if (ReadingParser.Parse(constant, Quantity.Length).Reading is not { } known)
        {
            return;
        }

        if (ReadingParser.Parse(Typed(Path), Quantity.Length, Unit.Inch).Reading is { } typed && typed.Value != known.Value)
        {
            Faults.Add(Path, $"\"{Typed(Path)}\" is not the constant of the scale in use, which is {known.Text}; leave it out, or change the instrument.");
        }

        Put(Path, JsonValue.Create(known.Text));
    }

    private void PutHouseBall()
    {
        if (Typed("ball.house") != "yes")
        {
            return;
        }

        // Said to be one, and nothing of it known yet: the rules then ask.
        Put("ball.houseBall", new JsonObject());
        PutFlag("ball.houseBall.suppliedByCentre");
        PutText("ball.houseBall.shell");
        PutReading("ball.houseBall.differential", Quantity.Length, Unit.Inch);
        PutFlag("ball.houseBall.drilledForBowler");
    }

    private void PutImbalance(string path, string positive, string negative)
    {
        var (first, turned, again) = (Imbalance(path), Imbalance($"{path}.turned"), Imbalance($"{path}.again"));
        if (Together(path, first, turned, again) is { } text)
        {
            Put(path, JsonValue.Create(text));
        }

        Reading? Imbalance(string name) => Signed(name, Quantity.Imbalance, Unit.Ounce, (positive, negative), $"Choose which side is heavier: {positive} or {negative}.");
    }

    /// <summary>A reading with the sign of its side, or null when nothing was typed or it was refused.</summary>
    private Reading? Signed(string name, Quantity quantity, Unit unit, (string Positive, string Negative) sides, string askWhich)
    {
        if (Read(name, quantity, unit) is not { } reading)
        {
            return null;
        }

        var side = Typed($"{name}.side");
        if (reading.Text.StartsWith('-') || reading.Text.StartsWith('\u2212'))
        {
            Faults.Add(name, $"\"{Typed(name)}\" has a minus sign; write the size and choose {sides.Positive} or {sides.Negative}.");
            return null;
        }

        if (side != sides.Positive && side != sides.Negative && reading.Value != 0)
        {
            Faults.Add(name, askWhich);
            return null;
        }

        return side == sides.Negative ? ReadingParser.Parse($"-{reading.Text}", quantity).Reading : reading;
    }

    /// <summary>The text of one reading, or of the value worked out of several.</summary>
    private string? Together(string field, Reading? first, Reading? turned, Reading? again)
    {
        var last = again is not null ? $"{field}.again" : $"{field}.turned";
        if (first is null || (turned is null && again is null))
        {
            if (first is null && (turned ?? again) is not null && Typed(field).Length == 0)
            {
                Faults.Add(last, $"\"{Typed(last)}\" is a second look, and the first is missing; type the first reading as well.");
            }

            return first?.Text;
        }

        var (worked, refusal) = SeveralReadings.Of(field, first, turned, again);
        if (worked is null)
        {
            Faults.Add(last, refusal!);
            return null;
        }

        _several.Add(worked);
        return worked.Value;
    }

    private void PutReadings(string path, int fields, Quantity quantity, Unit unit)
    {
        var texts = Enumerable.Range(0, fields)
            .Select(i => Measured(FormattableString.Invariant($"{path}[{i}]"), quantity, unit))
            .OfType<string>();
        PutList(path, texts);
    }

    private void PutReading(string path, Quantity quantity, Unit unit)
    {
        if (Measured(path, quantity, unit) is { } text)
        {
            Put(path, JsonValue.Create(text));
        }
    }

    /// <summary>The reading's text with its unit, or null when nothing was typed or it was refused.</summary>
    private string? Measured(string name, Quantity quantity, Unit unit) =>
        Together(name, Read(name, quantity, unit), null, FormFields.CanRepeat(name) ? Read($"{name}.again", quantity, unit) : null);

    private Reading? Read(string name, Quantity quantity, Unit unit)
    {
        if (Typed(name) is not { Length: > 0 } typed)
        {
            return null;
        }

        var result = ReadingParser.Parse(typed, quantity, unit);
        if (result.Refusal is { } refusal)
        {
            // An imbalance has its side and no sign here, unlike in a sheet that a program sends.
            Faults.Add(name, refusal.Replace(", -0.5 oz or", " or", StringComparison.Ordinal));
        }

        return result.Reading;
    }

    private void PutText(string path)
    {
        if (Typed(path) is { Length: > 0 } text)
        {
            Put(path, JsonValue.Create(text));
        }
    }

    private void PutFlag(string path)
    {
        if (Typed(path) is "yes" or "no")
        {
            Put(path, JsonValue.Create(Typed(path) == "yes"));
        }
    }

    private void PutCount(string path)
    {
        if (Typed(path) is not { Length: > 0 } typed)
        {
            return;
        }

        if (int.TryParse(typed, System.Globalization.NumberStyles.None, System.Globalization.CultureInfo.InvariantCulture, out var count))
        {
            Put(path, JsonValue.Create(count));
        }
        else
        {
            Faults.Add(path, $"\"{typed}\" is not a whole number; write 0, 1 or 2.");
        }
    }

    private void PutList(string path, IEnumerable<string> texts)
    {
        var list = texts.ToList();
        if (list.Count > 0)
        {
            Put(path, new JsonArray([.. list.Select(text => JsonValue.Create(text))]));
        }
    }

    private static void Add(JsonObject hole, string name, string? text)
    {
        if (!string.IsNullOrEmpty(text))
        {
            hole[name] = text;
        }
    }

    private void Put(string path, JsonNode? value)
    {
        var steps = path.Split('.');
        var place = Sheet;
        foreach (var step in steps[..^1])
        {
            if (place[step] is not JsonObject inner)
            {
                place[step] = inner = [];
            }

            place = inner;
        }

        place[steps[^1]] = value;
    }
}
