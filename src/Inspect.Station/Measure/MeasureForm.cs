using System.Text.Json.Nodes;
using Inspect.Sheets;
using Inspect.Sheets.Json;
using Inspect.Sheets.Readings;
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
        PutList("grip.digits", Fields.Several("grip.digits"));
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
}
