using System.Text.Json.Nodes;
using Inspect.Sheets.Json;
using Inspect.Sheets.Readings;

namespace Inspect.Sheets.Form;

/// <summary>The measuring form as typed, and the sheet made from it: the same JSON that a program would send.</summary>
/// <remarks>
/// A field is named by the path of the member it becomes. Where the form adds a unit or a side, the sheet gets the text with both. A hole's
/// row (<c>hole.thumb.depth</c>) becomes an element of <c>holes</c>; <see cref="FieldOf"/> leads a fault back to its field.
/// </remarks>
public sealed partial class MeasureForm
{
    /// <summary>The digits in the order in which their holes are gauged.</summary>
    public static readonly IReadOnlyList<Digit> Digits = [Digit.Thumb, Digit.Middle, Digit.Ring, Digit.Index, Digit.Little];

    // For parts of the sheet that were made from fields with other names: how the path begins, and the field's name instead.
    private readonly List<(string Path, string Field)> _origins = [];
    private readonly List<SeveralReadings> _several = [];
    private const string HouseBall = "ball.houseBall.";

    private MeasureForm(TypedFields fields) => Fields = fields;

    /// <summary>What was entered in the form.</summary>
    public TypedFields Fields { get; }

    /// <summary>The faults in what was typed, by field.</summary>
    public List<Fault> Faults { get; } = [];

    /// <summary>The sheet made from the form.</summary>
    public JsonObject Sheet { get; } = [];

    /// <summary>The readings left out on purpose: the field, and why.</summary>
    public IReadOnlyList<(string Field, string Reason)> LeftOut { get; private set; } = [];

    /// <summary>The values that were computed from several readings.</summary>
    public IReadOnlyList<SeveralReadings> Several => _several;

    /// <summary>Reads the fields of a form.</summary>
    public static MeasureForm From(TypedFields fields)
    {
        var read = new MeasureForm(fields);
        read.Fill();
        return read;
    }

    /// <summary>The exact text typed into a field.</summary>
    public string Typed(string name) => Fields.One(name);

    /// <summary>Adds a fault of the sheet, at the field that it came from.</summary>
    public void Refuse(Fault fault) => Refuse(FieldOf(fault.Path), fault.Message);

    /// <summary>Adds a fault at a field.</summary>
    public void Refuse(string field, string message) => Faults.Add(new Fault(field, message));

    /// <summary>The field that a path of the sheet was made from.</summary>
    public string FieldOf(string path)
    {
        var origin = _origins.Where(each => path.StartsWith(each.Path, StringComparison.Ordinal))
            .OrderByDescending(each => each.Path.Length).FirstOrDefault();
        var field = origin.Path is null ? path : origin.Field + path[origin.Path.Length..];
        return field switch
        {
            "holes" => _origins.Count == 0 ? "hole.thumb.diameter" : "holes.other",
            _ when Catalogue.At(field) is { Kind: MemberKind.Reading, IsList: true } list && list.Path == field => $"{field}[0]",
            _ when field.EndsWith(".pieces", StringComparison.Ordinal) => $"{field}[0].diameter",
            _ when field.EndsWith(".position", StringComparison.Ordinal) => $"{field}.arc",
            _ when field.EndsWith(".pitch", StringComparison.Ordinal) => $"{field}.south",
            _ when field.EndsWith(".angle", StringComparison.Ordinal) => $"{field[..^".angle".Length]}.arc",
            _ => field,
        };
    }

    /// <summary>The member of the sheet that a field becomes, as a program would name it.</summary>
    public string PathOf(string field)
    {
        var origin = _origins.Where(each => field.StartsWith($"{each.Field}.", StringComparison.Ordinal))
            .OrderByDescending(each => each.Field.Length).FirstOrDefault();
        return origin.Path is not null ? origin.Path + field[origin.Field.Length..]
            : field.StartsWith("hole.", StringComparison.Ordinal) ? "holes" : field;
    }

    private void Fill()
    {
        foreach (var member in Catalogue.All.Where(member => member is { IsTyped: true, IsOfHole: false }))
        {
            if (member.Path == "holes")
            {
                PutHoles();
            }
            else if (Catalogue.Marks.Any(mark => member.Path.StartsWith($"{mark.Path}.", StringComparison.Ordinal)))
            {
                PutMark(member);
            }
            else if (!member.Path.StartsWith(HouseBall, StringComparison.Ordinal) || IsHouseBall())
            {
                Put(member);
            }
        }

        LeftOut = FormFields.LeftOut(Fields, Faults);
    }

    /// <summary>Adds the constant of the scale in use to the weights. Advice on a remedy uses it; no verdict does.</summary>
    public void PutScaleConstant(string constant)
    {
        const string Path = "weights.scaleConstant";
        if (ReadingParser.Parse(constant, Quantity.Length).Reading is not { } known)
        {
            return;
        }

        if (ReadingParser.Parse(Typed(Path), Quantity.Length, Unit.Inch).Reading is { } typed && typed.Value != known.Value)
        {
            Refuse(
                Path,
                $"\"{Typed(Path)}\" is not the constant of the scale in use, which is {known.Text}; "
                + "leave it out, or change the instrument.");
        }

        Put(Path, JsonValue.Create(known.Text));
    }

    /// <summary>A place is read from its distance and its direction together.</summary>
    private void PutMark(SheetMember member)
    {
        if (member.Name == "arc" && member.Path[..^".arc".Length] is var path && Place(path) is { } place)
        {
            Put(path, place);
        }
    }

    /// <summary>Whether the ball is marked as a house ball. The sheet then says so even when nothing more is known, and the rules ask for
    /// the rest.</summary>
    private bool IsHouseBall()
    {
        if (Typed("ball.house") != "yes")
        {
            return false;
        }

        if (Sheet["ball"]?["houseBall"] is null)
        {
            Put("ball.houseBall", new JsonObject());
        }

        return true;
    }
}
