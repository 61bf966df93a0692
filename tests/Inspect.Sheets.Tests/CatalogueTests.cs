using System.Text;
using System.Text.Json.Nodes;
using Inspect.Sheets.Readings;

namespace Inspect.Sheets.Tests;

/// <summary>The catalogue leaves nothing out: each member of a sheet, each quantity of the rules and each kind of
/// instrument has its place in it.</summary>
public class CatalogueTests
{
    private static readonly Sheet Full = SheetReader.Read(Encoding.UTF8.GetBytes(FullSheet.Json), [])!;

    [Fact]
    public void All_AFullSheet_IsFoundMemberByMember()
    {
        var written = SheetJson.Write(Full);

        var found = Catalogue.All.SelectMany(member => member.On(Full)).Where(said => said.Value is not null)
            .ToDictionary(said => said.Path, said => said.Value is Reading reading ? reading.Text : Text(said.Value!));

        Assert.Equal(
            Leaves(written, "").OrderBy(leaf => leaf.Key, StringComparer.Ordinal), found.OrderBy(leaf => leaf.Key, StringComparer.Ordinal));
    }

    [Fact]
    public void All_EveryMember_CanStandOnTheFullSheet() => Assert.All(
        // A distance is an arc or an angle, never both.
        Catalogue.All.Where(member => member.Kind != MemberKind.Objects)
            .GroupBy(member => member.Name == "angle" ? $"{member.Path[..^"angle".Length]}arc" : member.Path),
        ways => Assert.True(
            ways.SelectMany(member => member.On(Full)).Any(said => said.Value is not null),
            $"The full sheet of the tests says nothing of {ways.Key}."));

    [Fact]
    public void Terms_EveryQuantityOfTheRules_HasAWordOfItsOwn()
    {
        Assert.Equal(Enum.GetValues<RuleQuantity>(), Catalogue.Terms.Select(term => term.Quantity));
        Assert.Equal(Catalogue.Terms.Count, Catalogue.Terms.Select(term => term.Word).Distinct(StringComparer.Ordinal).Count());
    }

    [Fact]
    public void Instruments_EveryKindButTheStandards_ReadsSomething() => Assert.Equal(
        Enum.GetValues<InstrumentKind>().Except([InstrumentKind.CheckWeight, InstrumentKind.CheckBlock]), InstrumentKinds.Measuring);

    [Fact]
    public void All_WhatIsMeasured_HasAUnitAndSaysWhatIsMissing() => Assert.All(
        Catalogue.All.Where(member => member.IsMeasured),
        member => Assert.True(member is { Quantity: not null, Unit: not null, Missing: not null }, member.Path));

    [Theory]
    [InlineData("holes[11].pieces[2].depth", "holes[].pieces[].depth")]
    [InlineData("size.diameters[1]", "size.diameters")]
    [InlineData("size.diameters", "size.diameters")]
    [InlineData("holes", "holes")]
    [InlineData("weights.sideways", null)]
    [InlineData("holes[x].depth", null)]
    public void At_Path_IsTheMemberItBelongsTo(string path, string? member) => Assert.Equal(member, Catalogue.At(path)?.Path);

    private static string Text(object value) => value switch
    {
        IReadOnlyList<string> words => string.Join(' ', words),
        bool flag => flag ? "true" : "false",
        _ => value.ToString()!,
    };

    // A list of words is one thing that is said; a list of readings is several.
    private static IEnumerable<KeyValuePair<string, string>> Leaves(JsonNode? node, string path) => node switch
    {
        JsonObject members => members.SelectMany(member => Leaves(member.Value, path.Length == 0 ? member.Key : $"{path}.{member.Key}")),
        JsonArray list when Catalogue.At(path) is { Kind: not (MemberKind.Reading or MemberKind.Objects) } =>
            [KeyValuePair.Create(path, string.Join(' ', list.Select(each => each!.GetValue<string>())))],
        JsonArray list => list.Index().SelectMany(each => Leaves(each.Item, FormattableString.Invariant($"{path}[{each.Index}]"))),
        _ => [KeyValuePair.Create(
            path, node!.GetValueKind() == System.Text.Json.JsonValueKind.String ? node.GetValue<string>() : node.ToJsonString())],
    };
}
