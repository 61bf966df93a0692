using System.Text;
using Inspect.Sheets.Form;
using Inspect.Sheets.Json;
using Inspect.Sheets.Readings;

namespace Inspect.Sheets.Tests;

/// <summary>Every member goes from a sheet into the form's fields and from there into the same sheet again: one that the
/// form cannot reach fails here.</summary>
public class FormWalkTests
{
    private static readonly Sheet Full = SheetReader.Read(Encoding.UTF8.GetBytes(FullSheet.Json), [])!;

    public static TheoryData<string> Typed => [.. Catalogue.All.Where(member => member.IsTyped).Select(member => member.Path)];

    [Theory]
    [MemberData(nameof(Typed))]
    public void Form_OfAFullSheet_MakesTheMemberAgain(string path)
    {
        var member = Catalogue.At(path)!;

        Assert.Equal(Texts(member, Full), Texts(member, Again));
    }

    [Fact]
    public void Form_OfAFullSheet_IsWithoutFault() => Assert.Empty(Made.Faults);

    private static readonly MeasureForm Made = MeasureForm.From(TypedFields.Of(SheetFields.Of(Full, []).AsEnumerable()));

    private static readonly Sheet Again = Read();

    private static Sheet Read()
    {
        var faults = new List<Fault>();
        var sheet = SheetReader.Read(Encoding.UTF8.GetBytes(Made.Sheet.ToJsonString()), faults, new SheetDefaults("us-national"));
        Assert.Empty(faults);
        return sheet!;
    }

    // The holes of the form come in the order of its rows, and a sign is written in its plain form.
    private static IEnumerable<string> Texts(SheetMember member, Sheet sheet) =>
        member.On(sheet).Where(said => said.Value is not null).Select(said => said.Value switch
    {
        Reading reading => reading.Text.Replace('\u2212', '-'),
        IReadOnlyList<string> words => string.Join(' ', words),
        var value => value!.ToString()!,
    }).Distinct().Order(StringComparer.Ordinal);
}
