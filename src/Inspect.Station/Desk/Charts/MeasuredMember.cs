using Inspect.Sheets;
using Inspect.Sheets.Readings;

namespace Inspect.Station.Desk.Charts;

/// <summary>The members of a sheet whose readings are drawn, one for each quantity of the rules.</summary>
internal static class MeasuredMember
{
    /// <summary>The member at a path such as <c>holes[2].depth</c>; a piece of a hole counts with the hole, and null is nothing that the rules measure.</summary>
    public static SheetMember? Of(string path) => Catalogue.At(path) is { Kind: MemberKind.Reading, Rule: { } term } ? Catalogue.Of(term.Quantity) : null;

    /// <summary>What its readings are read as: a length may be zero here, because how far diameters differ is one.</summary>
    public static Quantity QuantityOf(SheetMember member) => member.Quantity == Quantity.Length ? Quantity.SignedLength : member.Quantity!.Value;
}
